package quote

import (
	"strconv"

	"daybreak/internal/circuit"
	"daybreak/internal/panel"
	"daybreak/internal/pricing"
	"daybreak/internal/quote/caution"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// CanonicalVersion is the first line of a canonical body. It changes when the
// form does, never with the content.
const CanonicalVersion = "daybreak quote 1"

// Canonical prints a quote in our own canonical form: one line for each value,
// a path and the value, quantities to stated decimals, amounts in minor units.
// The same quote gives the same bytes on every platform and through every
// front. Names and times of issue are not part of it, nor are words.
func Canonical(q *Quote) []byte {
	p := &printer{}
	p.line(CanonicalVersion)
	p.text("as_of", q.AsOf.String())
	p.text("expires", q.Expires.String())
	p.text("fingerprint", q.Fingerprint)
	p.text("reference", q.Reference)
	p.text("standing", q.Standing.Word())
	p.sentence("headline", q.Headline)
	p.sentences("standing_reason", q.Reasons)
	p.text("edition", q.Edition)
	p.text("locality", q.Locality.PostalCode+" "+q.Locality.Jurisdiction)
	p.flag("locality_assumed", q.Locality.Assumed)
	p.flag("demo", q.Demo)
	for _, r := range q.Revisions {
		p.text("revision "+r.Book, r.Name+" "+r.Digest)
	}
	p.need(&q.Need)
	p.findings("finding", q.Findings)
	p.sentences("verify", q.Verify)
	for _, a := range q.Assumptions {
		p.text("assumption "+a.Path, a.Value+" "+a.Basis.String()+" "+strconv.FormatBool(a.Decides)+" "+strconv.FormatInt(a.Swing, 10))
	}
	for _, f := range q.BookFindings {
		p.text("book", f.Key+" "+f.Date.String())
	}
	p.text("band", strconv.Itoa(q.Band.Draws)+" "+minor(q.Band.P10)+" "+minor(q.Band.P50)+" "+minor(q.Band.P90)+" "+q.Band.Currency.Code())
	for i := range q.Options {
		p.option("option", &q.Options[i])
	}
	for i := range q.Others {
		p.option("other", &q.Others[i])
	}
	p.steps(q.Working)
	return p.out
}

func minor(m int64) string { return strconv.FormatInt(m, 10) }

func (p *printer) need(n *Need) {
	p.number("need.miles", float64(n.Miles), 3)
	p.number("need.day_kwh", float64(n.EnergyKWh), 4)
	p.number("need.worst_kwh", float64(n.WorstKWh), 4)
	p.number("need.window_h", float64(n.WindowHours), 2)
	p.number("need.car_kw", float64(n.CarKW), 3)
	p.number("need.car_a", float64(n.CarAmps), 3)
	p.flag("need.hybrid", n.Hybrid)
}

func (p *printer) option(kind string, o *Option) {
	p.text(kind, o.ID)
	for _, r := range o.Role.Words() {
		p.text(" role", r)
	}
	p.text(" way", o.Way.Word())
	p.text(" level", o.Level.Word())
	p.number(" setting_a", float64(o.Setting), 2)
	p.number(" volts", float64(o.Volts), 0)
	p.number(" breaker_a", float64(o.Breaker), 2)
	p.flag(" managed", o.Managed)
	p.number(" setpoint_a", float64(o.Setpoint), 3)
	p.number(" fail_safe_a", float64(o.FailSafe), 2)
	p.number(" kw", float64(o.Rate.Wall), 4)
	p.text(" limited_by", o.Rate.Binding.Word())
	p.number(" hours_normal", float64(o.HoursNormal), 3)
	p.number(" hours_full", float64(o.HoursFull), 3)
	p.number(" miles_per_hour", o.MilesPerHour, 3)
	p.number(" winter_miles", float64(o.WinterMiles), 1)
	p.flag(" refills_worst", o.RefillsWorst)
	p.flag(" possible", o.Possible)
	p.flag(" adapter", o.Adapter)
	p.text(" equipment", o.EquipmentCode)
	p.sentence(" why", o.Why)
	p.sentence(" change", o.Change)
	p.sentences(" unpriced", o.Unpriced)
	p.sentences(" verify", o.Verify)
	p.sentences(" first", o.SafeFirst)
	p.sentences(" care", o.Care)
	p.findings(" finding", o.Findings)
	if o.Outlet != nil {
		p.text(" outlet", o.OutletSlot+" "+o.Outlet.Word.String()+" "+string(o.OutletWay.Kind))
		p.text(" outlet.receptacle", o.OutletWay.Receptacle)
		for _, work := range o.OutletWay.Work {
			p.text(" outlet.work", string(work.Kind))
		}
	}
	p.feeder(o.Feeder)
	p.circuit(o.Circuit)
	p.panel(o.Panel, o.Volts)
	p.measure(o)
	p.bill(&o.Bill, o.Priced)
	p.apart(o)
}

func (p *printer) circuit(c *circuit.Result) {
	if c == nil {
		return
	}
	p.text(" circuit", strconv.Itoa(int(c.Outcome))+" "+ReasonWord(c.Reason))
	if c.Outcome != circuit.Designed {
		return
	}
	p.number(" circuit.load_a", float64(c.Load), 3)
	p.number(" circuit.design_a", float64(c.Design), 3)
	p.number(" circuit.device_a", float64(c.Device), 1)
	p.text(" circuit.poles", strconv.Itoa(c.Poles))
	p.text(" circuit.wire", WireWord(&c.Chosen))
	p.text(" circuit.ground", c.Chosen.Parts[0].Ground.String())
	p.flag(" circuit.neutral", c.Chosen.Parts[0].Neutral)
	p.number(" circuit.drop_v", float64(c.Chosen.DropVolts), 4)
	p.number(" circuit.drop_percent", c.Chosen.DropPercent, 4)
	p.text(" circuit.receptacle", c.Receptacle.Config)
	p.flag(" circuit.hardwired", c.Hardwired)
	p.flag(" circuit.gfci", c.GFCI)
	p.text(" circuit.ground_fault", GroundFaultWord(c.GroundFault.Value))
	p.flag(" circuit.disconnect", c.Disconnect)
	p.flag(" circuit.structure_disconnect", c.StructureDisconnect)
	p.number(" circuit.feet", float64(c.Takeoff.RouteFeet), 2)
}

func (p *printer) panel(r *panel.Result, volts unit.Volts) {
	if r == nil {
		return
	}
	p.text(" panel.verdict", VerdictWord(r.Verdict))
	p.text(" panel.decided_by", r.Deciding.String()+" "+r.Reading.String())
	p.number(" panel.capacity_a", float64(r.Capacity.Amps), 2)
	p.number(" panel.total_a", float64(r.Total), 4)
	p.number(" panel.spare_a", float64(r.Spare), 4)
	for _, m := range r.Methods {
		if m.Refusal == panel.Permitted {
			p.text(" panel."+m.Method.String(), readings(&m))
			p.number(" house."+m.Method.String(), float64(m.Base.At(volts)), 4)
			p.flag(" decides."+m.Method.String(), m.Decides)
		}
	}
	p.text(" panel.spaces", r.Spaces.Verdict.String())
	if r.Bus.Verdict != panel.BusNoSource {
		p.text(" panel.bus", r.Bus.Verdict.String()+" "+number(float64(r.Bus.Sum), 2)+" "+number(float64(r.Bus.Limit), 2))
	}
	for _, m := range r.Measures {
		p.text(" measure", m.Kind.String())
	}
}

// readings are a method's totals: continuous, full, and literal where it has one.
func readings(m *panel.Outcome) string {
	out := number(float64(m.Amps[panel.Continuous]), 4) + " " + number(float64(m.Amps[panel.Full]), 4)
	if m.NoLiteral {
		return out
	}
	return out + " " + number(float64(m.Amps[panel.Literal]), 4)
}

func (p *printer) bill(b *pricing.Bill, priced bool) {
	p.flag(" priced", priced)
	if !priced {
		return
	}
	p.billAs(" ", b)
}

// billAs prints a bill under a beginning of its paths.
func (p *printer) billAs(at string, b *pricing.Bill) {
	for i := range b.Lines {
		l := &b.Lines[i]
		p.text(at+"line "+l.Code, strconv.FormatInt(int64(l.Quantity), 10)+" "+l.Unit+" "+triple(l.UnitPrice)+" "+triple(l.Amount))
	}
	p.text(at+"lines", triple(b.Sum))
	p.text(at+"discount", triple(b.Discount))
	p.text(at+"subtotal", triple(b.Subtotal))
	p.text(at+"permit", triple(b.Permit))
	p.text(at+"tax", triple(b.Tax))
	p.text(at+"total", triple(b.Total)+" "+b.Currency.Code())
	p.text(at+"spread", number(b.AllIn.P10, 2)+" "+number(b.AllIn.Mean, 2)+" "+number(b.AllIn.P90, 2))
	p.number(at+"feet_assumed", float64(b.FeetAssumed), 2)
	p.text(at+"ten_more_feet", triple(b.TenMoreFeet))
}

func (p *printer) findings(kind string, found []caution.Finding) {
	for _, f := range found {
		p.text(kind, f.Code+" "+string(f.Gravity)+" "+string(f.Halts)+" "+f.Slot)
	}
}

func (p *printer) steps(steps []working.Step) {
	for _, s := range steps {
		line := s.Rule
		for _, t := range s.In {
			if t.Name != "" {
				line += " " + t.Name + "=" + term(t)
			}
		}
		line += " → " + term(s.Out)
		if s.Source != nil {
			line += " @ " + s.Source.Publication + " " + s.Source.Section
		}
		p.text("step", line)
	}
}
