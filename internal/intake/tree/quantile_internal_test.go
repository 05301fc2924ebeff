package tree

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The three stated quantiles are met exactly; source: definition.
func TestQuantilesMeetTheirStatedPoints(t *testing.T) {
	for u, want := range map[float64]float64{0.1: 9.7, 0.5: 27.1, 0.9: 75.6} {
		require.InDelta(t, want, lognormalAt(u, 9.7, 27.1, 75.6), 1e-9)
	}
	// Triangle 0, 1, 8: the knee lies at 1/8; F(x) = 1 − (8 − x)²/56 above it.
	require.InDelta(t, 1, triangleAt(0.125, 0, 1, 8), 1e-9)
	require.InDelta(t, 2.708497, triangleAt(0.5, 0, 1, 8), 1e-6)
	// Standard normal quantile at 0.975 is 1.959964 (printed tables).
	require.InDelta(t, 1.959964, normalAt(0.975), 1e-6)
	require.InDelta(t, 18+1.5*1.281552, hourAt(0.9, 18, 1.5), 1e-5)
}

func TestQuantilesRiseAndStayFinite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Float64Range(0, 1).Draw(t, "a"), rapid.Float64Range(0, 1).Draw(t, "b")
		a, b = min(a, b), max(a, b)
		for _, at := range []func(float64) float64{
			func(u float64) float64 { return lognormalAt(u, 6, 16, 35) },
			func(u float64) float64 { return triangleAt(u, 0, 1, 8) },
			func(u float64) float64 { return hourAt(u, 7.5, 1) },
		} {
			require.LessOrEqual(t, at(a), at(b)+1e-12)
			require.Less(t, at(b), 1e6)
		}
	})
}
