package wire

import (
	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/circuit/outlet"
	"daybreak/internal/working"
)

// Outlet is what an outlet that is there is good for.
func (w *Words) Outlet(slot string, v *outlet.Verdict) *daybreakv1.OutletFinding {
	out := &daybreakv1.OutletFinding{Slot: slot, Verdict: daybreakv1.OutletVerdict(v.Word + 1), SettingNowAmps: float64(v.Now)}
	if after, ok := v.After.Get(); ok {
		amps := float64(after)
		out.SettingAfterWorkAmps = &amps
	}
	for _, r := range v.Reasons {
		reason := &daybreakv1.OutletReason{Rule: r.Rule, What: w.rule(r.Words), Caution: r.Finding, Section: section(r.Source)}
		if r.Source != nil {
			reason.Status = status(r.Source.Status)
		}
		out.Reasons = append(out.Reasons, reason)
	}
	for i := range v.Ways {
		out.Ways = append(out.Ways, w.outletWay(&v.Ways[i]))
	}
	for _, c := range v.Verify {
		out.ToVerify = append(out.ToVerify, w.rule(c.Words()))
	}
	return out
}

func (w *Words) outletWay(way *outlet.Way) *daybreakv1.OutletWay {
	out := &daybreakv1.OutletWay{
		Kind: string(way.Kind), SettingAmps: float64(way.Setting), BreakerAmps: float64(way.Breaker),
		Receptacle: configuration(way.Receptacle), Lasting: way.Lasting,
	}
	for _, k := range way.Work {
		out.Work = append(out.Work, w.rule(k.Words(), working.Num("amps", k.Amps, "A"), working.Word("receptacle", k.Receptacle), working.Num("feet", k.Feet, "ft")))
	}
	return out
}

// Receptacle is one configuration a household may have.
func Receptacle(r *outlet.Receptacle) *daybreakv1.Receptacle {
	out := &daybreakv1.Receptacle{
		Configuration: configurationValue(r.ID), Text: r.Name, RatedVolts: float64(r.Rated), NominalVolts: float64(r.Nominal), RatedAmps: float64(r.Amps),
		Poles: int32(r.Poles), Wires: int32(r.Wires), Ground: r.Ground, Neutral: r.Neutral, Shape: r.Shape, Uses: r.Uses, Nicknames: r.Nicknames,
	}
	for _, id := range r.Confused {
		out.ConfusedWith = append(out.ConfusedWith, configurationValue(id))
	}
	return out
}

func configurationValue(id string) daybreakv1.Configuration {
	return daybreakv1.Configuration(placeOf("outlet.configuration", id))
}
