package nec

import (
	"daybreak/internal/edition"
	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// SettingCounts follows 625.42 of the year: never, fixed equipment with
// restricted access, or any equipment with restricted access.
//
// Source: NEC 625.42(B).
func (b *Book) SettingCounts(m edition.SettingMeans, f edition.Fastening) edition.Cited[bool] {
	counts := m == edition.RestrictedAccess
	switch b.charging.settingCounts {
	case "never":
		counts = false
	case "fixed":
		counts = counts && f == edition.FixedInPlace
	}
	return edition.Cited[bool]{Value: counts, Source: b.charging.settingSource}
}

// ChargerLoad is the larger of the rating and the year's floor. The floor is
// not multiplied by 125 %.
//
// Source: NEC 220.57 (2026: 120.57, to be checked).
func (b *Book) ChargerLoad(rating unit.VoltAmps) edition.Cited[unit.VoltAmps] {
	return edition.Cited[unit.VoltAmps]{Value: max(rating, unit.VoltAmps(b.charging.floor.Value)), Source: b.charging.floor.Source}
}

// UnknownChargerLoad is 7200 VA where the year names it.
//
// Source: NEC 220.57 (2026: 120.57, to be checked).
func (b *Book) UnknownChargerLoad() (edition.Cited[unit.VoltAmps], error) {
	if e := &b.charging.unknown; e.there {
		return edition.Cited[unit.VoltAmps]{Value: unit.VoltAmps(e.cited.Value), Source: e.cited.Source}, nil
	}
	return edition.Cited[unit.VoltAmps]{}, b.silent("load of a charger without a rating", "the year names none; ask for the rating plate")
}

// IndividualCircuit holds above the year's amperes or volts.
//
// Source: NEC 625.40.
func (b *Book) IndividualCircuit(a unit.Amps, v unit.Volts) edition.Cited[bool] {
	over := float64(a) > b.charging.individualA.Value || float64(v) > b.charging.individualV.Value
	return edition.Cited[bool]{Value: over, Source: b.charging.individualA.Source}
}

// GroundFault is the first row that matches.
//
// Source: NEC 210.8(A), 210.8(F), 625.54.
func (b *Book) GroundFault(p edition.Place, c edition.Connection, circuit unit.Amps) (edition.Cited[edition.Requirement], error) {
	if err := positive("circuit", circuit); err != nil {
		return edition.Cited[edition.Requirement]{}, err
	}
	for i := range b.faults {
		f := &b.faults[i]
		if f.connection != c || (f.place != 0 && f.place != p) || circuit > f.to {
			continue
		}
		if f.required == 0 {
			return edition.Cited[edition.Requirement]{}, b.silent("ground-fault protection of a receptacle on "+unit.Print(circuit, 0)+" A", "the rule stops at 50 A")
		}
		return edition.Cited[edition.Requirement]{Value: f.required, Source: f.source}, nil
	}
	return edition.Cited[edition.Requirement]{}, fault.Invalid("place", p, "a place and a connection of the rule")
}

// Disconnect holds for hardwired equipment rated above the year's amperes. A
// dwelling's 240 V is 120 V to ground, so the voltage clause never bites.
//
// Source: NEC 625.43.
func (b *Book) Disconnect(c edition.Connection, rating unit.Amps) edition.Cited[bool] {
	return edition.Cited[bool]{Value: c == edition.Hardwired && float64(rating) > b.charging.disconnect.Value, Source: b.charging.disconnect.Source}
}

// CouplerHeight is 18 in indoors, 24 in outdoors, at the stored connector.
//
// Source: NEC 625.50.
func (b *Book) CouplerHeight(p edition.Place) edition.Cited[unit.Inches] {
	c := &b.charging.couplerIndoor
	if p == edition.Outdoor {
		c = &b.charging.couplerOutdoor
	}
	return edition.Cited[unit.Inches]{Value: unit.Inches(c.Value), Source: c.Source}
}

// TamperResistant covers 15 and 20 A receptacles.
//
// Source: NEC 406.12.
func (b *Book) TamperResistant(a unit.Amps) edition.Cited[bool] { return atMost(a, &b.charging.tamper) }

// WeatherResistant covers 15 and 20 A receptacles, from 2023 all.
//
// Source: NEC 406.9(A), 406.9(B).
func (b *Book) WeatherResistant(a unit.Amps) edition.Cited[bool] {
	return atMost(a, &b.charging.weather)
}

func atMost(a unit.Amps, limit *edition.Cited[float64]) edition.Cited[bool] {
	return edition.Cited[bool]{Value: float64(a) <= limit.Value, Source: limit.Source}
}

// PlugInLimit is 40 A, our rule: above it the charger is hardwired.
//
// Source: engineering judgement on NEC 625.44.
func (b *Book) PlugInLimit() edition.Cited[unit.Amps] { return inAmps(&b.charging.plugIn) }

// SmallestSetting is 6 A.
//
// Source: SAE J1772 control pilot, from memory.
func (b *Book) SmallestSetting() edition.Cited[unit.Amps] {
	return inAmps(&b.charging.smallestSettingA)
}

func inAmps(c *edition.Cited[float64]) edition.Cited[unit.Amps] {
	return edition.Cited[unit.Amps]{Value: unit.Amps(c.Value), Source: c.Source}
}

// Faces are the receptacles of NEMA WD 6 the rules name.
func (b *Book) Faces() []edition.Cited[edition.Face] { return b.faces }
