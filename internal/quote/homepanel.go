package quote

import (
	"daybreak/internal/facts"
	"daybreak/internal/panel"
	"daybreak/internal/unit"
)

// readPanel fills the load sheet of the house as it stands, without the
// charger.
func (h *home) readPanel(r *reader) {
	f, p := h.facts, &h.facts.Panel
	h.supply = take(r, p.SupplyVolts, "panel.supply_volts")
	in := panel.Input{
		Rules:      h.rules,
		Dwelling:   dwellings[take(r, f.Place.DwellingKind, "place.dwelling_kind")],
		Volts:      h.supply,
		FloorArea:  take(r, f.Place.FloorAreaSqFt, "place.floor_area_sqft"),
		SmallCirc:  or(p.SmallApplianceCircuits, 2),
		LaundryCir: or(p.LaundryCircuits, 1),
		Supply: panel.Ratings{
			Service:    take(r, p.ServiceAmps, "panel.service_amps"),
			Main:       take(r, p.MainBreakerAmps, "panel.main_breaker_amps"),
			Bus:        take(r, p.BusAmps, "panel.bus_amps"),
			Conductors: take(r, p.ServiceConductorAmps, "panel.service_conductor_amps"),
			Meter:      take(r, p.MeterLimitAmps, "panel.meter_limit_amps"),
		},
		Protection: protections[take(r, p.Protection, "panel.protection")],
		Loads:      h.loads(r),
		Spaces:     h.spaces(r),
	}
	in.Heat = h.heat(r)
	in.Cooling = h.cooling(r)
	h.measured(&in)
	h.backfeed(&in)
	h.load = in
}

var dwellings = map[facts.DwellingKind]panel.Dwelling{
	facts.DwellingKindHouse: panel.House, facts.DwellingKindRow: panel.Row, facts.DwellingKindFlat: panel.Flat,
	facts.DwellingKindMobile: panel.Mobile, facts.DwellingKindOther: panel.OtherDwelling,
}

var protections = map[facts.Protection]panel.Protection{
	facts.ProtectionBreakers: panel.Breakers, facts.ProtectionFuses: panel.Fuses, facts.ProtectionBoth: panel.BreakersAndFuses,
}

// loadWords are the kinds of load, in the one order facts and panel share.
var loadWords = facts.LoadKinds()

// loads are the electric appliances at their plates, one slot for each kind.
func (h *home) loads(r *reader) []panel.Load {
	var out []panel.Load
	for i, word := range loadWords {
		slot := h.facts.Panel.Loads.Of(i)
		if !slot.Fuel.Is(facts.FuelElectric) {
			continue
		}
		va := unit.VoltAmps(take(r, slot.Watts, "panel.loads."+word+".watts"))
		if count := or(slot.Count, 1); va > 0 && count > 0 {
			out = append(out, panel.Load{Kind: panel.LoadKind(i), VA: va, Count: count})
		}
	}
	return out
}

func (h *home) spaces(r *reader) panel.Spaces {
	p := &h.facts.Panel
	s := panel.Spaces{Seen: panel.Counted, Free: take(r, p.FreeFullSpaces, "panel.free_full_spaces")}
	if allowed, ok := p.TandemAllowed.Get(); ok {
		s.Tandem = panel.TandemBarred
		if allowed {
			s.Tandem = panel.TandemAllowed
		}
	}
	return s
}

// heat is the electric heat at its plates, told or looked up.
func (h *home) heat(r *reader) panel.Heat {
	p := &h.facts.Panel
	resistance := func() unit.VoltAmps { return unit.VoltAmps(take(r, p.HeatWatts, "panel.heat_watts")) }
	compressor := func() unit.VoltAmps { return unit.VoltAmps(take(r, p.HeatPumpWatts, "panel.heat_pump_watts")) }
	switch take(r, p.HeatKind, "panel.heat_kind") {
	case facts.HeatKindHeatPump, facts.HeatKindDuctless:
		return panel.Heat{Kind: panel.HeatPumpAlone, Compressor: compressor()}
	case facts.HeatKindHpStrips:
		return panel.Heat{Kind: panel.HeatPumpWithStrips, Compressor: compressor(), VA: resistance()}
	case facts.HeatKindFurnace:
		return panel.Heat{Kind: panel.Resistance, VA: resistance(), Units: 1}
	case facts.HeatKindBaseboard:
		return panel.Heat{Kind: panel.Resistance, VA: resistance(), Units: take(r, p.HeatUnits, "panel.heat_units")}
	}
	return panel.Heat{}
}

// cooling is the cooling load; a heat pump's own compressor cools.
func (h *home) cooling(r *reader) unit.VoltAmps {
	p := &h.facts.Panel
	if p.HeatKind.Is(facts.HeatKindHeatPump) || p.HeatKind.Is(facts.HeatKindHpStrips) {
		return unit.VoltAmps(or(p.CoolWatts, 0))
	}
	if take(r, p.CoolKind, "panel.cool_kind") == facts.CoolKindNone {
		return 0
	}
	return unit.VoltAmps(take(r, p.CoolWatts, "panel.cool_watts"))
}

func (h *home) measured(in *panel.Input) {
	p := &h.facts.Panel
	peak, ok := p.MeasuredPeakKW.Get()
	if !ok {
		return
	}
	in.Measured = panel.Measured{Record: panel.ThirtyDays, Peak: peak, IntervalMin: or(p.MeasuredIntervalMinutes, 60)}
	if or(p.MeasuredMonths, 12) >= 12 {
		in.Measured.Record = panel.OneYear
	}
	if p.LoadAddedSince.Is(true) {
		in.Measured.Added = panel.LoadAdded
	}
}

func (h *home) backfeed(in *panel.Input) {
	p := &h.facts.Panel
	kind, ok := p.BackfeedKind.Get()
	if !ok || kind == facts.BackfeedKindNone {
		return
	}
	in.Source.Kind = map[facts.BackfeedKind]panel.SourceKind{
		facts.BackfeedKindSolar: panel.Solar, facts.BackfeedKindBattery: panel.Battery, facts.BackfeedKindBoth: panel.SolarAndBattery,
	}[kind]
	in.Source.Output = unit.Amps(float64(or(p.BackfeedAmps, 0)) / 1.25)
	if far, told := p.BackfeedAtFarEnd.Get(); told {
		in.Source.Place = panel.ElsewhereOnBus
		if far {
			in.Source.Place = panel.FarEnd
		}
	}
}
