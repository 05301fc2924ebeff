package readiness

import (
	"daybreak/internal/charging"
	"daybreak/internal/working"
)

// sigmaStep is how far the spread of daily distances is open around its usual
// value.
const sigmaStep = 0.1

// Around counts a year three times, since the inputs weigh far more than the
// arithmetic: with the mild reading of the season and days that differ less,
// as told, and with the harsh reading and days that differ more. The mean
// distance stays. Years are in the order mild, mid, harsh.
//
// Source: sigma of one driver's days 0.6 to 1.0 (from memory)
func Around(in Input, years [3]Year, sheet *working.Sheet) (low, mid, high Result, err error) {
	var out [3]Result
	for i, step := range [3]float64{-sigmaStep, 0, sigmaStep} {
		one := in
		one.Year = years[i]
		one.Driver.Weekday = spreadBy(in.Driver.Weekday, step)
		one.Driver.Weekend = spreadBy(in.Driver.Weekend, step)
		steps := sheet
		if i != 1 {
			steps = nil
		}
		if out[i], err = Assess(one, steps); err != nil {
			return Result{}, Result{}, Result{}, err
		}
	}
	return out[0], out[1], out[2], nil
}

func spreadBy(d charging.Day, step float64) charging.Day {
	if d.Sigma+step > 0 {
		d.Sigma += step
	}
	return d
}
