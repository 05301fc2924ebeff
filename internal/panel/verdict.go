package panel

import (
	"math"

	"daybreak/internal/unit"
)

// slack absorbs binary rounding only: 60.0 A on 60 A passes, 60.001 does not.
const slack = 1e-7

func va(x float64) unit.VoltAmps { return unit.VoltAmps(x) }

func (o *Outcome) set(in *Input, r Reading, x float64) {
	o.VA[r], o.Amps[r] = va(x), va(x).At(in.Volts)
}

// judge gives one method's verdict against the capacity.
func (o *Outcome) judge(capacity unit.Amps) {
	limit := capacity + slack
	switch {
	case o.Amps[Continuous] <= limit:
		o.Verdict = Fits
	case o.Amps[Full] <= limit:
		o.Verdict = Tight
	case !o.NoLiteral && o.Amps[Literal] <= limit:
		o.Verdict = AskTheAHJ
	default:
		o.Verdict = DoesNotFit
	}
}

// supply cases for which methods are allowed to decide.
const (
	wholeCase = iota
	partCase
	mobileCase
)

func (in *Input) deciders() methodSet {
	switch {
	case in.Carries != WholeDwelling:
		return in.Rules.decides[partCase]
	case in.Dwelling == Mobile:
		return in.Rules.decides[mobileCase]
	}
	return in.Rules.decides[wholeCase]
}

// outcome calculates by one method.
func (in *Input) outcome(m Method, t *tally) Outcome {
	switch m {
	case ExistingDwelling:
		return in.existingOutcome(t)
	case OptionalDwelling:
		return in.optionalOutcome(t)
	case MeasuredDemand:
		return in.measuredOutcome(t)
	case MobileHome:
		return in.mobileOutcome(t)
	}
	return in.generalOutcome(t)
}

// run fills every method and returns the deciding one.
func (in *Input) run(capacity unit.Amps, out *[methodCount]Outcome) (best Method) {
	t := in.tally()
	for m := range methodCount {
		out[m] = in.outcome(m, &t)
	}
	decides, found := in.deciders(), false
	for m := range methodCount {
		o := &out[m]
		if o.Refusal != Permitted {
			continue
		}
		o.judge(capacity)
		// A record taken beside a source is shown where the edition permits it,
		// but does not decide: the AHJ must agree that it is gross.
		o.Decides = decides.has(m) && (m != MeasuredDemand || in.Source.Kind == NoSource)
		if o.Decides && (!found || better(o, &out[best])) {
			best, found = m, true
		}
	}
	if !found && out[General].Refusal == Permitted {
		// A new dwelling on less than 100 A has no sheet but the general one.
		best, out[General].Decides = General, true
	}
	return best
}

// better: the firmer verdict; among equals the smaller load by the reading
// that gives the verdict, and by the safest where none passes.
func better(a, b *Outcome) bool {
	if a.Verdict != b.Verdict {
		return a.Verdict > b.Verdict
	}
	r := a.reading()
	return a.Amps[r] < b.Amps[r]
}

// reading is the reading that gives an outcome's verdict.
func (o *Outcome) reading() Reading {
	switch o.Verdict {
	case Tight:
		return Full
	case AskTheAHJ:
		return Literal
	}
	return Continuous
}

// spare is what the capacity leaves over the safest reading, unrounded.
func (o *Outcome) spare(capacity unit.Amps) unit.Amps {
	s := capacity - o.Amps[Continuous]
	if math.Abs(float64(s)) < slack {
		return 0
	}
	return s
}
