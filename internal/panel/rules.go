package panel

import "daybreak/internal/working"

// Rules are one edition's values for load calculations. They are read-only.
type Rules struct {
	year int

	decides [3]methodSet // by the supply's case: whole dwelling, part, mobile home

	lighting struct {
		perSqFt float64
		src     *working.Source
	}
	small, laundry struct {
		perCircuit, least float64
		src               *working.Source
	}
	tiers struct {
		first, nextTo, nextFactor, restFactor float64
		src                                   *working.Source
	}
	fastened struct {
		least           int
		factor, leastVA float64
		src             *working.Source
	}
	dryer struct {
		least float64
		rows  [][]float64
		src   *working.Source
	}
	cooking struct {
		least, aBelow, bTo, cTo, raise float64 // kW, and the raise as a share
		rows                           [][]float64
		src                            *working.Source
	}
	noncoincident struct {
		lesserCooling float64
		src           *working.Source
	}
	motors struct {
		adder float64
		src   *working.Source
	}
	neutral struct {
		factor float64
		src    *working.Source
	}
	charger struct {
		leastVA, unknownVA float64
		bracket            bool
		src                *working.Source
	}
	continuous struct {
		factor float64
		src    *working.Source
	}
	setting struct {
		counts         SettingCounts
		standard, fine []float64
		src            *working.Source
	}
	optional struct {
		leastService, first, rest, strips, few, many float64
		manyUnits                                    int
		src                                          *working.Source
	}
	existing struct {
		first, rest, careful float64
		manyUnits            int
		src, added           *working.Source
	}
	measured struct {
		factor, powerFactor float64
		intervals           [][]float64
		barred              recordBar
		src                 *working.Source
	}
	mobile struct {
		perSqFt, first, rest float64
		ranges               [][]float64
		src                  *working.Source
	}
	multifamily struct {
		leastUnits int
		rows       [][]float64
		src        *working.Source
	}
	conductors struct {
		factor float64
		rows   []conductorRow
		src    *working.Source
	}
	devices struct {
		amps []float64
		src  *working.Source
	}
	service struct {
		oneFamily, finding float64
		upgrades           []float64
		src                *working.Source
	}
	bus struct {
		source, farEnd                float64
		sum100, sum120, sumOfBreakers *working.Source
	}
	management struct {
		factor float64
		src    *working.Source
	}
	screen struct {
		leastService, mostCharger, spare, unseenSpare float64
		src                                           *working.Source
	}
	welder struct {
		rows [][]float64
		src  *working.Source
	}
	general, heating, rounding, twoFamily, capacity, feeder *working.Source
	spaces, sharing, upgrade, newBoard                      *working.Source

	loads   [loadKinds]loadClass
	sources []*working.Source
}

// Edition is the year of the edition, such as 2023.
func (r *Rules) Edition() int { return r.year }

// Sources lists every rule's section and how firmly it is known, in the order
// of the file.
func (r *Rules) Sources() []working.Source {
	out := make([]working.Source, len(r.sources))
	for i, s := range r.sources {
		out[i] = *s
	}
	return out
}

// SettingCounts says on which equipment a setting below the rating plate
// counts as the charger's load.
type SettingCounts uint8

const (
	// RatingOnly: never; choose equipment of a lower rating.
	RatingOnly SettingCounts = iota
	// FastenedEquipment: on equipment fastened in place, access restricted.
	FastenedEquipment
	// AnyEquipment: also on cord-connected equipment, access restricted.
	AnyEquipment
)

// SettingCounts says where a lower setting counts in this edition.
//
// Source: NEC 625.42.
func (r *Rules) SettingCounts() SettingCounts { return r.setting.counts }

// recordBar says which demand records a source on the service bars.
type recordBar uint8

const (
	anyRecord recordBar = iota
	thirtyDayRecord
)

// methodSet is a set of methods.
type methodSet uint8

func (s methodSet) has(m Method) bool { return s&(1<<m) != 0 }

// conductorRow is a row of the dwelling service conductor table.
type conductorRow struct {
	amps float64
	cu   string
	al   string
}
