package quote

import (
	"slices"

	"daybreak/internal/charging"
	"daybreak/internal/facts"
	"daybreak/internal/panel"
	"daybreak/internal/pricing"
	"daybreak/internal/quote/caution"
	"daybreak/internal/shop"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Household is what a quote is made of: what was told, and the same with
// every open leaf filled by a table, a rule or an assumption.
type Household struct {
	Told        facts.Facts
	Filled      facts.Facts
	Assumptions []Assumption
}

// Compose makes the quote of a household as of a date. The error is a fault
// naming the leaf that had no value, or that no book could use; a home that
// cannot be wired, and one in danger, are quotes.
func Compose(books *shop.Books, home Household, asOf unit.Date) (Quote, error) {
	sheet := &working.Sheet{}
	w, err := begin(books, &home.Filled, asOf, sheet)
	if err != nil {
		return Quote{}, err
	}
	if err := w.weigh(); err != nil {
		return Quote{}, err
	}
	q := Quote{
		AsOf:        asOf,
		Expires:     asOf.Plus(books.Prices.ValidDays),
		Edition:     w.ed.Name(),
		Locality:    Locality{w.locality.PostalCode, w.locality.Name, !toldAt(&home.Told, "place.jurisdiction"), w.locality.Place, w.locality.Jurisdiction},
		Need:        w.need,
		Assumptions: home.Assumptions,
		Demo:        books.Demo,
		Revisions:   revisionsOf(books),
	}
	if q.Findings, err = w.findings(&home.Told); err != nil {
		return Quote{}, err
	}
	w.attach(q.Findings)
	if err := w.show(&q, w.choose()); err != nil {
		return Quote{}, err
	}
	best := q.best()
	if best != nil {
		q.BookFindings = best.Bill.Findings
	}
	w.stand(&q, best)
	if err := w.flip(best); err != nil {
		return Quote{}, err
	}
	w.headline(&q, best)
	q.Working = gathered(sheet, q.Options)
	q.Fingerprint = Fingerprint(&home.Told, asOf, q.Revisions)
	q.Reference = Reference(q.Fingerprint)
	return q, nil
}

// Draw is what one draw of a band keeps: what would be recommended and what it
// would cost.
type Draw struct {
	Option  string // id of the best fit; "" when nothing can be offered
	Setting unit.Amps
	Breaker unit.Amps
	Level   charging.Level
	Verdict panel.Verdict
	Managed bool
	Wire    string
	Partly  bool // a part of the best fit has no price
	Likely  int64
	Spread  pricing.Spread
}

// Price runs the same composition on figures only: no lines, no working. Its
// best fit is the one [Compose] would choose.
func Price(books *shop.Books, filled *facts.Facts, asOf unit.Date) (Draw, error) {
	w, err := begin(books, filled, asOf, nil)
	if err != nil {
		return Draw{}, err
	}
	best, err := w.recommend()
	if err != nil || best < 0 {
		return Draw{}, err
	}
	return w.options[best].draw(), nil
}

// recommend finds the best fit that [weighing.choose] would, and weighs no more
// than it must: mostly the largest setting within reach.
func (w *weighing) recommend() (int, error) {
	if err := w.existingWays(); err != nil {
		return -1, err
	}
	if i := w.soundCircuit(); i >= 0 {
		return i, nil
	}
	// A hybrid, or a home without new wire, rests on the cheapest of all ways.
	if !w.car.hybrid && w.mayWire {
		settings := w.settings()
		for k := len(settings) - 1; k >= 0; k-- {
			if settings[k] > w.reach() {
				continue
			}
			if i, err := w.roomAt(settings[k]); i >= 0 || err != nil {
				return i, err
			}
		}
	}
	w.options = w.options[:0]
	if err := w.weigh(); err != nil {
		return -1, err
	}
	return w.choose().best, nil
}

// roomAt is the new circuit at one setting that the panel carries with room to
// spare; −1 for none.
func (w *weighing) roomAt(setting unit.Amps) (int, error) {
	for _, way := range w.waysAt(setting) {
		if way == 0 {
			continue
		}
		o, err := w.wired(way, setting, w.supply)
		if err != nil {
			return -1, err
		}
		w.options = append(w.options, o)
	}
	return w.withRoom(), nil
}

// Outcome is what [Price] would say of a composed quote's best fit.
func (q *Quote) Outcome() Draw {
	if best := q.best(); best != nil {
		return best.draw()
	}
	return Draw{}
}

func (o *Option) draw() Draw {
	d := Draw{
		Option: o.ID, Setting: o.Setting, Breaker: o.Breaker, Level: o.Level, Managed: o.Managed,
		Partly: len(o.Unpriced) > 0,
		Likely: o.likely(), Spread: o.Bill.AllIn,
	}
	if o.Panel != nil {
		d.Verdict = o.Panel.Verdict
	}
	if o.Circuit != nil {
		d.Wire = WireWord(&o.Circuit.Chosen)
	}
	return d
}

func begin(books *shop.Books, filled *facts.Facts, asOf unit.Date, sheet *working.Sheet) (*weighing, error) {
	h, err := furnish(books, filled, asOf)
	if err != nil {
		return nil, err
	}
	w := &weighing{home: h, sheet: sheet}
	return w, w.readNeed()
}

func revisionsOf(books *shop.Books) []Revision {
	out := []Revision{{"engine", EngineRevision, ""}}
	for _, r := range books.AllRevisions() {
		out = append(out, Revision(r))
	}
	return out
}

// EngineRevision names the rules of the engines. It changes when the same
// facts and books would give another quote.
const EngineRevision = "1"

// findings are what is dangerous or does not fit together, as told; what the
// outlet rules raise joins them. They judge the outlets as told too, so that
// nothing assumed is said to have been found.
func (w *weighing) findings(told *facts.Facts) ([]caution.Finding, error) {
	seen := *w.home
	seen.facts = told
	outlets, err := (&weighing{home: &seen}).judge()
	if err != nil {
		return nil, err
	}
	var raised []caution.Raised
	for i := range outlets {
		for _, code := range outlets[i].verdict.Findings() {
			raised = append(raised, caution.Raised{Code: code, Slot: outlets[i].slot})
		}
	}
	return w.books.Cautions.Findings(told, raised...), nil
}

// gathered is the working of a quote: of the household, then of each option
// shown; a step that several options share stands once.
func gathered(sheet *working.Sheet, shown []Option) []working.Step {
	n := len(sheet.Steps)
	for i := range shown {
		n += len(shown[i].Working)
	}
	out := make([]working.Step, 0, n)
	under := make(map[string][]int, n) // where the steps of a rule stand
	add := func(steps []working.Step) {
		for _, s := range steps {
			same := func(i int) bool { return out[i] == s }
			if !slices.ContainsFunc(under[s.Rule], same) {
				under[s.Rule] = append(under[s.Rule], len(out))
				out = append(out, s)
			}
		}
	}
	add(sheet.Steps)
	for i := range shown {
		add(shown[i].Working)
	}
	return out
}

// attach puts each finding beside the options it is about.
func (w *weighing) attach(found []caution.Finding) {
	for i := range w.options {
		o := &w.options[i]
		for _, f := range found {
			if f.Slot != "" && f.Slot == o.OutletSlot {
				o.Findings = append(o.Findings, f)
			}
		}
	}
}

// show puts the chosen options on the quote in full, cheapest first, and the
// others behind them with why each was not shown.
func (w *weighing) show(q *Quote, c choice) error {
	for i := range w.options {
		o := &w.options[i]
		if i == c.enough {
			o.Role |= EnoughForNow
		}
		if i == c.best {
			o.Role |= BestFit
		}
		if i == c.grow {
			o.Role |= RoomToGrow
		}
		if o.Role == 0 {
			if err := w.aside(q, o, c); err != nil {
				return err
			}
			continue
		}
		full, err := w.inFull(o)
		if err != nil {
			return err
		}
		full.Why, full.Change = w.whyShown(&full, c.best), w.whatChanges(&full)
		q.Options = append(q.Options, full)
	}
	sortByPrice(q.Options)
	sortByPrice(q.Others)
	return nil
}

// aside puts an option among the others, with why it is not shown. A measure is
// laid out in full: its bills are asked for.
func (w *weighing) aside(q *Quote, o *Option, c choice) error {
	lost := *o
	if o.Taken != nil {
		var err error
		if lost, err = w.inFull(o); err != nil {
			return err
		}
	}
	lost.Why = w.whyNot(&lost, c)
	q.Others = append(q.Others, lost)
	return nil
}

// best is the option shown as best fit; nil when there is none.
func (q *Quote) best() *Option {
	for i := range q.Options {
		if q.Options[i].Role&BestFit != 0 {
			return &q.Options[i]
		}
	}
	return nil
}
