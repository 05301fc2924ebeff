package wire

import (
	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/panel"
	"daybreak/internal/working"
)

// Panel is what a load calculation found.
func (w *Words) Panel(r *panel.Result, steps []working.Step) *daybreakv1.PanelFinding {
	if r == nil {
		return nil
	}
	out := &daybreakv1.PanelFinding{
		Verdict:         verdict(r.Verdict),
		DecidingMethod:  daybreakv1.LoadMethod(r.Deciding + 1),
		DecidingReading: daybreakv1.LoadReading(r.Reading + 1),
		CapacityAmps:    float64(r.Capacity.Amps),
		CapacityLimit:   daybreakv1.CapacityLimit(r.Capacity.SetBy + 1),
		TotalAmps:       float64(r.Total),
		SpareAmps:       float64(r.Spare),
		Spaces:          w.spaces(&r.Spaces),
		Bus:             w.bus(&r.Bus),
		Working:         w.Working(steps),
	}
	for i := range r.Methods {
		out.Methods = append(out.Methods, w.method(&r.Methods[i], float64(r.Capacity.Amps)))
	}
	for i := range r.Measures {
		out.Measures = append(out.Measures, w.measure(&r.Measures[i]))
	}
	for i := range r.Worksheets {
		out.Worksheets = append(out.Worksheets, w.worksheet(&r.Worksheets[i]))
	}
	for _, odd := range r.Odd.Words() {
		out.Notes = append(out.Notes, w.say("panel.odd."+odd))
	}
	return out
}

func verdict(v panel.Verdict) daybreakv1.Verdict {
	return [...]daybreakv1.Verdict{
		panel.DoesNotFit: daybreakv1.Verdict_VERDICT_DOES_NOT_FIT,
		panel.AskTheAHJ:  daybreakv1.Verdict_VERDICT_ASK_AHJ,
		panel.Tight:      daybreakv1.Verdict_VERDICT_TIGHT,
		panel.Fits:       daybreakv1.Verdict_VERDICT_FITS,
	}[min(v, panel.Fits)]
}

// printed are the readings of a method, in the order they are printed.
var printed = [...]panel.Reading{panel.Continuous, panel.Full, panel.Literal}

func (w *Words) method(o *panel.Outcome, capacity float64) *daybreakv1.MethodOutcome {
	out := &daybreakv1.MethodOutcome{
		Method: daybreakv1.LoadMethod(o.Method + 1), Section: section(o.Source), Permitted: o.Refusal == panel.Permitted, Decides: o.Decides,
	}
	if !out.Permitted {
		out.WhyNot = w.say("panel.refused." + o.Refusal.String())
		return out
	}
	out.BaseVa, out.Verdict = float64(o.Base), verdict(o.Verdict)
	for _, r := range printed {
		if r == panel.Literal && o.NoLiteral {
			continue
		}
		amps := float64(o.Amps[r])
		out.Totals = append(out.Totals, &daybreakv1.LoadTotal{
			Reading: daybreakv1.LoadReading(r + 1), TotalVa: float64(o.VA[r]), Amps: amps, Fits: amps <= capacity,
		})
	}
	return out
}

func (w *Words) spaces(s *panel.SpacesCheck) *daybreakv1.SpacesFinding {
	out := &daybreakv1.SpacesFinding{
		Verdict: daybreakv1.SpacesVerdict(s.Verdict + 1), Needed: int32(s.Needed), How: w.say("panel.spaces." + s.Verdict.String()),
	}
	if s.Verdict != panel.SpacesToBeSeen && s.Verdict != panel.SpacesNotNeeded {
		free := int32(s.Free)
		out.Free = &free
	}
	return out
}

var busWords = [...]string{"no_source", "unaffected", "recounted", "broken", "to_be_seen"}

func (w *Words) bus(b *panel.BusCheck) *daybreakv1.BusFinding {
	if b.Verdict == panel.BusNoSource {
		return nil
	}
	return &daybreakv1.BusFinding{
		What: w.say("panel.bus." + named(busWords[:], int(b.Verdict))), SumAmps: float64(b.Sum), LimitAmps: float64(b.Limit),
		Holds: b.Verdict == panel.BusUnaffected || b.Verdict == panel.BusRecounted,
	}
}

func (w *Words) measure(m *panel.Measure) *daybreakv1.PanelMeasure {
	return &daybreakv1.PanelMeasure{
		Kind: daybreakv1.PanelMeasureKind(m.Kind + 1),
		What: w.say("panel.measure."+m.Kind.String(), working.Num("setting", m.Setting, "A"), working.Num("peak", m.Peak, "kW"),
			working.Num("setpoint", m.Setpoint, "A"), working.Num("service", m.Service, "A"), working.Word("load", m.Load.String())),
		SettingAmps: positive(float64(m.Setting)), SetpointAmps: positive(float64(m.Setpoint)), TotalAmps: positive(float64(m.Total)),
		Section: section(m.Source),
	}
}

// positive is a figure that is there only when it is above zero.
func positive(x float64) *float64 {
	if x <= 0 {
		return nil
	}
	return &x
}

func (w *Words) worksheet(s *panel.Worksheet) *daybreakv1.LoadWorksheet {
	out := &daybreakv1.LoadWorksheet{Method: daybreakv1.LoadMethod(s.Method + 1)}
	for _, l := range s.Lines {
		what := w.rule(l.Key, working.Word("what", l.What), l.Given, l.Used, l.Out)
		what.Arguments = nil // they stand beside it
		out.Lines = append(out.Lines, &daybreakv1.LoadLine{
			What: what, Given: term(l.Given), Used: term(l.Used), Result: term(l.Out), Section: section(l.Source),
		})
	}
	return out
}
