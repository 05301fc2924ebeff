package wire

import (
	"strconv"
	"strings"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/facts"
	"daybreak/internal/pricing"
	"daybreak/internal/quote"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// View says how much of a quote a reply carries.
type View uint8

// The views.
const (
	Summary View = iota
	Full
	Canonical
)

// ViewOf reads a view; unspecified is the summary.
func ViewOf(v daybreakv1.QuoteView) View {
	switch v {
	case daybreakv1.QuoteView_QUOTE_VIEW_FULL:
		return Full
	case daybreakv1.QuoteView_QUOTE_VIEW_CANONICAL:
		return Canonical
	}
	return Summary
}

// Quote is the quote of a household in a view, with its words. Name and times
// of issue are the caller's to add. In the view Canonical there is no message:
// see [quote.Canonical].
func (w *Words) Quote(q *quote.Quote, home *facts.Facts, view View) *daybreakv1.Quote {
	out := &daybreakv1.Quote{
		Reference:       q.Reference,
		Standing:        daybreakv1.Standing(q.Standing),
		StandingReasons: w.sentences(q.Reasons),
		Headline:        w.sentence(q.Headline),
		AsOfDate:        q.AsOf.String(),
		ValidUntilDate:  q.Expires.String(),
		ExpiredBook:     w.expired(q.BookFindings),
		Edition:         w.edition(q),
		Fingerprint:     q.Fingerprint,
		Cautions:        w.Cautions(q.Findings, home),
		Contradictions:  w.Contradictions(q.Findings, home),
		Notices:         w.notices(q),
		Locale:          w.Locale,
		Demo:            q.Demo,
	}
	if q.Band.Draws > 0 {
		out.Band = span(q.Band.P10, q.Band.P50, q.Band.P90, q.Band.Currency)
	}
	for i := range q.Options {
		out.Options = append(out.Options, w.option(q, &q.Options[i], home, view))
	}
	if view == Full {
		w.inFull(q, out)
	}
	return out
}

// Summarise is the summary of a quote that was kept in full.
func Summarise(q *daybreakv1.Quote) *daybreakv1.Quote {
	q.Revisions, q.Lost, q.ToVerify, q.Assumptions, q.Movers, q.Outlets = nil, nil, nil, nil, nil, nil
	q.Need, q.Working = nil, nil
	for _, o := range q.GetOptions() {
		o.Equipment, o.Charging, o.Circuit, o.Panel, o.Bill, o.Length = nil, nil, nil, nil, nil, nil
		o.OutletSlot, o.OutletWay, o.ToVerify, o.Working = "", nil, nil, nil
		o.Feeder, o.Apart, o.Flips = nil, nil, nil
	}
	return q
}

// inFull adds what a summary leaves out.
func (w *Words) inFull(q *quote.Quote, out *daybreakv1.Quote) {
	for _, r := range q.Revisions {
		out.Revisions = append(out.Revisions, &daybreakv1.BookRevision{Book: r.Book, Revision: r.Name, Digest: r.Digest})
	}
	for i := range q.Others {
		o := &q.Others[i]
		lost := &daybreakv1.LostWay{Title: w.sentence(quote.TitleOf(o)), Why: w.sentence(o.Why)}
		if o.Taken != nil {
			lost.Unpriced, lost.Apart, lost.Asides = w.sentences(o.Unpriced), w.apart(o), w.asides(&o.Bill)
		}
		if o.Priced {
			lost.Price = price(o)
		}
		out.Lost = append(out.Lost, lost)
	}
	for _, s := range q.Verify {
		out.ToVerify = append(out.ToVerify, &daybreakv1.Verification{What: w.sentence(s)})
	}
	for i := range q.Assumptions {
		out.Assumptions = append(out.Assumptions, w.assumption(&q.Assumptions[i], currencyOf(q)))
	}
	out.Movers = w.movers(q)
	out.Outlets = w.outlets(q)
	out.Need = &daybreakv1.Need{
		Miles: float64(q.Need.Miles), UsualDayKwh: float64(q.Need.EnergyKWh), HardDayKwh: float64(q.Need.WorstKWh),
		WindowHours: float64(q.Need.WindowHours), PetrolBackup: q.Need.Hybrid, CarKw: float64(q.Need.CarKW), CarAmps: float64(q.Need.CarAmps),
	}
	out.Working = w.Working(apartFromOptions(q))
}

// apartFromOptions are the steps that belong to no single option: those of a
// rule that no option shown has used. What the options not shown took is left
// out.
func apartFromOptions(q *quote.Quote) []working.Step {
	used := map[string]bool{}
	for i := range q.Options {
		for _, s := range q.Options[i].Working {
			room, _, _ := strings.Cut(s.Rule, ".")
			used[s.Rule], used[room] = true, true
		}
	}
	var out []working.Step
	for _, s := range q.Working {
		room, _, _ := strings.Cut(s.Rule, ".")
		ofAnOption := room == "circuit" || room == "panel" || room == "pricing"
		if !used[s.Rule] && !(ofAnOption && used[room]) {
			out = append(out, s)
		}
	}
	return out
}

func (w *Words) expired(found []pricing.Finding) *daybreakv1.Words {
	for _, f := range found {
		if f.Key == "pricing.book_expired" {
			return w.say("notice.expired_book", working.Word("date", f.Date.String()))
		}
	}
	return nil
}

func (w *Words) edition(q *quote.Quote) *daybreakv1.EditionInForce {
	_, year, _ := strings.Cut(q.Edition, " ")
	return &daybreakv1.EditionInForce{
		Edition: daybreakv1.CodeEdition(placeOf("place.code_edition", year)), Text: q.Edition,
		Jurisdiction: q.Locality.Name, Assumed: q.Locality.Assumed,
	}
}

// notices are what every quote says.
func (w *Words) notices(q *quote.Quote) []*daybreakv1.Words {
	out := []*daybreakv1.Words{w.say("notice.estimate"), w.say("notice.licensed"), w.say("notice.authority")}
	if q.Demo {
		out = append(out, w.say("notice.demo"))
	}
	return out
}

func (w *Words) assumption(a *quote.Assumption, c unit.Currency) *daybreakv1.Assumption {
	out := &daybreakv1.Assumption{
		Path: a.Path, Value: a.Value, Basis: daybreakv1.FactBasis_FACT_BASIS_ASSUMED, Source: a.Basis.String(),
		Text:    w.say("assumption", working.Word("leaf", w.facts.Leaves[a.Path]), working.Word("value", w.taken(a))).GetText(),
		Decides: a.Decides, Question: a.Question,
	}
	switch a.Basis {
	case facts.FromClassPrior, facts.FromDraw:
	default:
		out.Basis = daybreakv1.FactBasis_FACT_BASIS_DERIVED
	}
	if a.Swing != 0 {
		out.Swing = money(a.Swing, c)
	}
	return out
}

// taken is an assumed value as people read it.
func (w *Words) taken(a *quote.Assumption) string {
	leaf := leafAt(a.Path)
	if text := w.facts.Values[leaf.List][a.Value]; text != "" {
		return text
	}
	if leaf.Kind == facts.Flag {
		return w.facts.Help[a.Value]
	}
	if leaf.Kind == facts.Set && a.Value == "0" {
		return noneText(w.facts)
	}
	number, rest, _ := strings.Cut(a.Value, " ")
	if text := w.facts.Units[rest]; text != "" && rest == leaf.Unit {
		if x, err := strconv.ParseFloat(number, 64); err == nil {
			return numberText(w.facts, leaf, x)
		}
	}
	return a.Value
}

// mostMovers is how many movers a quote names.
const mostMovers = 3

// movers are the open facts that move the price most. The assumptions come in
// that order.
func (w *Words) movers(q *quote.Quote) []*daybreakv1.Mover {
	var out []*daybreakv1.Mover
	for i := range q.Assumptions {
		a := &q.Assumptions[i]
		if a.Swing <= 0 || len(out) == mostMovers {
			continue
		}
		out = append(out, &daybreakv1.Mover{
			Path: a.Path, Swing: money(a.Swing, currencyOf(q)),
			Text: w.say("mover", working.Word("leaf", w.leaf(a.Path)), amount("swing", a.Swing, currencyOf(q))).GetText(),
		})
	}
	return out
}

func currencyOf(q *quote.Quote) unit.Currency {
	for i := range q.Options {
		if q.Options[i].Priced {
			return q.Options[i].Bill.Currency
		}
	}
	return q.Band.Currency
}

// outlets are the verdicts on the outlets there are, each once.
func (w *Words) outlets(q *quote.Quote) []*daybreakv1.OutletFinding {
	var out []*daybreakv1.OutletFinding
	seen := map[string]bool{}
	for _, all := range [][]quote.Option{q.Options, q.Others} {
		for i := range all {
			if o := &all[i]; o.Outlet != nil && !seen[o.OutletSlot] {
				seen[o.OutletSlot] = true
				out = append(out, w.Outlet(o.OutletSlot, o.Outlet))
			}
		}
	}
	return out
}
