package document

import (
	"strings"

	"daybreak/internal/circuit"
	"daybreak/internal/panel"
	"daybreak/internal/quote"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

func (p *page) options(q *quote.Quote) {
	p.title("text.options")
	for i := range q.Options {
		o := &q.Options[i]
		var roles []string
		for _, r := range o.Role.Words() {
			roles = append(roles, p.Quote.Text("role."+r))
		}
		p.line("%s", strings.Join(roles, " · "))
		p.line("  %s", p.Quote.Say(quote.TitleOf(o)))
		if o.Priced {
			p.line("  %s", p.Quote.Say(quote.PriceOf(o)))
		}
		for _, s := range o.SafeFirst {
			p.wrapped("  ", p.Quote.Say(s))
		}
		p.wrapped("  ", p.Quote.Say(o.Why))
		p.wrapped("  ", p.Quote.Say(o.Change))
		for _, s := range o.Unpriced {
			p.wrapped("  ", p.Quote.Say(s))
		}
	}
	if len(q.Others) == 0 {
		return
	}
	p.title("text.others")
	for i := range q.Others {
		o := &q.Others[i]
		p.wrapped("  - ", p.Quote.Say(quote.TitleOf(o))+": "+p.Quote.Say(o.Why))
	}
}

// circuit prints the branch circuit beside the line that says who builds it.
func (p *page) circuit(q *quote.Quote, o *quote.Option) {
	c := o.Circuit
	if c == nil || c.Outcome != circuit.Designed {
		return
	}
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
	if c.Disconnect {
		row("text.disconnect", p.Quote.Text("text.required"))
	}
}

func (p *page) gfci(c *circuit.Result) string {
	if !c.GFCI {
		return ""
	}
	return ", " + p.Quote.Text("text.gfci")
}

func amps(a unit.Amps) string { return unit.Print(a, 1) + " A" }

// worksheet prints the load calculation that decides, as an inspector reads it.
func (p *page) worksheet(o *quote.Option) {
	r := o.Panel
	if r == nil {
		return
	}
	p.title("text.panel")
	p.line("  %s: %s", p.Quote.Text("text.verdict"), p.Quote.Text("word."+quote.VerdictWord(r.Verdict)))
	p.line("  %-34s %10s", p.Quote.Text("text.capacity"), amps(r.Capacity.Amps))
	for _, m := range r.Methods {
		if m.Refusal != panel.Permitted || m.VA[panel.Full] == 0 {
			continue
		}
		mark := " "
		if m.Method == r.Deciding {
			mark = "›"
		}
		p.line("%s %-34s %10s %10s %10s", mark, p.Quote.Text("method."+m.Method.String()),
			amps(m.Amps[panel.Continuous]), amps(m.Amps[panel.Full]), literal(m))
	}
	p.wrapped("  ", p.Quote.Text("text.readings"))
	for _, ws := range r.Worksheets {
		if ws.Method != r.Deciding {
			continue
		}
		for _, l := range ws.Lines {
			section := ""
			if l.Source != nil {
				section = l.Source.Section
			}
			p.line("  %-36s %14s %14s %12s  %s", cut(p.Rules.Sentence(working.Step{Rule: l.Key, Out: l.Out})+" "+l.What, 36), l.Given.Text(), l.Used.Text(), l.Out.Text(), section)
		}
	}
}

func literal(m panel.Outcome) string {
	if m.NoLiteral {
		return "–"
	}
	return amps(m.Amps[panel.Literal])
}

func cut(s string, n int) string {
	s = strings.TrimSpace(s)
	if r := []rune(s); len(r) > n {
		return string(r[:n-1]) + "…"
	}
	return s
}
