package circuit

import (
	"daybreak/internal/edition"
	"daybreak/internal/unit"
)

// LoadCurrent is what a charger counts for: its setting where the book lets a
// lower setting count, else its rating plate. A charger's load is continuous.
//
// Source: NEC 625.42 as the edition answers it.
func LoadCurrent(ed edition.Edition, rating, setting unit.Amps, means edition.SettingMeans, f edition.Fastening) edition.Cited[unit.Amps] {
	counts := ed.SettingCounts(means, f)
	if counts.Value && setting < rating {
		return edition.Cited[unit.Amps]{Value: setting, Source: counts.Source}
	}
	return edition.Cited[unit.Amps]{Value: rating, Source: counts.Source}
}

// DesignCurrent is the load with the continuous factor on it.
//
// Source: NEC 625.41, 210.19(A), 210.20(A).
func DesignCurrent(ed edition.Edition, load unit.Amps) edition.Cited[unit.Amps] {
	f := ed.ContinuousFactor()
	return edition.Cited[unit.Amps]{Value: load * unit.Amps(f.Value), Source: f.Source}
}

// DeviceFor is the next standard device at or above the design current of a
// continuous load.
//
// Source: NEC 625.41, 240.6(A).
func DeviceFor(ed edition.Edition, load unit.Amps) (edition.Cited[unit.Amps], error) {
	return ed.NextDevice(DesignCurrent(ed, load).Value)
}

// smallestDevice is the least branch circuit a charger is given: 10 A circuits
// may not supply receptacles (NEC 210.18), and 10 A breakers are rare.
const smallestDevice unit.Amps = 15
