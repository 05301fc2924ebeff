package draw

import (
	"fmt"

	"daybreak/internal/band"
	"daybreak/internal/facts"
	"daybreak/internal/quote"
	"daybreak/internal/quote/inspector"
	"daybreak/internal/shop"
)

// Outcome is what became of one household.
type Outcome struct {
	Seed, Number uint64
	Told, Filled facts.Facts
	Quote        quote.Quote
	Refused      error // no quote could be made; a fault by field is an answer
	Found        []inspector.Violation
}

// Run makes the household of a seed and a number and inspects its quote.
func Run(books *shop.Books, seed, number uint64) Outcome {
	return Of(books, Household(books, seed, number), seed, number)
}

// wholeEvery is how many households share one that also goes through the draws
// of its range of price; they cost as much as all the others together.
const wholeEvery = 250

// Of inspects the quote of a household that was told. Seed and number decide
// how its open leaves are filled.
func Of(books *shop.Books, told facts.Facts, seed, number uint64) (out Outcome) {
	out = Outcome{Seed: seed, Number: number, Told: told}
	defer func() {
		if r := recover(); r != nil {
			out.Found = append(out.Found, inspector.Violation{Rule: "no-panic", Saw: fmt.Sprint(r), Allowed: "a quote, or a fault by field"})
		}
	}()
	out.Filled = Filled(books, told, seed, number)
	out.Quote, out.Refused = quote.Compose(books, quote.Household{Told: told, Filled: out.Filled}, AsOf())
	if out.Refused != nil {
		return out
	}
	out.Found = inspector.Inspect(&out.Quote, &out.Filled)
	if number%wholeEvery == 0 {
		out.Found = append(out.Found, whole(books, told)...)
	}
	return out
}

// whole inspects a quote with its range of price. The household's open leaves
// are filled there by the middle of what homes have, as for a shopper.
func whole(books *shop.Books, told facts.Facts) []inspector.Violation {
	q, err := band.Quote(books, told, AsOf())
	if err != nil {
		return nil
	}
	filled := told
	books.Complete(&filled, AsOf())
	books.Tree.Central(&filled, books.World(AsOf()))
	books.Complete(&filled, AsOf())
	return inspector.Inspect(&q, &filled)
}
