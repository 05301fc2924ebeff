package charging

import (
	"errors"

	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Consumption is energy at the wall per distance as the US label gives it, in
// kilowatt-hours per 100 miles, charging losses at 240 V included.
type Consumption float64

func (c Consumption) check() error {
	return above("kwh_per_100mi", c, 0, 300, "kWh per 100 mi")
}

func (c Consumption) kWhPerMile() float64 { return float64(c) / 100 }

// MilesPerHour is the range gained in an hour at a wall power. The factor is
// 1, or Level.DistanceFactor to count the lower efficiency of Level 1.
//
// Source: 40 CFR 600.311-12(c)(3): the label rate is wall energy
func MilesPerHour(wall unit.Kilowatts, c Consumption, factor float64, sheet *working.Sheet) (unit.Miles, error) {
	err := errors.Join(above("wall_kw", wall, 0, 50, "kW"), c.check(), checkFactor(factor))
	if err != nil {
		return 0, err
	}
	miles := unit.Miles(float64(wall) * factor * 100 / float64(c))
	sheet.Add(working.Step{
		Rule:   "charging.distance.per_hour",
		In:     working.In(working.Num("wall", wall, "kW"), working.Num("consumption", c, "kWh/100 mi"), working.Num("factor", factor, "")),
		Out:    working.Num("miles", miles, "mi/h"),
		Source: factorSource(factor),
	})
	return miles, nil
}

// Trip is a day's driving.
type Trip struct {
	Miles        unit.Miles // 0 to 2 000
	Consumption  Consumption
	Multiplier   float64            // of the season, from Curve.At; 1 is the label's own weather
	Precondition unit.KilowattHours // wall energy for warming cabin and battery; 0 to 50
}

// Need is the wall energy of a trip at label efficiency.
//
// Source: 40 CFR 600.311-12(c)(3); season as at Curve
func Need(t Trip, sheet *working.Sheet) (unit.KilowattHours, error) {
	err := errors.Join(
		within("miles", t.Miles, 0, 2000, "mi"),
		t.Consumption.check(),
		checkMultiplier(t.Multiplier),
		within("precondition_wall_kwh", t.Precondition, 0, 50, "kWh"),
	)
	if err != nil {
		return 0, err
	}
	kwh := unit.KilowattHours(float64(t.Miles)*t.Consumption.kWhPerMile()*t.Multiplier) + t.Precondition
	sheet.Add(working.Step{
		Rule: "charging.need.day",
		In: working.In(working.Num("miles", t.Miles, "mi"), working.Num("consumption", t.Consumption, "kWh/100 mi"),
			working.Num("multiplier", t.Multiplier, ""), working.Num("precondition", t.Precondition, "kWh")),
		Out:    working.Num("need", kwh, "kWh"),
		Source: labelRate,
	})
	return kwh, nil
}

// Night is what the wall gives while the car is plugged in.
type Night struct {
	Wall   unit.Kilowatts
	Factor float64    // Level.DistanceFactor of the rate
	Window unit.Hours // above 0 to 24
}

func (n Night) check() error {
	return errors.Join(
		above("wall_kw", n.Wall, 0, 50, "kW"),
		checkFactor(n.Factor),
		above("window_hours", n.Window, 0, 24, "h"),
	)
}

// Refill says whether a night covers a need.
type Refill struct {
	Need      unit.KilowattHours // at label efficiency
	Hours     unit.Hours         // to cover it
	Fits      bool               // Hours within the window
	Shortfall unit.KilowattHours // what the window leaves uncovered; 0 when it fits
}

// Overnight sets a need of at most 1 000 kWh against a night.
//
// Source: 40 CFR 600.311-12(c)(3); Level 1 factor as at Level.DistanceFactor
func Overnight(need unit.KilowattHours, n Night, sheet *working.Sheet) (Refill, error) {
	if err := errors.Join(within("need_kwh", need, 0, 1000, "kWh"), n.check()); err != nil {
		return Refill{}, err
	}
	kw := float64(n.Wall) * n.Factor
	r := Refill{Need: need, Hours: unit.Hours(float64(need) / kw)}
	r.Shortfall = max(need-unit.KilowattHours(kw*float64(n.Window)), 0)
	r.Fits = float64(r.Hours) <= float64(n.Window)*(1+tie)
	if r.Fits {
		r.Shortfall = 0
	}
	sheet.Add(working.Step{
		Rule: "charging.night.hours",
		In: working.In(working.Num("need", need, "kWh"), working.Num("wall", n.Wall, "kW"),
			working.Num("factor", n.Factor, ""), working.Num("window", n.Window, "h")),
		Out:    working.Num("hours", r.Hours, "h"),
		Source: factorSource(n.Factor),
	})
	return r, nil
}

// MaxDailyMiles is the distance that a night covers, the inverse of Overnight.
func MaxDailyMiles(n Night, c Consumption, multiplier float64, sheet *working.Sheet) (unit.Miles, error) {
	if err := errors.Join(n.check(), c.check(), checkMultiplier(multiplier)); err != nil {
		return 0, err
	}
	miles := unit.Miles(float64(n.Wall) * n.Factor * float64(n.Window) / (c.kWhPerMile() * multiplier))
	sheet.Add(working.Step{
		Rule: "charging.night.most_miles",
		In: working.In(working.Num("wall", n.Wall, "kW"), working.Num("window", n.Window, "h"),
			working.Num("consumption", c, "kWh/100 mi"), working.Num("multiplier", multiplier, "")),
		Out:    working.Num("miles", miles, "mi"),
		Source: factorSource(n.Factor),
	})
	return miles, nil
}

func checkFactor(f float64) error { return above("level_factor", f, 0, 1, "as a share") }

func checkMultiplier(m float64) error { return above("multiplier", m, 0, 10, "times the label") }

// factorSource names the study behind the Level 1 factor where it was applied.
func factorSource(factor float64) *working.Source {
	if factor != 1 {
		return level1Study
	}
	return labelRate
}
