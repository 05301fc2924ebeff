package charging

import (
	"errors"
	"math"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// Day is how far a day goes, as a distribution: a distance that is the same
// every day, and a lognormal one on top; with some share of days not driven.
type Day struct {
	Fixed unit.Miles // the part that does not vary
	Mean  unit.Miles // of the varying part on a driven day
	Sigma float64    // of the logarithm of the varying part
	Idle  float64    // share of days without driving
}

const (
	idleShare      = 0.12
	daySigma       = 0.8
	errandsMiles   = 10
	errandsSigma   = 0.9
	weekendIdle    = 0.25
	weekendSigma   = 1.0
	mostDailyMiles = 1000
)

// AverageDay is any day of a driver whose average over all days is told.
//
// Source: Transportation Research Part B (2017), lognormal daily distances;
// 12 % of days unused, sigma 0.8 (from memory)
func AverageDay(average unit.Miles) (Day, error) {
	if err := within("average_miles", average, 0, mostDailyMiles, "mi"); err != nil {
		return Day{}, err
	}
	return Day{Mean: average / (1 - idleShare), Sigma: daySigma, Idle: idleShare}, nil
}

// Weekday is a working day of a driver who told a usual weekday distance: that
// distance less 10 miles is the same every day, and errands of 10 miles on
// average come on top. A usual weekday below 10 miles is errands alone.
//
// Source: commute plus lognormal errands of 8 to 12 miles, sigma 0.9 (from
// memory, National Household Travel Survey)
func Weekday(usual unit.Miles) (Day, error) {
	if err := within("weekday_miles", usual, 0, mostDailyMiles, "mi"); err != nil {
		return Day{}, err
	}
	errands := min(usual, errandsMiles)
	return Day{Fixed: usual - errands, Mean: errands, Sigma: errandsSigma}, nil
}

// Weekend is a Saturday or Sunday of a driver whose usual distance on a driven
// weekend day is told.
//
// Source: a quarter of weekend days unused, sigma 1.0 (from memory)
func Weekend(usual unit.Miles) (Day, error) {
	if err := within("weekend_miles", usual, 0, mostDailyMiles, "mi"); err != nil {
		return Day{}, err
	}
	return Day{Mean: usual, Sigma: weekendSigma, Idle: weekendIdle}, nil
}

// Average is the mean distance over all days.
func (d Day) Average() unit.Miles {
	return unit.Miles((1 - d.Idle) * float64(d.Fixed+d.Mean))
}

// Quantile is the distance that a share p of all days does not exceed; p is
// above 0 and below 1.
func (d Day) Quantile(p float64) (unit.Miles, error) {
	if err := d.check(); err != nil {
		return 0, err
	}
	if !(p > 0 && p < 1) {
		return 0, fault.Invalid("quantile", p, "above 0 and below 1")
	}
	if p <= d.Idle {
		return 0, nil
	}
	if d.Mean == 0 {
		return d.Fixed, nil
	}
	z := normalQuantile((p - d.Idle) / (1 - d.Idle))
	mu := math.Log(float64(d.Mean)) - d.Sigma*d.Sigma/2
	return d.Fixed + unit.Miles(math.Exp(mu+d.Sigma*z)), nil
}

// ShareWithin is the share of all days that go no further than a distance.
func (d Day) ShareWithin(miles unit.Miles) (float64, error) {
	if err := errors.Join(d.check(), within("miles", miles, 0, 100000, "mi")); err != nil {
		return 0, err
	}
	over := float64(miles - d.Fixed)
	switch {
	case over < 0 || (over == 0 && d.Mean > 0):
		return d.Idle, nil
	case d.Mean == 0:
		return 1, nil
	}
	mu := math.Log(float64(d.Mean)) - d.Sigma*d.Sigma/2
	z := (math.Log(over) - mu) / d.Sigma
	return d.Idle + (1-d.Idle)*0.5*math.Erfc(-z/math.Sqrt2), nil
}

func (d Day) check() error {
	return errors.Join(
		within("day.fixed", d.Fixed, 0, 2*mostDailyMiles, "mi"),
		within("day.mean", d.Mean, 0, 2*mostDailyMiles, "mi"),
		above("day.sigma", d.Sigma, 0, 3, ""),
		within("day.idle", d.Idle, 0, 0.99, "as a share"),
	)
}

// normalQuantile is the standard normal quantile.
func normalQuantile(p float64) float64 { return math.Sqrt2 * math.Erfinv(2*p-1) }
