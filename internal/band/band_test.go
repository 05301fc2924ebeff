package band

import (
	"math"
	"testing"

	"daybreak/internal/pricing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// One bill's quantiles are those of the normal distribution.
// Source: standard normal table, z(0.9) = 1.2816.
func TestOneBillKeepsItsOwnQuantiles(t *testing.T) {
	one := []pricing.Spread{{Mean: 1000, SD: 100}}
	require.InDelta(t, 1000-128.16, quantile(one, 0.1), 0.05)
	require.InDelta(t, 1000, quantile(one, 0.5), 0.05)
	require.InDelta(t, 1000+128.16, quantile(one, 0.9), 0.05)
}

// The plain twin: sort many points of each bill's distribution.
func TestMixtureAgreesWithItsPlainTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "n")
		var bills []pricing.Spread
		for range n {
			bills = append(bills, pricing.Spread{
				Mean: rapid.Float64Range(0, 500_000).Draw(t, "mean"),
				SD:   rapid.Float64Range(1, 50_000).Draw(t, "sd"),
			})
		}
		p := rapid.SampledFrom([]float64{0.1, 0.5, 0.9}).Draw(t, "p")
		x := quantile(bills, p)
		share := 0.0
		for _, b := range bills {
			share += 0.5 * (1 + math.Erf((x-b.Mean)/(b.SD*math.Sqrt2)))
		}
		require.InDelta(t, p, share/float64(n), 1e-6)
	})
}

func TestPointsFillEachDimensionEvenly(t *testing.T) {
	const n, dims = 64, 60
	count := make([][4]int, dims)
	u, open := make([]float64, dims), make([]bool, dims)
	for d := range open {
		open[d] = true
	}
	for k := range n {
		point(k, u, open)
		for d, x := range u {
			require.Greater(t, x, 0.0)
			require.Less(t, x, 1.0)
			count[d][int(x*4)]++
		}
	}
	for d := range 12 {
		for q := range 4 {
			require.InDelta(t, n/4, count[d][q], 6, "dimension %d, quarter %d", d, q)
		}
	}
}
