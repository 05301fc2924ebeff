package document

import (
	"strings"

	"daybreak/internal/circuit"
	"daybreak/internal/quote"
	"daybreak/internal/unit"
)

func (p *page) options(q *quote.Quote) {
	if len(q.Options) > 0 {
		p.title("text.options")
	}
	for i := range q.Options {
		o := &q.Options[i]
		var roles []string
		for _, r := range o.Role.Words() {
			roles = append(roles, p.Quote.Text("role."+r))
		}
		p.line("%s", strings.Join(roles, " · "))
		p.wrapped("  ", p.Quote.Say(quote.TitleOf(o)))
		if o.Priced {
			p.wrapped("  ", p.Quote.Say(quote.PriceOf(o)))
		}
		for _, s := range quote.IncludesOf(o) {
			p.wrapped("  ", p.Quote.Say(s))
		}
		for k := range o.Apart {
			p.wrapped("  ", p.Quote.Say(quote.ApartOf(o, k)))
		}
		p.wrapped("  ", p.Quote.Say(quote.RateOf(o)))
		for _, s := range o.SafeFirst {
			p.wrapped("  ", p.Quote.Say(s))
		}
		p.wrapped("  ", p.Quote.Say(o.Why))
		p.wrapped("  ", p.Quote.Say(o.Change))
		for _, s := range o.Unpriced {
			p.wrapped("  ", p.Quote.Say(s))
		}
		for _, s := range o.Care {
			p.wrapped("  - ", p.Quote.Say(s))
		}
	}
	if len(q.Others) > 0 {
		p.others(q.Others)
	}
}

// others lists the ways not shown; those with the same reason stand together.
func (p *page) others(all []quote.Option) {
	p.title("text.others")
	var reasons []string
	ways := map[string][]string{}
	for i := range all {
		why := p.Quote.Say(all[i].Why)
		if ways[why] == nil {
			reasons = append(reasons, why)
		}
		ways[why] = append(ways[why], p.Quote.Say(quote.TitleOf(&all[i])))
	}
	for _, why := range reasons {
		for _, title := range ways[why] {
			p.wrapped("  - ", title)
		}
		p.wrapped("      ", why)
		for i := range all {
			if o := &all[i]; o.Taken != nil && p.Quote.Say(o.Why) == why {
				p.taken(o)
			}
		}
	}
}

// circuit prints the branch circuit beside the line that says who builds it.
func (p *page) circuit(q *quote.Quote, o *quote.Option) {
	c := o.Circuit
	if c == nil || c.Outcome != circuit.Designed {
		return
	}
	p.feeder(o)
	p.title("text.circuit")
	p.line("  %s %s", p.Quote.Text("quote.notice.licensed"), p.Quote.Text("quote.notice.authority"))
	row := func(key, value string) { p.line("  %-24s%s", p.Quote.Text(key), value) }
	row("text.edition", q.Edition+", "+q.Locality.Name)
	row("text.load", amps(c.Load)+" × 125 % = "+amps(c.Design))
	row("text.device", amps(c.Device)+", "+unit.Print(float64(c.Poles), 0)+"-pole"+p.gfci(c))
	row("text.wire", quote.WireWord(&c.Chosen))
	row("text.ground", c.Chosen.Parts[0].Ground.String()+" copper")
	if c.Hardwired {
		row("text.ends", p.Quote.Text("text.hardwired"))
	} else {
		row("text.ends", c.Receptacle.Config+", "+amps(c.Receptacle.Amps))
	}
	row("text.drop", unit.Print(c.Chosen.DropVolts, 2)+" V, "+unit.Print(c.Chosen.DropPercent, 2)+" %")
	row("text.run", unit.Print(c.Takeoff.RouteFeet, 1)+" ft")
	switch {
	case c.Disconnect:
		row("text.disconnect", p.Quote.Text("text.required"))
	case c.StructureDisconnect:
		row("text.disconnect", p.Quote.Text("text.required_building"))
	}
}

func (p *page) gfci(c *circuit.Result) string {
	if !c.GFCI {
		return ""
	}
	return ", " + p.Quote.Text("text.gfci")
}
