package readiness

import "math"

// spreadOf gives the deciles of a count whose mean and variance the chain
// knows: of a negative binomial count where short days come in runs, of a
// binomial one where they are less than chance would have it.
//
// Source: moments of the chain (computed); shape by engineering judgement
func spreadOf(mean, variance float64) Spread {
	s := Spread{SD: math.Sqrt(max(variance, 0))}
	if mean < 1e-9 {
		return Spread{}
	}
	s.Low, s.High = quantile(mean, variance, 0.1), quantile(mean, variance, 0.9)
	return s
}

// quantile walks up the count until a share of years lies at or below it.
func quantile(mean, variance, share float64) int {
	log := chanceOf(mean, variance)
	sum := 0.0
	for k := range 366 {
		sum += math.Exp(log(float64(k)))
		if sum >= share {
			return k
		}
	}
	return 365
}

// chanceOf is the logarithm of the chance of a count.
func chanceOf(mean, variance float64) func(k float64) float64 {
	gamma := func(x float64) float64 { v, _ := math.Lgamma(x); return v }
	switch {
	case variance > 1.0001*mean:
		size := mean * mean / (variance - mean)
		p := size / (size + mean)
		return func(k float64) float64 {
			return gamma(k+size) - gamma(size) - gamma(k+1) + size*math.Log(p) + k*math.Log(1-p)
		}
	case variance < 0.9999*mean:
		p := 1 - max(variance, 1e-9)/mean
		size := math.Round(mean / p)
		p = min(mean/max(size, 1), 1)
		return func(k float64) float64 {
			if k > size {
				return math.Inf(-1)
			}
			out := gamma(size+1) - gamma(k+1) - gamma(size-k+1)
			if k > 0 {
				out += k * math.Log(p)
			}
			if k < size {
				out += (size - k) * math.Log(1-p)
			}
			return out
		}
	}
	return func(k float64) float64 { return k*math.Log(mean) - mean - gamma(k+1) }
}
