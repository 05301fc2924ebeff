package inspector

import (
	"fmt"

	"daybreak/internal/facts"
	"daybreak/internal/panel"
	"daybreak/internal/quote"
)

// tenth is how near a calculated current must be, in amperes.
const tenth = 0.1

// counted is the charger of an option in VA, as it counts.
func counted(o *quote.Option) float64 {
	load := o.Setting
	if o.Circuit != nil && o.Circuit.Load > 0 {
		load = o.Circuit.Load
	}
	return float64(load) * float64(o.Volts)
}

// capacity: what the supply may carry is the least of its ratings.
//
// Source: NEC 230.79, 230.90, 310.12, 408.36.
func (s *sight) capacity(o *quote.Option) {
	if o.Panel != nil {
		s.holds(near(float64(o.Panel.Capacity.Amps), s.loads.capacity, hair), amps(o.Panel.Capacity.Amps)+" capacity", amps(s.loads.capacity))
	}
}

// compare lays one method of the panel's beside the inspector's.
func (s *sight) compare(o *quote.Option, m panel.Method, want readings) {
	got := &o.Panel.Methods[m]
	if got.Refusal != panel.Permitted {
		return
	}
	for _, r := range []struct {
		name      string
		got, want float64
		skip      bool
	}{
		{"continuous", float64(got.Amps[panel.Continuous]), want.continuous, false},
		{"full", float64(got.Amps[panel.Full]), want.full, false},
		{"literal", float64(got.Amps[panel.Literal]), want.literal, want.noLiteral && got.NoLiteral},
	} {
		s.holds(r.skip || finite(r.got) && near(r.got, r.want, tenth), fmt.Sprintf("%s %s, %s", m, r.name, amps(r.got)), amps(r.want))
	}
	s.holds(got.NoLiteral == want.noLiteral, fmt.Sprintf("%s literal reading %v", m, !got.NoLiteral), fmt.Sprintf("%v", !want.noLiteral))
}

// existingLoad: the load of an existing dwelling, by three readings, to 0.1 A.
//
// Source: NEC 220.83.
func (s *sight) existingLoad(o *quote.Option) {
	if o.Panel != nil && !s.loads.mobile {
		s.compare(o, panel.ExistingDwelling, s.byExisting(counted(o)))
	}
}

// optionalLoad: the load of one dwelling by the optional method.
//
// Source: NEC 220.82.
func (s *sight) optionalLoad(o *quote.Option) {
	if o.Panel != nil && !s.loads.mobile {
		s.compare(o, panel.OptionalDwelling, s.byOptional(counted(o)))
	}
}

// optionalLeastService: the optional method is for services of 100 A or more.
//
// Source: NEC 220.82(A).
func (s *sight) optionalLeastService(o *quote.Option) {
	if o.Panel == nil || s.loads.service >= s.Optional.LeastService {
		return
	}
	got := &o.Panel.Methods[panel.OptionalDwelling]
	s.holds(got.Refusal != panel.Permitted && !got.Decides, "220.82 on "+amps(s.loads.service), "a service of at least "+amps(s.Optional.LeastService))
}

// measuredLoad: 125 % of the measured peak and the charger; no record beside a
// source, or older than a load, decides.
//
// Source: NEC 220.87.
func (s *sight) measuredLoad(o *quote.Option) {
	if o.Panel == nil {
		return
	}
	got := &o.Panel.Methods[panel.MeasuredDemand]
	if s.loads.peak == 0 {
		s.holds(!got.Decides, "220.87 decides", "a record that may be used")
		return
	}
	s.holds(got.Refusal == panel.Permitted, "220.87 refused: "+got.Refusal.String(), "permitted")
	s.compare(o, panel.MeasuredDemand, s.byMeasured(counted(o)))
}

// mobileLoad: a mobile home goes by its own sheet, and no other dwelling does.
//
// Source: NEC 550.18.
func (s *sight) mobileLoad(o *quote.Option) {
	if o.Panel == nil {
		return
	}
	permitted := o.Panel.Methods[panel.MobileHome].Refusal == panel.Permitted
	s.holds(permitted == s.loads.mobile, fmt.Sprintf("550.18 permitted %v", permitted), fmt.Sprintf("%v", s.loads.mobile))
	if s.loads.mobile {
		s.compare(o, panel.MobileHome, s.byMobile(counted(o)))
	}
}

// deciding are the methods that give the verdict of a dwelling.
//
// Source: NEC 220.80 to 220.87, 550.18.
func (s *sight) deciding(charger float64) []readings {
	var out []readings
	if s.loads.mobile {
		out = append(out, s.byMobile(charger))
	} else {
		out = append(out, s.byExisting(charger))
		if s.loads.service >= s.Optional.LeastService {
			out = append(out, s.byOptional(charger))
		}
	}
	if s.loads.peak > 0 {
		out = append(out, s.byMeasured(charger))
	}
	return out
}

// judge is the verdict of one method: fits by the continuous reading, tight by
// the full, ask the authority by the literal.
func (s *sight) judge(r readings) panel.Verdict {
	limit := s.loads.capacity + hair
	switch {
	case r.continuous <= limit:
		return panel.Fits
	case r.full <= limit:
		return panel.Tight
	case !r.noLiteral && r.literal <= limit:
		return panel.AskTheAHJ
	}
	return panel.DoesNotFit
}

