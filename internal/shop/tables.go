package shop

import (
	"daybreak/internal/charging"
	"daybreak/internal/facts"
	"daybreak/internal/panel"
	"daybreak/internal/unit"
)

// tableSet holds the look-ups of a household, made once.
type tableSet struct {
	tables   facts.Tables
	vehicles map[string]facts.VehicleRow
}

// Complete fills a household from the books: its town, its car, the plates of
// its appliances, and what follows from other leaves.
func (b *Books) Complete(f *facts.Facts, asOf unit.Date) {
	facts.Complete(f, factsDate(asOf), b.tables.tables)
}

func factsDate(d unit.Date) facts.Date {
	out, _ := facts.ParseDate(d.String())
	return out
}

func (b *Books) makeTables() tableSet {
	t := tableSet{vehicles: map[string]facts.VehicleRow{}}
	for _, v := range b.Charging.Vehicles.List() {
		t.vehicles[v.ID] = vehicleRow(v)
	}
	t.tables = facts.Tables{
		Model: func(id string) (facts.VehicleRow, bool) { row, ok := t.vehicles[id]; return row, ok },
		Archetype: func(a facts.Archetype) (facts.VehicleRow, bool) {
			row, ok := t.vehicles[a.String()]
			return row, ok
		},
		Postal:    b.postalRow,
		Edition:   b.editionAt,
		Station:   b.stationRow,
		LoadWatts: b.loadWatts,
		HeatWatts: b.heatWatts,
		HeatPump: func(area unit.SquareFeet, zone facts.ClimateZone) (unit.Watts, bool) {
			va := b.Appliances.CoolingByArea(area, panel.ZoneOf(zone.String()))
			return unit.Watts(va), va > 0
		},
		CoolWatts: b.coolWatts,
	}
	return t
}

// vehicleRow reads a row of the vehicle table into leaves, word by word.
func vehicleRow(v charging.Vehicle) facts.VehicleRow {
	var f facts.Facts
	set := func(path, word string) {
		if leaf, ok := facts.LeafAt(path); ok {
			_ = leaf.At(&f).Tell(word) // a row's word that is no word of the leaf leaves it unknown
		}
	}
	set("vehicle.archetype", v.ID)
	set("vehicle.inlet", v.Inlet)
	set("vehicle.dc_inlet", v.DCInlet)
	kind, _ := f.Vehicle.Archetype.Get()
	inlet, _ := f.Vehicle.Inlet.Get()
	dc, _ := f.Vehicle.DCInlet.Get()
	return facts.VehicleRow{
		Archetype: kind, Inlet: inlet, DCInlet: dc,
		UsableKWh: v.Usable, WallKWhPer100Mi: float64(v.Consumption),
		OnboardChargerKW: v.OnboardKW, MaxACAmps: v.OnboardAmps,
		DCPeakKW: v.DCPeak, PetrolBackup: v.PetrolBackup,
	}
}

func (b *Books) postalRow(code string) (facts.PostalRow, bool) {
	town, ok := b.Jurisdictions.At(code, b.Prices.From)
	if !ok {
		return facts.PostalRow{}, false
	}
	row := facts.PostalRow{
		Jurisdiction: town.Jurisdiction, Utility: town.Utility,
		ClimateStation: town.StationWBAN, TimeZone: town.TimeZone,
	}
	row.ClimateZone = choiceOf[facts.ClimateZone]("place.climate_zone", town.ClimateZone, func(f *facts.Facts) facts.Known[facts.ClimateZone] { return f.Place.ClimateZone })
	return row, true
}

func (b *Books) editionAt(jurisdiction string, permit facts.Date) (facts.CodeEdition, bool) {
	on, _ := unit.ParseDate(permit.String())
	year, ok := b.Jurisdictions.EditionOf(jurisdiction, on)
	if !ok {
		return 0, false
	}
	e := choiceOf("place.code_edition", unit.Print(float64(year), 0), func(f *facts.Facts) facts.Known[facts.CodeEdition] { return f.Place.CodeEdition })
	return e, e != 0
}

// choiceOf is the value of a choice leaf for a word; zero when it is none of
// its words.
func choiceOf[T comparable](path, word string, at func(*facts.Facts) facts.Known[T]) T {
	var f facts.Facts
	if leaf, ok := facts.LeafAt(path); ok {
		_ = leaf.At(&f).Tell(word) // not a word of the list: the leaf stays unknown
	}
	v, _ := at(&f).Get()
	return v
}

func (b *Books) stationRow(id string) (facts.StationRow, bool) {
	s, err := b.Charging.Climates.Station(id)
	if err != nil {
		return facts.StationRow{}, false
	}
	_, coldest := s.Mean.Coldest()
	return facts.StationRow{JanuaryMeanF: s.Mean[0], ColdestNightF: coldest - coldNightBelowMean}, true
}

// coldNightBelowMean is how far a cold night lies below the coldest month's
// mean, °F.
//
// Source: engineering judgement; the table holds monthly means only.
const coldNightBelowMean = unit.Fahrenheit(20)

func (b *Books) loadWatts(kind string) (unit.Watts, bool) {
	k, ok := panel.LoadKindOf(kind)
	if !ok {
		return 0, false
	}
	va := b.Appliances.Of(k).Default
	return unit.Watts(va), va > 0
}

func (b *Books) heatWatts(kind facts.HeatKind, area unit.SquareFeet, zone facts.ClimateZone) (unit.Watts, bool) {
	z := panel.ZoneOf(zone.String())
	switch kind {
	case facts.HeatKindBaseboard:
		va, _ := b.Appliances.BaseboardByArea(area)
		return unit.Watts(va), va > 0
	case facts.HeatKindFurnace, facts.HeatKindHpStrips:
		va := b.Appliances.FurnaceByArea(area, z)
		return unit.Watts(va), va > 0
	}
	return 0, false
}

func (b *Books) coolWatts(kind facts.CoolKind, area unit.SquareFeet, zone facts.ClimateZone) (unit.Watts, bool) {
	central := b.Appliances.CoolingByArea(area, panel.ZoneOf(zone.String()))
	id := map[facts.CoolKind]string{facts.CoolKindWindow: "room_ac", facts.CoolKindMini: "heat_pump_ductless"}[kind]
	switch {
	case kind == facts.CoolKindCentral:
		return unit.Watts(central), central > 0
	case id == "":
		return 0, kind == facts.CoolKindNone
	}
	a, ok := b.Appliances.ByID(id)
	return unit.Watts(a.Default), ok
}
