package band

import (
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
	e := estimator{books: books, known: known, asOf: asOf, world: books.World(asOf)}
	filled := known
	assumed := books.Tree.Central(&filled, e.world)
	books.Complete(&filled, asOf)
	q, err := quote.Compose(books, quote.Household{Told: told, Filled: filled, Assumptions: e.list(assumed, &filled)}, asOf)
	if err != nil {
		return quote.Quote{}, err
	}
	e.central, e.outcome = filled, q.Outcome()
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
	central facts.Facts
	asOf    unit.Date
	outcome quote.Draw
	active  []bool // dimensions that move a leaf of this household
	varies  bool   // draws differ in level, circuit or verdict
}

// estimate draws the open leaves and mixes the bills. With nothing open it is
// the bill's own spread.
func (e *estimator) estimate(q *quote.Quote) (quote.Band, error) {
	best := q.Outcome()
	b := quote.Band{Draws: 1, Currency: e.books.Prices.Currency}
	b.P10, b.P50, b.P90 = rounded(best.Spread.P10), best.Likely, rounded(best.Spread.P90)
	if !anyOf(e.active) {
		return b, nil
	}
	bills, moved := make([]pricing.Spread, 0, Draws), false
	u := make([]float64, e.books.Tree.Dimensions())
	for k := range Draws {
		point(k, u)
		d, err := e.draw(u)
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

// draw prices one household: what is known, the rest from the numbers u.
func (e *estimator) draw(u []float64) (quote.Draw, error) {
	f := e.known
	e.books.Tree.Draw(u, &f, e.world)
	e.books.Complete(&f, e.asOf)
	return quote.Price(e.books, &f, e.asOf)
}

func anyOf(all []bool) bool {
	for _, x := range all {
		if x {
			return true
		}
	}
	return false
}
