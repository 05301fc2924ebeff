package tree

import (
	"math"

	"daybreak/internal/facts"
	"daybreak/internal/facts/condition"
)

// scene is what a draw may look at.
type scene struct {
	f     *facts.Facts
	world *World
}

// assignment is a leaf and a value in the form of [facts.Slot.DeriveNumber].
type assignment struct {
	leaf *facts.Leaf
	num  float64
}

// outcome is what one draw decides: some leaves, or nothing when what the
// distribution rests on is missing. A text outcome is a postal code.
type outcome struct {
	set  []assignment
	one  assignment // when set is nil
	text string
	none bool
}

func number(l *facts.Leaf, x float64) outcome { return outcome{one: assignment{l, x}} }

// distribution is what is taken when nobody knows.
type distribution interface {
	// at is the outcome for a number between 0 and 1.
	at(u float64, s scene) outcome
	// middle is the median, or the most likely outcome of a pick.
	middle(s scene) outcome
}

// omitted draws nothing.
type omitted struct{}

func (omitted) at(float64, scene) outcome { return outcome{none: true} }
func (omitted) middle(scene) outcome      { return outcome{none: true} }

// lognormal is a positive quantity with a long upper end; zero is the share of
// plain zeros below it.
type lognormal struct {
	leaf                *facts.Leaf
	p10, p50, p90, zero float64
}

func (d lognormal) at(u float64, _ scene) outcome {
	if u < d.zero {
		return number(d.leaf, 0)
	}
	return number(d.leaf, lognormalAt((u-d.zero)/(1-d.zero), d.p10, d.p50, d.p90))
}

func (d lognormal) middle(s scene) outcome { return d.at(0.5, s) }

// triangle is a quantity between two ends with one likely value.
type triangle struct {
	leaf            *facts.Leaf
	low, mode, high float64
}

func (d triangle) at(u float64, _ scene) outcome {
	return number(d.leaf, triangleAt(u, d.low, d.mode, d.high))
}

func (d triangle) middle(scene) outcome { return number(d.leaf, d.mode) }

// hour is a time of day.
type hour struct {
	leaf     *facts.Leaf
	mean, sd float64
}

func (d hour) at(u float64, _ scene) outcome { return number(d.leaf, hourAt(u, d.mean, d.sd)) }
func (d hour) middle(scene) outcome          { return number(d.leaf, d.mean) }

// archetypeSpread is a spread around what is usual for the kind of vehicle.
type archetypeSpread struct {
	leaf   *facts.Leaf
	spread float64
}

func (d archetypeSpread) at(u float64, s scene) outcome {
	row, ok := s.vehicleRow()
	if !ok {
		return outcome{none: true}
	}
	return number(d.leaf, float64(row.UsableKWh)*math.Exp(d.spread*normalAt(u)))
}

func (d archetypeSpread) middle(s scene) outcome { return d.at(0.5, s) }

func (s scene) vehicleRow() (facts.VehicleRow, bool) {
	kind, ok := s.f.Vehicle.Archetype.Get()
	if !ok || s.world.Tables.Archetype == nil {
		return facts.VehicleRow{}, false
	}
	return s.world.Tables.Archetype(kind)
}

// archetypeSteps is one step down or up the question's values from what is
// usual for the kind of vehicle.
type archetypeSteps struct {
	leaf          *facts.Leaf
	values        []float64 // ascending
	lower, higher float64   // shares; the rest stays
}

func (d archetypeSteps) at(u float64, s scene) outcome {
	row, ok := s.vehicleRow()
	if !ok {
		return outcome{none: true}
	}
	usual := float64(row.OnboardChargerKW)
	switch {
	case u < d.lower:
		return number(d.leaf, below(d.values, usual))
	case u >= 1-d.higher:
		return number(d.leaf, above(d.values, usual))
	}
	return number(d.leaf, usual)
}

func (d archetypeSteps) middle(s scene) outcome { return d.at((d.lower+1-d.higher)/2, s) }

// relative is another leaf's value, or the next of the question's values up.
type relative struct {
	leaf, to *facts.Leaf
	values   []float64
	same     float64 // share
}

func (d relative) at(u float64, s scene) outcome {
	x, ok := d.to.At(s.f).Number()
	if !ok {
		return outcome{none: true}
	}
	if u >= d.same {
		x = above(d.values, x)
	}
	return number(d.leaf, x)
}

func (d relative) middle(s scene) outcome { return d.at(0, s) }

// below returns the next smaller of ascending values, or x when there is none.
func below(values []float64, x float64) float64 {
	for i := len(values) - 1; i >= 0; i-- {
		if values[i] < x {
			return values[i]
		}
	}
	return x
}

// above returns the next larger of ascending values, or x when there is none.
func above(values []float64, x float64) float64 {
	for _, v := range values {
		if v > x {
			return v
		}
	}
	return x
}

// homeRegion is the shop's own postal code.
type homeRegion struct{}

func (homeRegion) at(_ float64, s scene) outcome {
	return outcome{text: s.world.HomePostal, none: s.world.HomePostal == ""}
}

func (d homeRegion) middle(s scene) outcome { return d.at(0, s) }

// rows is the first distribution whose condition holds; the last always does.
type rows []row

type row struct {
	when *condition.Condition // nil: always
	dist distribution
}

func (d rows) choose(s scene) distribution {
	for _, r := range d {
		if r.when == nil || r.when.Truth(s.f) == condition.True {
			return r.dist
		}
	}
	return omitted{}
}

func (d rows) at(u float64, s scene) outcome { return d.choose(s).at(u, s) }
func (d rows) middle(s scene) outcome        { return d.choose(s).middle(s) }
