package band_test

import (
	"testing"

	"daybreak/internal/facts"
	"daybreak/internal/unit"

	"pgregory.net/rapid"
)

// today is a date within the demo price book.
var today = unit.Date{Year: 2026, Month: 11, Day: 25}

// drawnHousehold is a home as the question tree expects homes to be, every
// leaf with a value.
func drawnHousehold(t *rapid.T, tb testing.TB) facts.Facts {
	books := openBooks(tb)
	u := rapid.SliceOfN(rapid.Float64Range(0.001, 0.999), books.Tree.Dimensions(), books.Tree.Dimensions()).Draw(t, "u")
	var f facts.Facts
	f.Place.PostalCode = facts.Tell(rapid.SampledFrom([]string{"00010", "00011", "00012", "00020", "00021"}).Draw(t, "postal"))
	books.Complete(&f, today)
	books.Tree.Draw(u, &f, books.World(today))
	return f
}

// tell makes a leaf of a household told at the value it has there. The name of
// a utility is looked up, not told.
func tell(t *rapid.T, l *facts.Leaf, from, to *facts.Facts) {
	if v := l.At(from).Value(); v != nil && l.Path != "place.utility" {
		if err := l.At(to).Tell(v); err != nil {
			t.Fatalf("%s: %v", l.Path, err)
		}
	}
}

// toldAll is a home of which everything was told.
func toldAll(t *rapid.T, tb testing.TB) facts.Facts {
	drawn := drawnHousehold(t, tb)
	var told facts.Facts
	for _, l := range facts.Leaves() {
		tell(t, l, &drawn, &told)
	}
	return told
}

// toldSome is a home of which a part was told, and a few leaves at any value
// they accept, however unlikely.
func toldSome(t *rapid.T, tb testing.TB) facts.Facts {
	drawn := drawnHousehold(t, tb)
	share := rapid.Float64Range(0, 1).Draw(t, "share")
	var told facts.Facts
	for _, l := range facts.Leaves() {
		if rapid.Float64Range(0, 1).Draw(t, "told") < share {
			tell(t, l, &drawn, &told)
		}
	}
	for range rapid.IntRange(0, 6).Draw(t, "odd") {
		l := rapid.SampledFrom(facts.Leaves()).Draw(t, "leaf")
		if l.Kind == facts.Text || l.Kind == facts.Day {
			continue
		}
		l.At(&drawn).DeriveNumber(rapid.Float64Range(l.Low, max(l.Low, min(l.High, 1e6))).Draw(t, "value"), 0)
		tell(t, l, &drawn, &told)
	}
	return told
}
