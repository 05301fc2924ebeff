package document

import (
	"daybreak/internal/circuit"
	"daybreak/internal/pricing"
	"daybreak/internal/quote"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// feeder prints the feeder to the panel a circuit starts from.
func (p *page) feeder(o *quote.Option) {
	f := o.Feeder
	if f == nil || f.Outcome != circuit.Designed {
		return
	}
	p.title("text.feeder")
	row := func(key, value string) { p.line("  %-24s%s", p.Quote.Text(key), value) }
	row("text.load", amps(f.Demand))
	row("text.device", amps(f.Device)+", 2-pole")
	row("text.wire", quote.WireWord(&f.Chosen))
	row("text.ground", f.Chosen.Parts[0].Ground.String()+" copper")
	row("text.drop", unit.Print(f.Chosen.DropVolts, 2)+" V, "+unit.Print(f.Chosen.DropPercent, 2)+" %")
	row("text.run", unit.Print(f.Takeoff.RouteFeet, 1)+" ft")
	row("text.feeds", amps(f.Panel.Amps)+", "+unit.Print(float64(f.Panel.Spaces), 0)+" spaces, "+unit.Print(float64(f.Panel.Rods), 0)+" ground rods")
}

// flips prints what would change the panel's verdict.
func (p *page) flips(o *quote.Option) {
	if len(o.Flips) == 0 {
		return
	}
	p.line("  %s:", p.Quote.Text("text.flips"))
	for _, s := range o.Flips {
		p.wrapped("  - ", p.Quote.Say(s))
	}
}

// taken prints what a measure costs: the charger's price, what is not in it,
// and a bill of its own.
func (p *page) taken(o *quote.Option) {
	if o.Priced {
		p.wrapped("      ", p.Quote.Say(quote.PriceOf(o)))
	}
	for i := range o.Apart {
		p.wrapped("      ", p.Quote.Say(quote.ApartOf(o, i)))
	}
	for _, s := range o.Unpriced {
		p.wrapped("      ", p.Quote.Say(s))
	}
	for _, a := range o.Bill.Asides {
		p.wrapped("      ", p.aside(&o.Bill, &a))
	}
}

// measures prints the bills of their own of ways that are not shown.
func (p *page) measures(q *quote.Quote) {
	for i := range q.Others {
		if o := &q.Others[i]; o.Taken != nil {
			p.apart(o)
		}
	}
}

// apart prints each bill of its own beside an option's, and both together.
func (p *page) apart(o *quote.Option) {
	for i := range o.Apart {
		b := &o.Apart[i].Bill
		if len(b.Lines) == 0 {
			continue
		}
		p.title("text.apart")
		p.wrapped("  ", p.Quote.Say(quote.TitleOf(o)))
		p.billOf(b)
		p.line("  %-71s %10s", p.Quote.Text("text.together"), exact(b, o.Sums()[pricing.Likely]))
		p.asides(b)
	}
}

// asides prints what others price, and what the utility does.
func (p *page) asides(b *pricing.Bill) {
	if len(b.Asides) > 0 {
		p.line("  %s", p.Quote.Text("text.aside"))
		for i := range b.Asides {
			p.wrapped("  - ", p.aside(b, &b.Asides[i]))
		}
	}
	if b.Utility == nil {
		return
	}
	p.line("  %s", p.Quote.Text("text.utility"))
	for _, key := range b.Utility.Steps {
		p.wrapped("  - ", p.Rules.Sentence(working.Step{Rule: key}))
	}
}

func (p *page) aside(b *pricing.Bill, a *pricing.AsideNote) string {
	text := p.Rules.Sentence(working.Step{Rule: a.Key})
	if a.Amount[pricing.High] > 0 {
		code := b.Currency.Code()
		text += " " + quote.Rounded(a.Amount[pricing.Low], code) + "–" + quote.Rounded(a.Amount[pricing.High], code)
	}
	return text
}
