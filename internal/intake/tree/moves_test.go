package tree_test

import (
	"slices"
	"testing"

	"daybreak/internal/facts"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A number that is said to move nothing that matters moves nothing that
// matters, wherever the others stand.
func TestANumberThatMovesNothingMayStandStill(t *testing.T) {
	tr := load(t)
	leaves := facts.Leaves()
	rapid.Check(t, func(t *rapid.T) {
		var told facts.Facts
		for range rapid.IntRange(0, 40).Draw(t, "told") {
			l := rapid.SampledFrom(leaves).Draw(t, "leaf")
			if l.Kind != facts.Text && l.Kind != facts.Day && l.Kind != facts.Set {
				l.At(&told).DeriveNumber(rapid.Float64Range(l.Low, l.High).Draw(t, "value"), 0)
			}
		}
		facts.Complete(&told, facts.Date{}, world.Tables)
		// Nothing is derived from these, inside the tree or out of it.
		matters := func(l *facts.Leaf) bool {
			return !slices.Contains([]string{"driving.long_day_miles", "driving.reserve_miles", "wishes.timing", "wishes.budget_minor"}, l.Path)
		}
		open := tr.Moves(&told, matters)
		u := uniforms(t, tr.Dimensions())
		still := append([]float64{}, u...)
		for d := range still {
			if !open[d] {
				still[d] = 0.5
			}
		}
		a, b := told, told
		tr.Draw(u, &a, &world)
		tr.Draw(still, &b, &world)
		for _, l := range leaves {
			if matters(l) {
				x, _ := l.At(&a).Number()
				y, _ := l.At(&b).Number()
				require.Equal(t, x, y, l.Path)
			}
		}
	})
}
