package readiness

import (
	"errors"
	"fmt"

	"daybreak/internal/charging"
	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// Car is what of a car decides whether a day is covered.
type Car struct {
	Usable      unit.KilowattHours   // between full and empty, above 0 to 500
	Limit       float64              // share of Usable to which it is charged, above Reserve to 1
	Reserve     float64              // share the driver will not go below, 0 to below Limit
	Consumption charging.Consumption // of the label, at the wall
	Petrol      bool                 // a plug-in hybrid: never short, it burns fuel instead
}

// Driver is how one person drives and plugs in. A driver with a Below plugs in
// less often the more each night gives, so that more power need not mean fewer
// short days.
type Driver struct {
	Weekday charging.Day // Monday to Friday
	Weekend charging.Day // Saturday and Sunday
	Window  Window
	PlugIn  float64 // share of nights at home on which the car is plugged in, 0 to 1
	Below   float64 // plugs in when the evening's charge is about below this share of usable; 1 is always
	Away    float64 // share of nights spent elsewhere without charging, 0 to 1
	Other   Elsewhere
}

// Window is how long the car is plugged in on a night, 0 to 24 hours.
type Window struct {
	Weeknight unit.Hours // before Monday to Friday
	Weekend   unit.Hours // before Saturday and Sunday
}

// Elsewhere is charging on weekdays away from home, at work for example. It
// counts after the day's driving, which is the safer reading: the morning's
// charge alone decides whether the day is short.
type Elsewhere struct {
	Share  float64            // of weekdays on which it happens, 0 to 1
	Energy unit.KilowattHours // into the battery each time, 0 to 500
}

// Month is what the weather of a month does to a car.
type Month struct {
	Multiplier float64         // of consumption; 1 is the label's own weather
	Losses     charging.Losses // between wall and battery
}

// Year is the months of a place, January first. Obtain one with [YearOf].
type Year [12]Month

// Option is one way of charging at home.
type Option struct {
	Wall unit.Kilowatts // from charging.Power; 0 is no charging at home, at most 50
}

// Input is one way of charging one car for one driver in one place.
type Input struct {
	Car    Car
	Driver Driver
	Year   Year
	Option Option
}

// batteryOfWall is what of the label's wall energy reaches the battery in the
// label's own recharge.
//
// Source: SAE J1634 through 40 CFR 600.311-12; 0.88 to 0.91 by the US
// fuel-economy and alternative-fuels vehicle files (computed)
const batteryOfWall = 0.90

// YearOf reads the season's curve and the usual losses at a place's monthly
// means.
//
// Source: as at charging.Curve and charging.LossesAt
func YearOf(mean charging.Months, season charging.Curve, reading charging.Reading) (Year, error) {
	var y Year
	for i, f := range mean {
		m, err := season.At(f, reading, nil)
		if err != nil {
			return Year{}, err
		}
		y[i] = Month{Multiplier: m, Losses: charging.LossesAt(f)}
	}
	return y, nil
}

// EveryDay is a driver whose days are all alike, as when a yearly distance
// alone is told: plugged in on 95 nights of 100 for the same hours.
//
// Source: plug-in shares of home charging studies (from memory)
func EveryDay(average unit.Miles, window unit.Hours) (Driver, error) {
	d, err := charging.AverageDay(average)
	if err != nil {
		return Driver{}, err
	}
	return Driver{Weekday: d, Weekend: d, Window: Window{window, window}, PlugIn: usualPlugIn, Below: 1}, nil
}

// Week is a driver whose usual weekday is told, and the usual distance of a
// driven weekend day: a commute and errands, then days of all kinds.
//
// Source: as at charging.Weekday, charging.Weekend and EveryDay
func Week(weekday, weekend unit.Miles, window Window) (Driver, error) {
	d := Driver{Window: window, PlugIn: usualPlugIn, Below: 1}
	var err1, err2 error
	d.Weekday, err1 = charging.Weekday(weekday)
	d.Weekend, err2 = charging.Weekend(weekend)
	if err := errors.Join(err1, err2); err != nil {
		return Driver{}, err
	}
	return d, nil
}

const usualPlugIn = 0.95

func (in Input) check() error {
	return errors.Join(in.Car.check(), in.Driver.check(), in.Year.check(), in.Option.check())
}

func (c Car) check() error {
	err := errors.Join(
		positive("car.usable_kwh", float64(c.Usable), 500, "kWh"),
		positive("car.kwh_per_100mi", float64(c.Consumption), 300, "kWh per 100 mi"),
		within("car.reserve", c.Reserve, 0, 0.99, "of usable energy"),
		positive("car.limit", c.Limit, 1, "of usable energy"),
	)
	if err == nil && c.Limit < c.Reserve+0.01 {
		err = fault.Invalid("car.limit", c.Limit, "at least 0.01 above the reserve")
	}
	return err
}

func (d Driver) check() error {
	_, e1 := d.Weekday.ShareWithin(0)
	_, e2 := d.Weekend.ShareWithin(0)
	return errors.Join(e1, e2,
		within("driver.window.weeknight_h", float64(d.Window.Weeknight), 0, 24, "h"),
		within("driver.window.weekend_h", float64(d.Window.Weekend), 0, 24, "h"),
		within("driver.plug_in", d.PlugIn, 0, 1, "of nights at home"),
		within("driver.below", d.Below, 0, 1, "of usable energy"),
		within("driver.away", d.Away, 0, 1, "of nights"),
		within("driver.elsewhere.share", d.Other.Share, 0, 1, "of weekdays"),
		within("driver.elsewhere.kwh", float64(d.Other.Energy), 0, 500, "kWh"),
	)
}

func (y Year) check() error {
	var err error
	for i, m := range y {
		if bad := errors.Join(
			positive("multiplier", m.Multiplier, 10, "times the label"),
			positive("efficiency", m.Losses.Share, 1, "as a share"),
			within("overhead_kw", float64(m.Losses.Overhead), 0, 5, "kW"),
		); bad != nil {
			f, _ := fault.As(bad)
			f.Field = fmt.Sprintf("year[%d].%s", i, f.Field)
			err = errors.Join(err, f)
		}
	}
	return err
}

func (o Option) check() error { return within("option.wall_kw", float64(o.Wall), 0, 50, "kW") }

func within(field string, v, low, high float64, what string) error {
	if !unit.Finite(v) || v < low || v > high {
		return fault.Invalid(field, v, fmt.Sprintf("%v to %v %s", low, high, what))
	}
	return nil
}

func positive(field string, v, high float64, what string) error {
	if !unit.Finite(v) || v <= 0 || v > high {
		return fault.Invalid(field, v, fmt.Sprintf("above 0 to %v %s", high, what))
	}
	return nil
}

// batteryKW is the power into the battery in a month.
func (m Month) batteryKW(wall unit.Kilowatts) float64 {
	return max(m.Losses.Share*(float64(wall)-float64(m.Losses.Overhead)), 0)
}

// room is the energy between charge limit and reserve.
func (c Car) room() float64 { return float64(c.Usable) * (c.Limit - c.Reserve) }

// perMile is the battery energy of a mile in the label's weather.
func (c Car) perMile() float64 { return float64(c.Consumption) / 100 * batteryOfWall }

// nearly is how far around Driver.Below a driver is of two minds.
const nearly = 0.1

// pluggedAt is the chance that an evening's deficit is followed by a night at
// the plug. A habit is no switch: the chance rises in a straight line from
// nothing at ten points above Below to certain at ten points under it.
func (in Input) pluggedAt(deficit float64) float64 {
	chance := in.Driver.PlugIn * (1 - in.Driver.Away)
	if in.Driver.Below >= 1 {
		return chance
	}
	charge := in.Car.Limit - deficit/float64(in.Car.Usable)
	return chance * min(max((in.Driver.Below+nearly-charge)/(2*nearly), 0), 1)
}
