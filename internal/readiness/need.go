package readiness

import (
	"math"

	"daybreak/internal/charging"
)

// need is the battery energy of a day as a distribution: nothing on an idle
// day, else a fixed part and a lognormal part.
type need struct {
	idle  float64
	fixed float64 // kWh
	mean  float64 // of the varying part, kWh
	mu    float64
	sigma float64
}

func needOf(d charging.Day, kWhPerMile float64) need {
	n := need{
		idle:  d.Idle,
		fixed: float64(d.Fixed) * kWhPerMile,
		mean:  float64(d.Mean) * kWhPerMile,
		sigma: d.Sigma,
	}
	if n.mean > 0 {
		n.mu = math.Log(n.mean) - n.sigma*n.sigma/2
	}
	return n
}

// average over all days, idle ones included.
func (n need) average() float64 { return (1 - n.idle) * (n.fixed + n.mean) }

func normal(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }

// at returns the share of days that need no more than x, and the integral of
// that share from nothing to x. The integral gives the mean of what exceeds x
// without a tail being summed.
func (n need) at(x float64) (share, integral float64) {
	if x < 0 {
		return 0, 0
	}
	share, integral = n.idle, n.idle*x
	over := x - n.fixed
	switch {
	case over < 0 || (over == 0 && n.mean > 0):
		return share, integral
	case n.mean == 0:
		return 1, integral + (1-n.idle)*over
	}
	z := (math.Log(over) - n.mu) / n.sigma
	below := normal(z)
	return share + (1-n.idle)*below, integral + (1-n.idle)*(over*below-n.mean*normal(z-n.sigma))
}
