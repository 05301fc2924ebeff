package band

import (
	"math"

	"daybreak/internal/pricing"
)

// quantile is the value below which a share p of equally likely bills lies,
// each spread like a normal distribution about its mean. A bill without spread
// is a step.
func quantile(bills []pricing.Spread, p float64) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, b := range bills {
		low = min(low, b.Mean-8*b.SD)
		high = max(high, b.Mean+8*b.SD)
	}
	for range 60 {
		mid := low + (high-low)/2
		if below(bills, mid) < p {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

func below(bills []pricing.Spread, x float64) float64 {
	sum := 0.0
	for _, b := range bills {
		switch {
		case b.SD > 0:
			sum += 0.5 * math.Erfc(-(x-b.Mean)/(b.SD*math.Sqrt2))
		case x >= b.Mean:
			sum++
		}
	}
	return sum / float64(len(bills))
}
