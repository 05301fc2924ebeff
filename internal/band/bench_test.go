package band_test

import (
	"testing"

	"daybreak/internal/band"
	"daybreak/internal/facts"
	"daybreak/internal/quote"
	"daybreak/internal/unit"
)

// vague is a household that told its car, its miles and little else.
func vague() facts.Facts {
	var f facts.Facts
	f.Vehicle.Archetype = facts.Tell(facts.ArchetypeMidSedanLong)
	f.Driving.WeekdayMiles = facts.Tell(unit.Miles(35))
	f.Place.PostalCode = facts.Tell("00010")
	return f
}

func BenchmarkQuoteTold(b *testing.B) {
	books, h := openBooks(b), households(b)[0]
	b.ReportAllocs()
	for b.Loop() {
		if _, err := band.Quote(books, h.told, h.asOf); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkQuoteVague(b *testing.B) {
	books, h := openBooks(b), households(b)[0]
	told := vague()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := band.Quote(books, told, h.asOf); err != nil {
			b.Fatal(err)
		}
	}
}

func filled(b testing.TB, h household) facts.Facts {
	books := openBooks(b)
	f := h.told
	books.Complete(&f, h.asOf)
	books.Tree.Central(&f, books.World(h.asOf))
	books.Complete(&f, h.asOf)
	return f
}

func BenchmarkPrice(b *testing.B) {
	books, h := openBooks(b), households(b)[0]
	f := filled(b, h)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := quote.Price(books, &f, h.asOf); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCompose(b *testing.B) {
	books, h := openBooks(b), households(b)[0]
	home := quote.Household{Told: h.told, Filled: filled(b, h)}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := quote.Compose(books, home, h.asOf); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDraw(b *testing.B) {
	books, h := openBooks(b), households(b)[0]
	world, told := books.World(h.asOf), vague()
	books.Complete(&told, h.asOf)
	u := make([]float64, books.Tree.Dimensions())
	for i := range u {
		u[i] = 0.4
	}
	b.ReportAllocs()
	for b.Loop() {
		f := told
		books.Tree.Draw(u, &f, world)
		books.Complete(&f, h.asOf)
	}
}
