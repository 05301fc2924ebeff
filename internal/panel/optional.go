package panel

import "math"

// optionalHeat is the largest of the heating and cooling choices of 220.82(C).
// Its lines: cooling; heat pump alone; heat pump with strips at 65 %; fewer
// than four heaters at 65 %; four or more at 40 %; storage in full.
func (in *Input) optionalHeat() float64 {
	o, h := &in.Rules.optional, &in.Heat
	heat := 0.0
	switch h.Kind {
	case HeatPumpAlone:
		heat = float64(h.Compressor)
	case HeatPumpWithStrips:
		strips := float64(h.VA) * o.strips
		heat = float64(h.Compressor) + strips
		if h.Interlock == NeverWithStrips {
			heat = math.Max(float64(h.Compressor), strips)
		}
	case Resistance:
		heat = float64(h.VA) * o.few
		if h.Units >= o.manyUnits {
			heat = float64(h.VA) * o.many
		}
	case Storage:
		heat = float64(h.VA)
	}
	return math.Max(heat, float64(in.Cooling))
}

// optionalOutcome is 220.82: the general loads through one bracket, then the
// heating or cooling choice, then the charger by its reading.
func (in *Input) optionalOutcome(t *tally) Outcome {
	o := &in.Rules.optional
	out := Outcome{Method: OptionalDwelling, Source: o.src, Refusal: in.refuseOptional()}
	if out.Refusal != Permitted {
		return out
	}
	general, hvac, c := t.connected(), in.optionalHeat(), &t.chargers
	net := bracket(general, o.first, o.rest)
	inside := bracket(general+c.oldFull+c.newFull, o.first, o.rest)
	out.General, out.GeneralNet, out.HVAC = va(general), va(net), va(hvac)
	in.fill(&out, net+hvac, inside+hvac, c)
	return out
}

func (in *Input) refuseOptional() Refusal {
	switch {
	case in.Carries != WholeDwelling:
		return RefusedPartFeeder
	case in.Dwelling == Mobile:
		return RefusedMobile
	case float64(in.Supply.Service) < in.Rules.optional.leastService:
		return RefusedUnder100A
	}
	return Permitted
}

// fill sets an outcome's readings from the load without chargers and, for
// methods with a bracket, the load with them inside it.
func (in *Input) fill(out *Outcome, alone, inside float64, c *chargers) {
	out.NoLiteral = !in.Rules.charger.bracket
	out.Base = va(alone + c.oldCont)
	out.set(in, Continuous, alone+c.oldCont+c.newCont)
	out.set(in, Full, alone+c.oldFull+c.newFull)
	if !out.NoLiteral {
		out.set(in, Literal, inside)
	}
}
