package circuit

import (
	"math"

	"daybreak/internal/edition"
	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// System is how the load is supplied.
type System uint8

// The systems. 208 V between two hots of a wye is still two conductors.
const (
	SinglePhase System = iota // two conductors, factor 2
	ThreePhase                // factor √3; for checking published examples
)

// Stretch is a run of one wire, for its voltage drop.
type Stretch struct {
	System  System
	Load    unit.Amps // the real current, never 125 % of it
	Volts   unit.Volts
	Feet    unit.Feet // one way
	Wire    edition.Wire
	Raceway edition.Raceway
	Factor  edition.PowerFactor
}

// Drop is a voltage drop and its share of the nominal voltage.
type Drop struct {
	Volts   unit.Volts
	Percent float64
}

// factor of the way there and back.
func (s System) factor() float64 {
	if s == ThreePhase {
		return math.Sqrt(3)
	}
	return 2
}

// VoltageDrop is 2·I·Ze·L/1000.
//
// Source: NEC Chapter 9 Table 9, its note 2; common practice.
func VoltageDrop(ed edition.Edition, s Stretch) (Drop, error) {
	switch {
	case !(s.Load >= 0) || !unit.Finite(s.Load):
		return Drop{}, fault.Invalid("load_amps", float64(s.Load), "0 A or more")
	case !(s.Feet >= 0) || !unit.Finite(s.Feet):
		return Drop{}, fault.Invalid("feet", float64(s.Feet), "0 ft or more")
	case !(s.Volts > 0) || !unit.Finite(s.Volts):
		return Drop{}, fault.Invalid("volts", float64(s.Volts), "more than 0 V")
	}
	z, err := ed.Impedance(s.Wire, s.Raceway, s.Factor)
	if err != nil {
		return Drop{}, err
	}
	v := s.System.factor() * float64(s.Load) * float64(z.Value) * float64(s.Feet) / 1000
	return Drop{unit.Volts(v), 100 * v / float64(s.Volts)}, nil
}

// LongestRun is the one-way length at which a wire reaches a limit in per cent.
func LongestRun(ed edition.Edition, s Stretch, limitPercent float64) (unit.Feet, error) {
	s.Feet = 1000
	d, err := VoltageDrop(ed, s)
	if err != nil {
		return 0, err
	}
	if !(limitPercent > 0) || d.Percent == 0 {
		return 0, fault.Invalid("limit_percent", limitPercent, "more than 0 %, with a load")
	}
	return unit.Feet(1000 * limitPercent / d.Percent), nil
}

// SizeForDrop is the first size from the wire's own on that holds a limit; the
// size is none when the book's ladder ends before that.
func SizeForDrop(ed edition.Edition, s Stretch, limitPercent float64) (edition.Size, Drop, error) {
	for _, size := range ed.Sizes() {
		if size.Rank() < s.Wire.Size.Rank() {
			continue
		}
		s.Wire.Size = size
		d, err := VoltageDrop(ed, s)
		if err != nil {
			return edition.Size{}, d, err
		}
		if d.Percent <= limitPercent+hair {
			return size, d, nil
		}
	}
	return edition.Size{}, Drop{}, nil
}

// chargerImpedance is the larger of R (chargers run at power factor one) and
// the printed 0.85 column, so that a drop is never understated: the latter
// alone reads 10 % low in small sizes.
//
// Source: NEC Chapter 9 Table 9; the choice is engineering judgement.
func chargerImpedance(ed edition.Edition, w edition.Wire, r edition.Raceway) (edition.Cited[edition.OhmsPer1000Feet], error) {
	one, err := ed.Impedance(w, r, edition.PowerFactor{Value: 1})
	if err != nil {
		return one, err
	}
	printed, err := ed.Impedance(w, r, edition.PowerFactor{Printed: true})
	if err == nil && printed.Value > one.Value {
		return printed, nil
	}
	return one, nil
}
