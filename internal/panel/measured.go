package panel

import "math"

// measuredOutcome is 220.87: 125 % of the measured peak and the new load. A
// 30-day record also gets the larger of heat and cooling, since its season may
// not have shown it. Chargers that stand already are in the peak.
func (in *Input) measuredOutcome(t *tally) Outcome {
	m := &in.Rules.measured
	out := Outcome{Method: MeasuredDemand, Source: m.src, NoLiteral: true, Refusal: in.refuseMeasured()}
	if out.Refusal != Permitted {
		return out
	}
	alone := in.measuredVA()
	out.Base = va(alone)
	out.set(in, Continuous, alone+t.chargers.newCont)
	out.set(in, Full, alone+t.chargers.newFull)
	return out
}

// measuredVA is the existing load the record shows, in VA at the supply.
func (in *Input) measuredVA() float64 {
	m := &in.Rules.measured
	factor := 1.0
	if row := rowFor(m.intervals, float64(in.Measured.IntervalMin)); row != nil {
		factor = row[1]
	}
	season := 0.0
	if in.Measured.Record == ThirtyDays {
		season = math.Max(in.Heat.nameplate(), float64(in.Cooling))
	}
	return m.factor*1000*float64(in.Measured.Peak)*factor/m.powerFactor + season
}

// refuseMeasured: a source bars the record as the edition says; net data never
// serve, whatever the edition.
func (in *Input) refuseMeasured() Refusal {
	source, m := in.Source.Kind != NoSource, &in.Measured
	switch {
	case m.Record == NoRecord:
		return RefusedNoRecord
	case m.Added == LoadAdded:
		return RefusedLoadAdded
	case source && (in.Rules.measured.barred == anyRecord || m.Record == ThirtyDays):
		return RefusedGeneration
	case source && m.Generation != GrossOfGeneration:
		return RefusedNetData
	}
	return Permitted
}
