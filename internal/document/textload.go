package document

import (
	"strings"

	"daybreak/internal/panel"
	"daybreak/internal/quote"
	"daybreak/internal/unit"
)

// load prints the load calculation as an inspector reads it: every permitted
// method in three readings, then the one that decides line by line.
func (p *page) load(o *quote.Option) {
	r := o.Panel
	if r == nil {
		return
	}
	p.title("text.panel")
	p.line("  %-34s %s", p.Quote.Text("text.verdict"), p.Quote.Text("word."+quote.VerdictWord(r.Verdict)))
	p.line("  %-34s %s", p.Quote.Text("text.capacity"), amps(r.Capacity.Amps))
	if o.Managed {
		p.managed(o)
	}
	p.line("")
	p.line("  %-34s %10s %10s %10s", "", "125 %", "100 %", p.Quote.Text("text.letter"))
	for i := range r.Methods {
		p.method(r, &r.Methods[i])
	}
	p.wrapped("  ", p.Quote.Text("text.readings"))
	p.flips(o)
	for _, ws := range r.Worksheets {
		if ws.Method != r.Deciding {
			continue
		}
		p.line("")
		for _, row := range strings.Split(strings.TrimRight(ws.Text(p.Rules), "\n"), "\n") {
			p.line("  %s", row)
		}
	}
}

func (p *page) method(r *panel.Result, m *panel.Outcome) {
	if m.Refusal != panel.Permitted || m.VA[panel.Full] == 0 {
		return
	}
	mark, literal := " ", "–"
	if m.Method == r.Deciding {
		mark = "›"
	}
	if !m.NoLiteral {
		literal = amps(m.Amps[panel.Literal])
	}
	p.line("%s %-34s %10s %10s %10s", mark, p.Quote.Text("method."+m.Method.String()),
		amps(m.Amps[panel.Continuous]), amps(m.Amps[panel.Full]), literal)
}

// managed prints the check of the energy management: the house alone, the
// setpoint as a continuous load, and what happens without its signal.
func (p *page) managed(o *quote.Option) {
	r := o.Panel
	alone := r.Methods[r.Deciding].Base.At(o.Volts)
	p.line("  %-34s %s", p.Quote.Text("text.alone"), amps(alone))
	p.line("  %-34s %s × 125 %% = %s", p.Quote.Text("text.setpoint"), amps(o.Setpoint), amps(o.Setpoint*1.25))
	fallback := p.Quote.Text("text.fail_safe_off")
	if o.FailSafe > 0 {
		fallback = amps(o.FailSafe)
	}
	p.line("  %-34s %s", p.Quote.Text("text.fail_safe"), fallback)
	p.wrapped("  ", p.Quote.Text("text.unmanaged"))
}

func amps(a unit.Amps) string { return unit.Print(a, 1) + " A" }

func cut(s string, n int) string {
	s = strings.TrimSpace(s)
	if r := []rune(s); len(r) > n {
		return string(r[:n-1]) + "…"
	}
	return s
}
