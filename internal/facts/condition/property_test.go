package condition_test

import (
	"strings"
	"testing"

	"daybreak/internal/facts"
	"daybreak/internal/facts/condition"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestWitnessShowsABranchIsReachable(t *testing.T) {
	small, large := compile(t, "panel.service_amps <= 100"), compile(t, "panel.service_amps <= 150")
	f, ok := condition.Witness(large, small)
	require.True(t, ok)
	amps, _ := f.Panel.ServiceAmps.Get()
	require.Greater(t, float64(amps), 100.0)

	_, ok = condition.Witness(small, large)
	require.False(t, ok, "whatever is at most 100 is at most 150")
	_, ok = condition.Witness(compile(t, "size(route.ways) == 1 && place.mounting != 'inside' && !known(panel.bus_amps)"))
	require.True(t, ok)
	_, ok = condition.Witness(compile(t, "place.tenure == 'own' && place.tenure == 'rent'"))
	require.False(t, ok)
}

// An unknown answer may become anything; a plain one must never change when a
// missing leaf is told. This is what "three-valued" promises.
func TestTellingMoreNeverOverturnsAPlainAnswer(t *testing.T) {
	atoms := []string{
		"place.tenure == 'own'", "place.parking in ['attached','street']", "panel.service_amps <= 150",
		"panel.free_full_spaces < 2", "'trench' in route.ways", "vehicle.petrol_backup", "panel.bus_amps >= panel.service_amps",
	}
	rapid.Check(t, func(t *rapid.T) {
		var build func(depth int) string
		build = func(depth int) string {
			a := rapid.SampledFrom(atoms).Draw(t, "atom")
			if depth == 0 {
				return a
			}
			switch rapid.IntRange(0, 3).Draw(t, "shape") {
			case 0:
				return "!(" + build(depth-1) + ")"
			case 1:
				return "(" + build(depth-1) + " && " + build(depth-1) + ")"
			case 2:
				return "(" + build(depth-1) + " || " + build(depth-1) + ")"
			}
			return a
		}
		src := build(3)
		c, err := condition.Compile(src)
		require.NoError(t, err)
		var f facts.Facts
		before := c.Eval(&f)
		for _, path := range c.Reads() {
			l, _ := facts.LeafAt(path)
			switch l.Kind {
			case facts.Set:
				require.NoError(t, l.At(&f).Tell(rapid.SampledFrom([][]string{{}, {"trench"}, {"open"}}).Draw(t, path)))
			case facts.Flag:
				require.NoError(t, l.At(&f).Tell(rapid.Bool().Draw(t, path)))
			default:
				l.At(&f).DeriveNumber(rapid.Float64Range(l.Low, l.High).Draw(t, path), facts.FromDraw)
			}
			after := c.Eval(&f)
			if before.Value != condition.Unknown {
				require.Equal(t, before.Value, after.Value, src)
			}
			require.NotContains(t, after.Missing, path)
			before = after
		}
		require.NotEqual(t, condition.Unknown, before.Value, "%s with every leaf told", src)
	})
}

func FuzzCompile(f *testing.F) {
	for _, seed := range []string{
		"place.tenure in ['rent', 'assoc'] && panel.service_amps <= 150", "known(panel.bus_amps)", "!(('open' in route.ways))",
		"size(route.ways) == 1", "a ? b : c", "\"\\u0000\" == place.parking", "-1 < place.january_mean_f", "has(a.b)", "[[", "known()",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, src string) {
		c, err := condition.Compile(src)
		if err != nil {
			return
		}
		var nothing facts.Facts
		if c.Truth(&nothing) == condition.Unknown {
			require.NotEmpty(t, c.Reads())
		}
		require.False(t, strings.Contains(strings.Join(c.Reads(), " "), "_of."))
	})
}
