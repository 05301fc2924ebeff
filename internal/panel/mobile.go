package panel

import (
	"math"

	"daybreak/internal/unit"
)

// MobileSheet is the load of a mobile home by its own article.
type MobileSheet struct {
	FloorArea unit.SquareFeet
	Range     unit.Kilowatts // free-standing range; 0 for none
	Others    []unit.VoltAmps
}

// MobileLoad is the result of a [MobileSheet], with its parts.
type MobileLoad struct {
	Lighting, Range, Total unit.VoltAmps
}

// MobileLoad calculates a mobile home: lighting, two small-appliance circuits
// and laundry through the demand tier, the range by its table, and everything
// else at nameplate.
//
// Source: NEC 550.18.
func (r *Rules) MobileLoad(s MobileSheet) MobileLoad {
	others := 0.0
	for _, x := range s.Others {
		others += float64(x)
	}
	light, rng := r.mobileLighting(float64(s.FloorArea)), r.mobileRange(float64(s.Range))
	return MobileLoad{va(light), va(rng), va(light + rng + others)}
}

func (r *Rules) mobileLighting(area float64) float64 {
	connected := area*r.mobile.perSqFt + r.small.least*r.small.perCircuit + r.laundry.perCircuit
	return bracket(connected, r.mobile.first, r.mobile.rest)
}

// mobileRange takes a rating above the table at its nameplate.
func (r *Rules) mobileRange(kw float64) float64 {
	for _, row := range r.mobile.ranges {
		if kw > row[0] && kw <= row[1] {
			if row[2] > 0 {
				return 1000 * kw * row[2] / 100
			}
			return row[3]
		}
	}
	return 1000 * kw
}

// mobileOutcome is 550.18 with the charger in full or at 125 %. Ranges go by
// the table; the largest motor is taken at 125 %.
func (in *Input) mobileOutcome(t *tally) Outcome {
	r := in.Rules
	out := Outcome{Method: MobileHome, Source: r.mobile.src, NoLiteral: true}
	if in.Carries != WholeDwelling {
		out.Refusal = RefusedPartFeeder
	} else if in.Dwelling != Mobile {
		out.Refusal = RefusedNotMobile
	}
	if out.Refusal != Permitted {
		return out
	}
	c := &t.chargers
	alone := in.mobileVA(t)
	out.Base = va(alone + c.oldCont)
	out.set(in, Continuous, alone+c.oldCont+c.newCont)
	out.set(in, Full, alone+c.oldFull+c.newFull)
	return out
}

func (in *Input) mobileVA(t *tally) float64 {
	r := in.Rules
	others := t.plates - t.rangePlates + math.Max(in.Heat.nameplate(), float64(in.Cooling))
	return r.mobileLighting(float64(in.FloorArea)) + r.mobileRange(t.rangePlates/1000) + others +
		r.motors.adder*in.largestMotor(t)
}
