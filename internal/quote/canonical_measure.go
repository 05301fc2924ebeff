package quote

import (
	"strconv"

	"daybreak/internal/circuit"
	"daybreak/internal/pricing"
)

// feeder prints the feeder a circuit starts from, with the panel at its end.
func (p *printer) feeder(f *circuit.FeederResult) {
	if f == nil {
		return
	}
	p.text(" feeder", strconv.Itoa(int(f.Outcome))+" "+ReasonWord(f.Reason))
	if f.Outcome != circuit.Designed {
		return
	}
	p.number(" feeder.demand_a", float64(f.Demand), 3)
	p.number(" feeder.device_a", float64(f.Device), 1)
	p.text(" feeder.wire", WireWord(&f.Chosen))
	p.text(" feeder.ground", f.Chosen.Parts[0].Ground.String())
	p.number(" feeder.drop_v", float64(f.Chosen.DropVolts), 4)
	p.number(" feeder.drop_percent", f.Chosen.DropPercent, 4)
	p.number(" feeder.feet", float64(f.Takeoff.RouteFeet), 2)
	p.number(" feeder.panel_a", float64(f.Panel.Amps), 1)
	p.text(" feeder.spaces", strconv.Itoa(f.Panel.Spaces))
	p.text(" feeder.rods", strconv.Itoa(f.Panel.Rods))
	p.text(" feeder.removed", strconv.Itoa(f.Panel.Removed))
}

// measure prints what gives room: spaces in the bill, the measure an option
// rests on, and what would flip the verdict.
func (p *printer) measure(o *Option) {
	if o.Subpanel > 0 {
		p.number(" subpanel_a", float64(o.Subpanel), 1)
	}
	if o.Tandems > 0 {
		p.text(" tandems", strconv.Itoa(o.Tandems))
	}
	if m := o.Taken; m != nil {
		p.text(" taken", m.Kind.String()+" "+m.Load.String()+" "+number(float64(m.Service), 1)+" "+number(float64(m.Total), 4))
	}
	p.sentences(" flip", o.Flips)
}

// apart prints what stands beside the bill: what others price, and bills of
// their own.
func (p *printer) apart(o *Option) {
	p.asides("", &o.Bill)
	for i := range o.Apart {
		a := &o.Apart[i]
		p.text(" apart", a.What)
		if len(a.Bill.Lines) == 0 {
			continue
		}
		p.billAs(" apart.", &a.Bill)
		p.asides("apart.", &a.Bill)
		p.text(" together", triple(o.Sums())+" "+o.Bill.Currency.Code())
	}
}

func (p *printer) asides(at string, b *pricing.Bill) {
	for _, a := range b.Asides {
		p.text(" "+at+"aside "+a.What, triple(a.Amount))
	}
	if u := b.Utility; u != nil {
		p.text(" "+at+"utility_weeks", strconv.Itoa(u.Weeks[0])+" "+strconv.Itoa(u.Weeks[1])+" "+strconv.Itoa(u.Weeks[2]))
		for _, step := range u.Steps {
			p.text(" "+at+"utility_step", step)
		}
	}
}
