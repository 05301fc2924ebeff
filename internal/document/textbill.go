package document

import (
	"strconv"
	"strings"

	"daybreak/internal/facts"
	"daybreak/internal/pricing"
	"daybreak/internal/quote"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// bill prints every line so that anybody can add it again: quantity × unit
// price = amount, then the sums in the order they are made.
func (p *page) bill(q *quote.Quote, o *quote.Option) {
	if !o.Priced || len(o.Bill.Lines) == 0 {
		return
	}
	p.title("text.bill")
	p.billOf(&o.Bill)
	p.asides(&o.Bill)
	p.apart(o)
}

// billOf prints one bill to its total and range.
func (p *page) billOf(b *pricing.Bill) {
	for i := range b.Lines {
		p.billLine(b, &b.Lines[i])
	}
	sum := func(key string, t pricing.Triple) {
		if t != (pricing.Triple{}) {
			p.line("  %-71s %10s", p.Quote.Text(key), exact(b, t[pricing.Likely]))
		}
	}
	sum("text.discount", b.Discount)
	sum("text.subtotal", b.Subtotal)
	sum("text.permit", b.Permit)
	sum("text.tax", b.Tax)
	p.line("  %-71s %10s", p.Quote.Text("text.total"), exact(b, b.Total[pricing.Likely]))
	p.line("  %-71s %10s", p.Quote.Text("text.p10"), exact(b, int64(b.AllIn.P10)))
	p.line("  %-71s %10s", p.Quote.Text("text.p90"), exact(b, int64(b.AllIn.P90)))
	if b.FeetAssumed > 0 {
		p.line("  %s: %s ft. %s: %s", p.Quote.Text("text.feet"), unit.Print(b.FeetAssumed, 1),
			p.Quote.Text("text.ten_more"), exact(b, b.TenMoreFeet[pricing.Likely]))
	}
}

// billLine prints what is multiplied: pieces or feet by their price, labour in
// hours by the rate.
func (p *page) billLine(b *pricing.Bill, l *pricing.Line) {
	what, count, of := l.Words, quantity(l.Quantity), l.Unit
	if l.Hours != nil {
		if l.Quantity != 1000 {
			times := count + " " + of
			if of[0] >= '0' && of[0] <= '9' {
				times = count + " × " + of // "2 × 10 ft"
			}
			what = cut(what, billWidth-2-len([]rune(times))) + ", " + times
		}
		count, of = unit.Print(float64(l.Hours[pricing.Likely])/100, 2), p.Quote.Text("text.hour")
	}
	p.line("  %-*s %7s %-6s %9s %10s", billWidth, cut(what, billWidth), count, of,
		exact(b, l.UnitPrice[pricing.Likely]), exact(b, l.Amount[pricing.Likely]))
}

// billWidth is the width of the words of a line.
const billWidth = 46

// exact prints an amount with its minor digits and no currency sign.
func exact(b *pricing.Bill, minor int64) string {
	s := b.Money(minor).String()
	return s[:len(s)-4]
}

func quantity(q pricing.Quantity) string {
	return unit.Print(float64(q)/1000, 3)
}

// open prints what was assumed, dearest first, and what is to be seen on site.
func (p *page) open(q *quote.Quote) {
	if len(q.Assumptions) > 0 {
		p.title("text.assumed")
		for _, a := range q.Assumptions {
			mark := " "
			if a.Decides {
				mark = "▸"
			}
			p.line(" %s %-40s %-24s %s", mark, cut(p.Label(a.Path), 40), cut(p.value(a.Path, a.Value), 24), p.Quote.Text("basis."+a.Basis.String()))
		}
	}
	if len(q.Verify) > 0 {
		p.title("text.verify")
		for _, s := range q.Verify {
			p.wrapped("  - ", p.said(s))
		}
	}
}

// value is what people call what a leaf was taken for.
func (p *page) value(path, value string) string {
	leaf, ok := facts.LeafAt(path)
	switch {
	case !ok:
		return value
	case leaf.Kind == facts.Flag:
		return p.Quote.Text("text." + value)
	case leaf.Kind == facts.Set && value == "":
		return p.Quote.Text("text.none")
	}
	var out []string
	for _, word := range strings.Split(value, ", ") {
		if text := p.Values[leaf.List][word]; text != "" {
			word = text
		}
		out = append(out, word)
	}
	return strings.Join(out, ", ")
}

// said is a sentence in the words of the quote, or of the rules.
func (p *page) said(s quote.Sentence) string {
	if p.Quote.Has(s.Key) {
		return p.Quote.Say(p.named(s))
	}
	if p.Rules.Has(s.Key) {
		return p.Rules.Sentence(working.Step{Rule: s.Key})
	}
	return s.Key
}

// working prints every step: formula, sentence, section and status; first those
// of the household, then those of each option where it is the first to take
// them.
func (p *page) working(q *quote.Quote) {
	if len(q.Working) == 0 {
		return
	}
	p.title("text.working")
	owner := map[working.Step]int{}
	for i := len(q.Options) - 1; i >= 0; i-- {
		for _, s := range q.Options[i].Working {
			owner[s] = i + 1
		}
	}
	seen, under := map[string]bool{}, 0
	for _, step := range q.Working {
		s := p.worded(step)
		text, where := p.Rules.Formula(s), ""
		if s.Source != nil {
			where = s.Source.Publication + " " + s.Source.Section + " (" + string(s.Source.Status) + ")"
		}
		if seen[text+where] {
			continue // the same step of another option
		}
		seen[text+where] = true
		if o := owner[step]; o > under {
			under = o
			p.line("")
			p.wrapped("  ", p.Quote.Say(quote.TitleOf(&q.Options[o-1])))
		}
		p.line("%3s. %s", strconv.Itoa(len(seen)), text)
		p.wrapped("     ", p.Rules.Sentence(s)+" "+where)
	}
}

// worded puts the words of this locale in the place of a step's own.
func (p *page) worded(s working.Step) working.Step {
	for i := range s.In {
		if p.Quote.Has("word." + s.In[i].Word) {
			s.In[i].Word = strings.ToLower(p.Quote.Text("word." + s.In[i].Word))
		}
	}
	return s
}
