package draw_test

import (
	"testing"

	"daybreak/internal/facts"
	"daybreak/internal/tools/households/draw"

	"github.com/stretchr/testify/require"
)

// A seed and a number are the household: the same give the same, others another.
func TestASeedIsItsHousehold(t *testing.T) {
	books, err := draw.Books()
	require.NoError(t, err)
	seen := map[facts.Fingerprint]bool{}
	for n := range uint64(50) {
		told := draw.Household(books, 7, n)
		require.Equal(t, told.Fingerprint(), fingerprint(draw.Household(books, 7, n)))
		filled, again := draw.Filled(books, told, 7, n), draw.Filled(books, told, 7, n)
		require.Equal(t, filled.Fingerprint(), again.Fingerprint())
		seen[told.Fingerprint()] = true
	}
	require.Len(t, seen, 50)
	other := draw.Household(books, 8, 0)
	require.False(t, seen[other.Fingerprint()])
}

func fingerprint(f facts.Facts) facts.Fingerprint { return f.Fingerprint() }

// Every kind of home, code edition, heat, face and way is met in a few hundred
// households, or the rules for it are not.
func TestEveryWordThatMattersIsMet(t *testing.T) {
	books, err := draw.Books()
	require.NoError(t, err)
	met := map[string]map[string]bool{}
	paths := []string{
		"place.dwelling_kind", "place.code_edition", "place.parking", "place.mounting", "place.tenure", "panel.heat_kind", "panel.cool_kind",
		"panel.protection", "outlet.configuration", "outlet.shared_with", "outlet.current_use", "outlet.grade", "outlet.wire_awg",
		"wishes.connection", "route.ways", "outlet.condition", "panel.trouble",
	}
	for _, p := range paths {
		met[p] = map[string]bool{}
	}
	for n := range uint64(3000) {
		told := draw.Household(books, 1, n)
		for _, p := range paths {
			leaf, ok := facts.LeafAt(p)
			require.True(t, ok, p)
			switch v := leaf.At(&told).Value().(type) {
			case string:
				met[p][v] = true
			case []string:
				for _, w := range v {
					met[p][w] = true
				}
			}
		}
	}
	for _, p := range paths {
		leaf, _ := facts.LeafAt(p)
		for _, w := range leaf.Words {
			require.True(t, met[p][w], "%s %s", p, w)
		}
	}
}
