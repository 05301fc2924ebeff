package band_test

import (
	"testing"

	"daybreak/internal/quote"

	"github.com/stretchr/testify/require"
)

// A draw is composed sixty-four times and more for a quote, so what it
// allocates is held.
func TestADrawAllocatesLittle(t *testing.T) {
	books, h := openBooks(t), households(t)[0]
	f := filled(t, h)
	draw := func() {
		if _, err := quote.Price(books, &f, h.asOf); err != nil {
			t.Fatal(err)
		}
	}
	require.LessOrEqual(t, testing.AllocsPerRun(20, draw), 90.0)
	home := quote.Household{Told: h.told, Filled: f}
	compose := func() {
		if _, err := quote.Compose(books, home, h.asOf); err != nil {
			t.Fatal(err)
		}
	}
	require.LessOrEqual(t, testing.AllocsPerRun(20, compose), 1800.0)
}
