package wire

import (
	"fmt"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/fault"
	"daybreak/internal/panel"
	"daybreak/internal/unit"
)

// LoadCase reads a dwelling, its supply and the chargers to be added, by the
// rules of its edition.
func LoadCase(field string, m *daybreakv1.LoadCase, book *panel.Book) (panel.Input, error) {
	rules, err := book.Rules(Year(m.GetEdition()))
	if err != nil {
		return panel.Input{}, at(field+".edition", err)
	}
	in := panel.Input{
		Rules:      rules,
		Dwelling:   panel.Dwelling(m.GetDwellingKind() - 1),
		Volts:      unit.Volts(m.GetVolts()),
		FloorArea:  unit.SquareFeet(m.GetFloorAreaSqft()),
		SmallCirc:  int(or(m.SmallApplianceCircuits, 2)),
		LaundryCir: int(or(m.LaundryCircuits, 1)),
		Heat:       heat(m),
		Cooling:    unit.VoltAmps(m.GetCoolWatts()),
		Supply:     supply(m),
		Protection: panel.Protection(max(m.GetProtection(), 1) - 1),
		Measured:   measured(m),
		Source:     backfeed(m),
		Spaces:     spaces(m),
	}
	if m.GetNewDwelling() {
		in.Stage = panel.NewDwelling
	}
	if m.SetpointAmps != nil {
		in.Management = panel.Management{Kind: panel.MeasuredService, Setpoint: unit.Amps(m.GetSetpointAmps())}
	}
	for _, l := range m.GetLoads() {
		in.Loads = append(in.Loads, panel.Load{Kind: panel.LoadKind(l.GetKind() - 1), VA: unit.VoltAmps(l.GetWatts()), Count: int(or(l.Count, 1))})
	}
	for i, c := range m.GetChargers() {
		volts := or(c.Volts, m.GetVolts())
		if volts != 120 && volts != m.GetVolts() {
			return panel.Input{}, fault.Invalid(fmt.Sprintf("%s.chargers[%d].volts", field, i), volts, "120, or the volts of the supply")
		}
		charger := panel.Charger{Setting: unit.Amps(c.GetSettingAmps()), Volts: unit.Volts(volts)}
		if c.GetExistingCircuit() {
			charger.Circuit = panel.ExistingCircuit
		}
		in.Chargers = append(in.Chargers, charger)
	}
	return in, nil
}

func heat(m *daybreakv1.LoadCase) panel.Heat {
	h := panel.Heat{VA: unit.VoltAmps(m.GetHeatWatts()), Units: int(m.GetHeatUnits()), Compressor: unit.VoltAmps(m.GetHeatPumpWatts())}
	switch m.GetHeatKind() {
	case daybreakv1.HeatKind_HEAT_KIND_HEAT_PUMP, daybreakv1.HeatKind_HEAT_KIND_DUCTLESS:
		h.Kind = panel.HeatPumpAlone
	case daybreakv1.HeatKind_HEAT_KIND_HP_STRIPS:
		h.Kind = panel.HeatPumpWithStrips
	case daybreakv1.HeatKind_HEAT_KIND_FURNACE, daybreakv1.HeatKind_HEAT_KIND_BASEBOARD:
		h.Kind = panel.Resistance
		h.Units = max(h.Units, 1)
	default:
		return panel.Heat{}
	}
	return h
}

func supply(m *daybreakv1.LoadCase) panel.Ratings {
	service := m.GetServiceAmps()
	return panel.Ratings{
		Service:    unit.Amps(service),
		Main:       unit.Amps(or(m.MainBreakerAmps, service)),
		Bus:        unit.Amps(or(m.BusAmps, service)),
		Conductors: unit.Amps(or(m.ServiceConductorAmps, service)),
		Meter:      unit.Amps(or(m.MeterLimitAmps, service)),
	}
}

func measured(m *daybreakv1.LoadCase) panel.Measured {
	p := m.GetMeasured()
	if p == nil {
		return panel.Measured{}
	}
	out := panel.Measured{Record: panel.ThirtyDays, Peak: unit.Kilowatts(p.GetPeakKw()), IntervalMin: int(p.GetIntervalMinutes())}
	switch {
	case p.GetMonths() >= 12:
		out.Record = panel.OneYear
	case p.GetMonths() < 1:
		out.Record = panel.NoRecord
	}
	if p.GetLoadAddedSince() {
		out.Added = panel.LoadAdded
	}
	return out
}

// continuous is what a source's breaker is above its continuous output.
const continuous = 1.25

func backfeed(m *daybreakv1.LoadCase) panel.Backfeed {
	out := panel.Backfeed{Output: unit.Amps(m.GetBackfeedAmps() / continuous)}
	if m.BackfeedKind == nil || m.GetBackfeedKind() == daybreakv1.BackfeedKind_BACKFEED_KIND_NONE {
		return panel.Backfeed{}
	}
	out.Kind = panel.SourceKind(m.GetBackfeedKind() - 1)
	if m.BackfeedAtFarEnd != nil {
		out.Place = panel.ElsewhereOnBus
		if m.GetBackfeedAtFarEnd() {
			out.Place = panel.FarEnd
		}
	}
	return out
}

func spaces(m *daybreakv1.LoadCase) panel.Spaces {
	out := panel.Spaces{Free: int(m.GetFreeFullSpaces())}
	if m.FreeFullSpaces != nil {
		out.Seen = panel.Counted
	}
	if m.TandemAllowed != nil {
		out.Tandem = panel.TandemBarred
		if m.GetTandemAllowed() {
			out.Tandem = panel.TandemAllowed
		}
	}
	return out
}
