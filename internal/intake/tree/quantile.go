package tree

import "math"

// The quantile functions are exact, so that a draw is a function of its number
// alone and the same on every run.

// normalAt is the standard normal quantile.
func normalAt(u float64) float64 { return math.Sqrt2 * math.Erfinv(2*inside(u)-1) }

// inside keeps u off the ends, where quantiles are infinite.
func inside(u float64) float64 { return min(max(u, 1e-9), 1-1e-9) }

// z90 is the standard normal quantile at 0.9.
var z90 = normalAt(0.9)

// lognormalAt is the quantile of a lognormal whose halves have each their own
// width, so that it meets all three of its stated quantiles.
func lognormalAt(u, p10, p50, p90 float64) float64 {
	width := math.Log(p90/p50) / z90
	if u < 0.5 {
		width = math.Log(p50/p10) / z90
	}
	return p50 * math.Exp(width*normalAt(u))
}

// triangleAt is the quantile of a triangle on low, mode, high.
func triangleAt(u, low, mode, high float64) float64 {
	if high <= low {
		return low
	}
	u = min(max(u, 0), 1)
	if knee := (mode - low) / (high - low); u < knee {
		return low + math.Sqrt(u*(high-low)*(mode-low))
	}
	return high - math.Sqrt((1-u)*(high-low)*(high-mode))
}

// hourAt is the quantile of a normal hour of the day, kept within a day.
func hourAt(u, mean, sd float64) float64 { return min(max(mean+sd*normalAt(u), 0), 24) }