// best is the verdict of the kindest method permitted, and the least load
// without new chargers.
func (s *sight) best(charger float64) (v panel.Verdict, base float64) {
	for i, r := range s.deciding(charger) {
		v = max(v, s.judge(r))
		if i == 0 || r.base < base {
			base = r.base
		}
	}
	return v, base
}

// verdict: the verdict follows from the safest reading that passes, by any
// method permitted, and the printed total is that reading's.
//
// Source: NEC 220.80 to 220.87, 230.42(A), 625.42.
func (s *sight) verdict(o *quote.Option) {
	p := o.Panel
	if p == nil {
		return
	}
	v, _ := s.best(counted(o))
	s.holds(p.Bare == v, "unmanaged: "+p.Bare.String(), v.String())
	if o.Managed {
		return
	}
	s.holds(p.Verdict == v, p.Verdict.String(), v.String())
	d := &p.Methods[p.Deciding]
	s.holds(d.Decides, p.Deciding.String()+" decides", "a method that may decide here")
	s.holds(p.Total == d.Amps[p.Reading], amps(p.Total)+" printed", amps(d.Amps[p.Reading])+" by the reading named")
	s.holds(near(float64(p.Spare), s.loads.capacity-float64(d.Amps[panel.Continuous]), tenth), amps(p.Spare)+" to spare",
		amps(s.loads.capacity-float64(d.Amps[panel.Continuous])))
}

// offeredOnlyIfCarried: an option that is offered is one the panel carries, as
// it is or managed.
//
// Source: NEC 220.80, 230.79; a reading alone recommends nothing.
func (s *sight) offeredOnlyIfCarried(o *quote.Option) {
	s.holds(!s.shown || o.Taken == nil, "offered with a load gone or a new service", "a way the panel carries as it stands")
	if !s.shown || o.Panel == nil || o.Managed {
		return
	}
	v, _ := s.best(counted(o))
	s.holds(v == panel.Fits, "offered: "+v.String(), panel.Fits.String())
}

// managedSetpoint: what the service is held to is a continuous load within the
// capacity; the house alone fits, and so does what the charger falls back to
// when the signal is lost.
//
// Source: NEC 220.70 (2023), 120.7 (2026), 625.42, 750.30.
func (s *sight) managedSetpoint(o *quote.Option) {
	if !o.Managed || o.Panel == nil {
		return
	}
	_, base := s.best(counted(o))
	fallback := 0.0
	if o.FailSafe > 0 {
		_, fallback = s.chargerVA(float64(o.FailSafe) * float64(o.Volts))
	}
	most := s.loads.capacity / s.Management.Factor
	ok := o.Setpoint > 0 && float64(o.Setpoint) <= most+hair && base+fallback/s.loads.volts <= s.loads.capacity+hair
	saw := fmt.Sprintf("held to %s, %s when the signal is lost, house %s", amps(o.Setpoint), amps(o.FailSafe), amps(base))
	s.holds(ok || !s.shown, saw, fmt.Sprintf("at most %s, and all within %s", amps(most), amps(s.loads.capacity)))
	s.holds(ok == o.Panel.Managed.Holds, fmt.Sprintf("%s: holds %v", saw, o.Panel.Managed.Holds), fmt.Sprintf("%v", ok))
	s.holds(o.FailSafe <= o.Setting, "falls back to "+amps(o.FailSafe), "at most the setting, "+amps(o.Setting))
}

// spaces: a new circuit needs one full space for each pole; what is short is
// said.
//
// Source: NEC 408.54, 110.3(B).
func (s *sight) spaces(o *quote.Option) {
	if o.Panel == nil {
		return
	}
	need := 0
	if o.Way != quote.ExistingOutlet {
		need = 2
		if o.Volts == 120 {
			need = 1
		}
	}
	free, _ := s.facts.Panel.FreeFullSpaces.Get()
	got := o.Panel.Spaces
	s.holds(got.Needed == need, fmt.Sprintf("%d spaces needed", got.Needed), fmt.Sprintf("%d", need))
	enough := got.Verdict == panel.SpacesEnough || got.Verdict == panel.SpacesNotNeeded
	s.holds(enough == (free >= need), fmt.Sprintf("%s with %d free", got.Verdict, free), fmt.Sprintf("%d needed", need))
	tandem := s.facts.Panel.TandemAllowed.Is(true)
	s.holds(got.Verdict != panel.SpacesByTandem || tandem, "by tandem breakers", "a label that allows them")
	if s.shown && !enough && !tandem && o.Priced {
		s.holds(len(o.Unpriced) > 0 || o.Subpanel > 0 || s.fuses() && len(o.Apart) > 0, "no space, and nothing said of it", "a subpanel in the bill, or named as not priced")
	}
}

// fuses reports a panel that protects with fuses.
func (s *sight) fuses() bool {
	p := s.facts.Panel.Protection
	return p.Has() && !p.Is(facts.ProtectionBreakers)
}
