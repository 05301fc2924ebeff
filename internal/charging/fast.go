package charging

import (
	"errors"

	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Fast is charging with direct current, away from home, from 10 % to 80 %.
type Fast struct {
	Can     bool       // false when the car has no inlet for it; hours are then zero
	Quick   unit.Hours // at an average of 0.75 of the peak
	Slow    unit.Hours // at an average of 0.55 of the peak
	Battery unit.KilowattHours
}

const (
	fastFrom, fastTo          = 0.10, 0.80
	slowAverage, quickAverage = 0.55, 0.75
)

// FastCharge says how long a car takes from 10 % to 80 % at a charger that
// gives its peak power. It is never quoted for a dwelling.
//
// Source: average over peak power 0.55 to 0.75 (from memory)
func FastCharge(usable unit.KilowattHours, peak unit.Kilowatts, sheet *working.Sheet) (Fast, error) {
	if err := errors.Join(checkUsable(usable), within("dc_peak_kw", peak, 0, 500, "kW")); err != nil {
		return Fast{}, err
	}
	if peak == 0 {
		return Fast{}, nil
	}
	kwh := float64(usable) * (fastTo - fastFrom)
	f := Fast{
		Can:     true,
		Battery: unit.KilowattHours(kwh),
		Quick:   unit.Hours(kwh / (float64(peak) * quickAverage)),
		Slow:    unit.Hours(kwh / (float64(peak) * slowAverage)),
	}
	sheet.Add(working.Step{
		Rule:   "charging.fast.hours",
		In:     working.In(working.Num("energy", f.Battery, "kWh"), working.Num("peak", peak, "kW"), working.Num("quick", f.Quick, "h")),
		Out:    working.Num("slow", f.Slow, "h"),
		Source: fastModel,
	})
	return f, nil
}
