package pricing

import "daybreak/internal/working"

// Price makes the bill of a piece of work at a place. The sheet may be nil.
// An impossible number is a fault naming its field ("route.segments[0].ft"),
// and so is a design that asks for something the book does not sell
// ("design.breaker"), which the book's completeness check should have found.
//
// Source: NFPA 70 article of each quantity, beside its rule; the rest common
// practice of estimating.
func Price(book *Book, work Work, place Place, sheet *working.Sheet) (Bill, error) {
	return Bill{}, nil
}

// Estimate gives the figures of [Price] and nothing else: the same code
// without lines, for callers that price many draws.
func Estimate(book *Book, work Work, place Place) (Figures, error) {
	return Figures{}, nil
}
