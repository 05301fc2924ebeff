package charging

import (
	"errors"
	"time"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// heavyDay is the share of weekdays that *enough for now* must refill.
const heavyDay = 0.9

// labelWallPerUsable is the wall energy of a full charge over usable energy.
const labelWallPerUsable = 1.12

// WorstWeekday asks what a heavy weekday of the coldest month needs.
type WorstWeekday struct {
	Day         Day // from Weekday, or AverageDay when only a yearly distance is told
	Consumption Consumption
	Usable      unit.KilowattHours // no night can put back more than the battery holds
	Mean        Months             // of the climate station
	Window      unit.Hours         // plugged in overnight, above 0 to 24
	Reading     Reading            // of the season's curve
}

// WindowNeed is what that weekday takes from the wall.
type WindowNeed struct {
	Miles      unit.Miles // nine weekdays of ten go no further
	Month      time.Month // the coldest
	Outdoor    unit.Fahrenheit
	Multiplier float64
	Energy     unit.KilowattHours // at label efficiency
	Full       bool               // the day is longer than the battery: a full charge is the need
	Level1     unit.Kilowatts     // wall power that refills it in the window at Level 1
	Level2     unit.Kilowatts     // and at Level 2
}

// NeedForWindow is the wall energy of the 90th-percentile weekday of the
// coldest month, and the power that puts it back within the plug-in window. A
// day beyond the battery's range needs a full charge: the rest is charged on
// the road, and no way of charging at home cures it.
//
// Source: lognormal days (Transportation Research Part B, 2017, from memory);
// 40 CFR 600.311-12 for consumption; season as at Curve
func NeedForWindow(w WorstWeekday, season Curve, sheet *working.Sheet) (WindowNeed, error) {
	err := errors.Join(w.Day.check(), w.Consumption.check(), checkUsable(w.Usable), w.Mean.check(),
		above("window_hours", w.Window, 0, 24, "h"))
	if err != nil {
		return WindowNeed{}, err
	}
	var n WindowNeed
	if n.Miles, err = w.Day.Quantile(heavyDay); err != nil {
		return WindowNeed{}, err
	}
	sheet.Add(working.Step{
		Rule:   "charging.window.heavy_day",
		In:     working.In(working.Num("fixed", w.Day.Fixed, "mi"), working.Num("mean", w.Day.Mean, "mi"), working.Num("sigma", w.Day.Sigma, "")),
		Out:    working.Num("miles", n.Miles, "mi"),
		Source: dayModel,
	})
	n.Month, n.Outdoor = w.Mean.Coldest()
	if n.Multiplier, err = season.At(n.Outdoor, w.Reading, sheet); err != nil {
		return WindowNeed{}, err
	}
	need := unit.KilowattHours(float64(n.Miles) * w.Consumption.kWhPerMile() * n.Multiplier)
	full := unit.KilowattHours(float64(w.Usable) * labelWallPerUsable)
	n.Energy, n.Full = min(need, full), need > full
	n.Level2 = unit.Kilowatts(float64(n.Energy) / float64(w.Window))
	n.Level1 = n.Level2 / level1OfLabel
	sheet.Add(working.Step{
		Rule: "charging.window.need",
		In: working.In(working.Num("miles", n.Miles, "mi"), working.Num("consumption", w.Consumption, "kWh/100 mi"),
			working.Num("multiplier", n.Multiplier, ""), working.Num("full", full, "kWh")),
		Out:    working.Num("need", n.Energy, "kWh"),
		Source: labelRate,
	})
	return n, nil
}

// RefillsWorstWeekday says whether a rate puts the 90th-percentile weekday of
// the coldest month back within the plug-in window: the rule of *enough for
// now*. The need is returned beside it.
//
// Source: as at NeedForWindow; Level 1 factor as at Level.DistanceFactor
func RefillsWorstWeekday(r Rate, w WorstWeekday, season Curve, sheet *working.Sheet) (Refill, WindowNeed, error) {
	n, err := NeedForWindow(w, season, sheet)
	if err != nil {
		return Refill{}, WindowNeed{}, err
	}
	night := Night{Wall: r.Wall, Factor: r.Level.DistanceFactor(), Window: w.Window}
	refill, err := Overnight(n.Energy, night, sheet)
	return refill, n, err
}

// Window is the time plugged in between coming home and leaving, both hours of
// the day from 0 to 24; leaving at the hour of coming is a whole day.
func Window(homeBy, leaveBy float64) (unit.Hours, error) {
	if err := errors.Join(within("home_by_hour", homeBy, 0, 24, "h"), within("leave_by_hour", leaveBy, 0, 24, "h")); err != nil {
		return 0, err
	}
	h := leaveBy - homeBy
	for h <= 0 {
		h += 24
	}
	return unit.Hours(h), nil
}

// Between is the time plugged in between two moments, at most 7 days. It counts
// hours that pass, not hands of a clock: the night on which clocks go back holds
// an hour more, and leaving at an earlier hour than coming may still be later.
func Between(arrival, departure time.Time) (unit.Hours, error) {
	h := departure.Sub(arrival).Hours()
	if h <= 0 {
		return 0, fault.Invalid("departure", departure.Format(time.RFC3339), "a moment after the arrival at "+arrival.Format(time.RFC3339))
	}
	if err := within("departure", h, 0, 7*24, "h after the arrival"); err != nil {
		return 0, err
	}
	return unit.Hours(h), nil
}
