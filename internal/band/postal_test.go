package band_test

import (
	"testing"

	"daybreak/internal/band"
	"daybreak/internal/facts"
	"daybreak/internal/quote"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

// A postal code the shop has no row for still gets an honest answer: at the
// shop's own town, never firm, and saying so.
func TestAPostalCodeNobodyServesGetsAQuoteThatSaysSo(t *testing.T) {
	var told facts.Facts
	told.Place.PostalCode = facts.Tell("00999")
	asOf, ok := unit.ParseDate("2026-11-25")
	require.True(t, ok)
	q, err := band.Quote(openBooks(t), told, asOf)
	require.NoError(t, err)
	require.NotEmpty(t, q.Options)
	require.Less(t, q.Standing, quote.ReadyToBook)
	keys := make([]string, len(q.Reasons))
	for i, r := range q.Reasons {
		keys[i] = r.Key
	}
	require.Contains(t, keys, "quote.standing.postal")
}
