package service

import (
	"errors"
	"testing"

	"daybreak/internal/facts"
	"daybreak/internal/quote"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

func TestTheMemoMakesAQuoteOnceAndForgetsTheOldest(t *testing.T) {
	var m memo
	made := 0
	ask := func(miles float64, day string) *quote.Quote {
		var f facts.Facts
		f.Driving.WeekdayMiles = facts.Tell(unit.Miles(miles))
		asOf, ok := unit.ParseDate(day)
		require.True(t, ok)
		q, err := m.quote(&f, asOf, func() (quote.Quote, error) { made++; return quote.Quote{Reference: day}, nil })
		require.NoError(t, err)
		return q
	}
	require.Same(t, ask(1, "2026-11-25"), ask(1, "2026-11-25"))
	require.Equal(t, 1, made)
	ask(1, "2026-11-26")
	ask(2, "2026-11-25")
	require.Equal(t, 3, made, "another day and another household are others")
	for i := range remembered {
		ask(float64(i)/4, "2026-12-01")
	}
	require.Len(t, m.quotes, remembered)
	require.Len(t, m.order, remembered)
	before := made
	ask(1, "2026-11-25")
	require.Equal(t, before+1, made, "the oldest was forgotten")

	var f facts.Facts
	_, err := m.quote(&f, unit.Date{}, func() (quote.Quote, error) { return quote.Quote{}, errors.New("away") })
	require.Error(t, err)
	_, err = m.quote(&f, unit.Date{}, func() (quote.Quote, error) { return quote.Quote{}, nil })
	require.NoError(t, err, "a failure is not remembered")
}
