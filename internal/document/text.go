package document

import (
	"fmt"
	"io"
	"strings"

	"daybreak/internal/facts"
	"daybreak/internal/quote"
	"daybreak/internal/quote/caution"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Printer prints quotes in one locale.
type Printer struct {
	Quote    *quote.Words
	Rules    *working.Words
	Cautions *caution.Words
	Label    func(path string) string // what people call a leaf
	// Values is what people call the words of a list: by list, then by word.
	// Without it the words stand as they are.
	Values map[string]map[string]string
	Shop   string // name and town, for the head of the page
}

// page collects the text of one quote.
type page struct {
	*Printer
	out strings.Builder
}

// Text writes the quote. The household as told fills the cautions' words.
func (p *Printer) Text(w io.Writer, q *quote.Quote, told *facts.Facts) error {
	pg := &page{Printer: p}
	pg.head(q)
	pg.cautions(q, told)
	pg.options(q)
	if best := bestOf(q); best != nil {
		pg.circuit(q, best)
		pg.load(best)
		pg.bill(q, best)
	}
	pg.measures(q)
	pg.open(q)
	pg.notices(q)
	pg.working(q)
	_, err := io.WriteString(w, pg.out.String())
	return err
}

func bestOf(q *quote.Quote) *quote.Option {
	for i := range q.Options {
		if q.Options[i].Role&quote.BestFit != 0 {
			return &q.Options[i]
		}
	}
	return nil
}

func (p *page) line(format string, args ...any) {
	fmt.Fprintf(&p.out, format+"\n", args...)
}

func (p *page) title(key string) {
	t := p.Quote.Text(key)
	p.line("\n%s\n%s", t, strings.Repeat("─", len([]rune(t))))
}

// wrapped writes a paragraph at most 78 columns wide, indented.
func (p *page) wrapped(indent, text string) {
	width, first := 78-len(indent), true
	var row string
	flush := func() {
		p.line("%s%s", indent, row)
		if first && strings.HasSuffix(indent, "- ") {
			indent = strings.Repeat(" ", len(indent))
		}
		first = false
	}
	for _, word := range strings.Fields(text) {
		if row != "" && len([]rune(row))+1+len([]rune(word)) > width {
			flush()
			row = ""
		}
		if row != "" {
			row += " "
		}
		row += word
	}
	if row != "" {
		flush()
	}
}

func (p *page) head(q *quote.Quote) {
	p.line("%s", p.Shop)
	p.line("%s %s · %s %s · %s %s", p.Quote.Text("text.reference"), q.Reference,
		p.Quote.Text("text.as_of"), q.AsOf, p.Quote.Text("text.until"), q.Expires)
	if q.Demo {
		p.line("%s", p.Quote.Text("quote.notice.demo"))
	}
	for _, f := range q.BookFindings {
		p.line("%s (%s)", p.Quote.Text(f.Key), f.Date)
	}
	p.line("")
	p.wrapped("  ", p.Quote.Say(q.Headline))
	p.line("")
	p.line("%s: %s", p.Quote.Text("text.standing"), p.Quote.Text("standing."+q.Standing.Word()))
	for _, r := range q.Reasons {
		p.wrapped("  - ", p.Quote.Say(p.named(r)))
	}
	if q.Band.P90 > 0 {
		key := "text.band"
		if q.Standing == quote.Halted {
			key = "text.band_halted"
		}
		p.wrapped("  ", p.Quote.Say(quote.Said(key,
			money("low", q.Band.P10, q.Band.Currency), money("middle", q.Band.P50, q.Band.Currency), money("high", q.Band.P90, q.Band.Currency))))
	}
}

// named puts what people call a leaf in the place of its path.
func (p *page) named(s quote.Sentence) quote.Sentence {
	args := make([]working.Term, len(s.Args))
	for i, a := range s.Args {
		if a.Name == "leaf" {
			a.Word = p.Label(a.Word)
		}
		args[i] = a
	}
	return quote.Sentence{Key: s.Key, Args: args}
}

func money(name string, minor int64, c unit.Currency) working.Term {
	return working.Term{Name: name, Value: float64(minor), Unit: quote.MoneyUnit + c.Code()}
}

func (p *page) cautions(q *quote.Quote, told *facts.Facts) {
	if len(q.Findings) == 0 {
		return
	}
	p.title("text.cautions")
	if q.Standing == quote.Halted {
		p.wrapped("", p.Cautions.Emergency) // whoever smells smoke reads no further
	}
	for _, f := range q.Findings {
		t := p.Cautions.Of(f, told)
		p.line("%s: %s (%s)", strings.ToUpper(t.Level), t.Title, f.Code)
		p.wrapped("  ", t.Seen)
		p.wrapped("  ", t.DoNow)
		p.wrapped("  ", t.Call)
		p.wrapped("  ", t.Why)
	}
	for _, ask := range p.Cautions.ToAsk(q.Findings, told) {
		p.wrapped("  - ", ask)
	}
}

func (p *page) notices(q *quote.Quote) {
	p.title("text.notices")
	for _, key := range NoticeKeys(q) {
		p.wrapped("  - ", p.Quote.Text(key))
	}
}

// NoticeKeys are the cautions every quote carries, in order.
func NoticeKeys(q *quote.Quote) []string {
	keys := []string{"quote.notice.estimate", "quote.notice.licensed", "quote.notice.authority",
		"quote.notice.injury", "quote.notice.booking", "quote.notice.away"}
	if q.Demo {
		keys = append(keys, "quote.notice.demo")
	}
	return keys
}
