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
	zones    map[string]facts.ClimateZone
	editions map[string]facts.CodeEdition
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
	t := tableSet{
		vehicles: map[string]facts.VehicleRow{},
		zones:    choicesOf("place.climate_zone", func(f *facts.Facts) facts.Known[facts.ClimateZone] { return f.Place.ClimateZone }),
		editions: choicesOf("place.code_edition", func(f *facts.Facts) facts.Known[facts.CodeEdition] { return f.Place.CodeEdition }),
	}
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

// postalRow is the town of a postal code. A code the shop does not serve takes
// the shop's own town: it is assumed in any case until somebody confirms it.
func (b *Books) postalRow(code string) (facts.PostalRow, bool) {
	town, ok := b.Jurisdictions.At(code, b.Prices.From)
	if !ok {
		town, ok = b.Jurisdictions.At(b.Prices.Home(b.Prices.From).PostalCode, b.Prices.From)
	}
	if !ok {
		return facts.PostalRow{}, false
	}
	row := facts.PostalRow{
		Jurisdiction: town.Jurisdiction, Utility: town.Utility,
		ClimateStation: town.StationWBAN, TimeZone: town.TimeZone,
	}
	row.ClimateZone = b.tables.zones[town.ClimateZone]
	return row, true
}

func (b *Books) editionAt(jurisdiction string, permit facts.Date) (facts.CodeEdition, bool) {
	on, _ := unit.ParseDate(permit.String())
	year, ok := b.Jurisdictions.EditionOf(jurisdiction, on)
	if !ok {
		return 0, false
	}
	e := b.tables.editions[unit.Print(float64(year), 0)]
	return e, e != 0
}

// choicesOf are the values of a choice leaf by their words.
func choicesOf[T comparable](path string, at func(*facts.Facts) facts.Known[T]) map[string]T {
	out := map[string]T{}
	leaf, ok := facts.LeafAt(path)
	if !ok {
		return out
	}
	for _, word := range leaf.Words {
		var f facts.Facts
		if leaf.At(&f).Tell(word) == nil {
			out[word], _ = at(&f).Get()
		}
	}
	return out
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
