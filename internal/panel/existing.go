package panel

import "math"

// existingOutcome is 220.83. Existing heat and cooling are taken in full
// outside the bracket, as (B) does, which is the safer reading of (A). Four or
// more separately controlled heaters are among the other loads; with cooling
// beside them both sheets are made and the larger kept.
func (in *Input) existingOutcome(t *tally) Outcome {
	e, c := &in.Rules.existing, &t.chargers
	out := Outcome{Method: ExistingDwelling, Source: e.src, Refusal: in.refuseExisting()}
	if in.Change == HeatingOrCoolingAdded {
		out.Source = e.added
	}
	if out.Refusal != Permitted {
		return out
	}
	general, ev := t.connected(), c.oldFull+c.newFull
	heat, cool := in.Heat.nameplate(), float64(in.Cooling)
	among := 0.0
	if in.roomHeaters() {
		among, heat = heat, 0
	}
	outside := math.Max(heat, cool)
	net := bracket(general, e.first, e.rest)
	alone := net + outside
	inside := bracket(general+ev, e.first, e.rest) + outside
	out.General, out.GeneralNet, out.HVAC = va(general), va(net), va(outside)
	if among > 0 {
		if rooms := bracket(general+among, e.first, e.rest); rooms >= alone {
			alone = rooms
			out.General, out.GeneralNet, out.HVAC = va(general+among), va(rooms), 0
		}
		inside = math.Max(inside, bracket(general+among+ev, e.first, e.rest))
	}
	in.fill(&out, alone, inside, c)
	if in.Change == NothingElse && !out.NoLiteral {
		out.AllInside = va(bracket(general+ev+math.Max(in.Heat.nameplate(), cool), e.first, e.rest))
	}
	return out
}

// roomHeaters says whether the heat is many separately controlled units.
func (in *Input) roomHeaters() bool {
	return in.Heat.Kind == Resistance && in.Heat.Units >= in.Rules.existing.manyUnits
}

func (in *Input) refuseExisting() Refusal {
	switch {
	case in.Carries != WholeDwelling:
		return RefusedPartFeeder
	case in.Dwelling == Mobile:
		return RefusedMobile
	case in.Stage == NewDwelling:
		return RefusedNewDwelling
	}
	return Permitted
}

// unseenArea says whether 220.83 by the older load per square foot would lower
// the verdict, where the edition's own was not seen.
func (in *Input) unseenArea(res *Result) bool {
	r := in.Rules
	if r.existing.careful <= r.lighting.perSqFt || res.Managed.Holds {
		return false
	}
	t := in.tally()
	t.lighting = float64(in.FloorArea) * r.existing.careful
	o := in.existingOutcome(&t)
	if o.Refusal != Permitted || !res.Methods[ExistingDwelling].Decides {
		return false
	}
	o.judge(res.Capacity.Amps)
	best := o.Verdict
	for m := range methodCount {
		if x := &res.Methods[m]; x.Decides && m != ExistingDwelling {
			best = max(best, x.Verdict)
		}
	}
	return best < res.Verdict
}
