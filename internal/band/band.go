package band

import (
	"slices"

	"daybreak/internal/facts"
	"daybreak/internal/intake/tree"
	"daybreak/internal/pricing"
	"daybreak/internal/quote"
	"daybreak/internal/shop"
	"daybreak/internal/unit"
)

// Draws is how many households stand for what is not known.
const Draws = 64

// Quote composes the quote of a household as told, with every open leaf filled
// and listed, and the range of price over what is open. The error is a fault
// of quote.Compose.
func Quote(books *shop.Books, told facts.Facts, asOf unit.Date) (quote.Quote, error) {
	// What tables know is looked up before anything is assumed.
	known := told
	books.Complete(&known, asOf)
	e := estimator{books: books, known: known, asOf: asOf, world: books.World(asOf), priced: map[facts.Facts]quote.Draw{}}
	e.open = books.Tree.Moves(&known, quote.Matters)
	filled := known
	assumed := books.Tree.Central(&filled, e.world)
	books.Complete(&filled, asOf)
	unsized := sizeLoads(&filled)
	q, err := quote.Compose(books, quote.Household{Told: told, Filled: filled, Assumptions: append(e.list(assumed, &filled), unsized...)}, asOf)
	if err != nil {
		return quote.Quote{}, err
	}
	e.outcome = q.Outcome()
	if err := e.probe(&q); err != nil {
		return quote.Quote{}, err
	}
	b, err := e.estimate(&q)
	if err != nil {
		return quote.Quote{}, err
	}
	e.lower(&q)
	q.SetBand(b)
	return q, nil
}

// estimator holds one household while its range is worked out.
type estimator struct {
	books   *shop.Books
	world   *tree.World
	known   facts.Facts // told, and looked up
	asOf    unit.Date
	outcome quote.Draw
	open    []bool // dimensions that may move what matters in this household
	varies  bool   // draws differ in level, circuit or verdict
	// priced remembers households drawn before: the words of a closed list
	// come up again and again.
	priced map[facts.Facts]quote.Draw
	drawn  facts.Facts // the household being drawn
	middle facts.Facts // every number in the middle
	usual  quote.Draw  // what it comes to
}

// estimate draws the open leaves and mixes the bills. With nothing open it is
// the bill's own spread.
func (e *estimator) estimate(q *quote.Quote) (quote.Band, error) {
	best := q.Outcome()
	b := quote.Band{Draws: 1, Currency: e.books.Prices.Currency}
	b.P10, b.P50, b.P90 = rounded(best.Spread.P10), best.Likely, rounded(best.Spread.P90)
	if !slices.Contains(e.open, true) {
		return b, nil
	}
	bills, moved := make([]pricing.Spread, 0, Draws), false
	u := make([]float64, len(e.open))
	for k := range Draws {
		point(k, u, e.open)
		e.fill(u)
		d, err := e.price()
		if err != nil {
			return quote.Band{}, err
		}
		if d.Option == "" {
			b.Unpriced++
			continue
		}
		bills = append(bills, d.Spread)
		e.varies = e.varies || differs(d, e.outcome)
		moved = moved || d.Spread != best.Spread
	}
	if !moved && b.Unpriced == 0 {
		return b, nil
	}
	b.Draws = Draws
	if len(bills) == 0 {
		b.Draws = 0
		return b, nil
	}
	b.P10, b.P50, b.P90 = rounded(quantile(bills, 0.1)), rounded(quantile(bills, 0.5)), rounded(quantile(bills, 0.9))
	return b, nil
}

func rounded(minor float64) int64 { return int64(minor + 0.5) }

// fill draws one household: what is known, the rest from the numbers u.
func (e *estimator) fill(u []float64) {
	e.drawn = e.known
	e.books.Tree.Draw(u, &e.drawn, e.world)
	sizeLoads(&e.drawn)
}

// price says what would be recommended to the household drawn, and what it
// would cost.
func (e *estimator) price() (quote.Draw, error) {
	if e.drawn == e.middle && e.usual != (quote.Draw{}) {
		return e.usual, nil
	}
	if d, ok := e.priced[e.drawn]; ok {
		return d, nil
	}
	d, err := quote.Price(e.books, &e.drawn, e.asOf)
	if err == nil {
		e.priced[e.drawn] = d
	}
	return d, err
}
