package tariff

import (
	"errors"
	"fmt"
	"math"

	"daybreak/internal/charging"
	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// Charging is a year of charging a car at home.
type Charging struct {
	Year  int                // of the calendar, 1970 to 2200
	Wall  unit.Kilowatts     // the most taken, from charging.Power; above 0 to 50
	Need  [12]Need           // of each month, January first; from Needs
	Home  Stay               // when the car is at the plug
	House [24]unit.Kilowatts // what else the household takes, each hour of any day, 0 to 50; left out on a meter for charging alone
}

// usualHouseKW is 863 kWh a month, spread evenly.
const usualHouseKW = 863 * 12 / 8760.0

// UsualHouse is what a household of mean use takes beside charging, the same in
// every hour. With none at all tiers would begin at nothing, and a least charge
// would hide the first of the car's energy.
//
// Source: US Energy Information Administration, residential sales 2024: 863 kWh
// a month on average (verified); spread evenly by engineering judgement
func UsualHouse() (house [24]unit.Kilowatts) {
	for h := range house {
		house[h] = usualHouseKW
	}
	return house
}

// Need is the wall energy to put back after a day, 0 to 500 kWh.
type Need struct {
	Weekday unit.KilowattHours
	Weekend unit.KilowattHours
}

// Stay is the hours of coming home and of leaving, 0 to 24, for the night after
// a weekday and after a weekend day. Leaving at an earlier hour than coming is
// leaving the next day.
type Stay struct {
	WeekdayHome, WeekdayLeave float64
	WeekendHome, WeekendLeave float64
}

// Needs is the wall energy of mean days through the months: distance times the
// label's consumption times the season, and a little more at Level 1.
//
// Source: 40 CFR 600.311-12(c)(3) for consumption; season as at charging.Curve
func Needs(weekday, weekend charging.Day, rate charging.Consumption, level charging.Level, multipliers [12]float64) ([12]Need, error) {
	var out [12]Need
	for i, m := range multipliers {
		for kind, day := range [2]charging.Day{weekday, weekend} {
			if _, err := day.ShareWithin(0); err != nil {
				return out, err
			}
			kWh, err := charging.Need(charging.Trip{Miles: day.Average(), Consumption: rate, Multiplier: m}, nil)
			if err != nil {
				return out, err
			}
			kWh /= unit.KilowattHours(level.DistanceFactor())
			if kind == 0 {
				out[i].Weekday = kWh
			} else {
				out[i].Weekend = kWh
			}
		}
	}
	return out, nil
}

func (c *Charging) check() error {
	err := errors.Join(
		inside("year", c.Year, 1970, 2200, "as a year"),
		between("wall_kw", float64(c.Wall), 1e-3, 50, "kW"),
	)
	for i, n := range c.Need {
		err = errors.Join(err,
			between(fmt.Sprintf("need[%d].weekday_kwh", i), float64(n.Weekday), 0, 500, "kWh"),
			between(fmt.Sprintf("need[%d].weekend_kwh", i), float64(n.Weekend), 0, 500, "kWh"))
	}
	for h, kw := range c.House {
		err = errors.Join(err, between(fmt.Sprintf("house_kw[%d]", h), float64(kw), 0, 50, "kW"))
	}
	for i, h := range [4]float64{c.Home.WeekdayHome, c.Home.WeekdayLeave, c.Home.WeekendHome, c.Home.WeekendLeave} {
		field := [4]string{"home.weekday_home", "home.weekday_leave", "home.weekend_home", "home.weekend_leave"}[i]
		err = errors.Join(err, between(field, h, 0, 24, "h"))
	}
	return err
}

func between(field string, v, low, high float64, what string) error {
	if !unit.Finite(v) || v < low || v > high {
		return fault.Invalid(field, v, fmt.Sprintf("%v to %v %s", low, high, what))
	}
	return nil
}

// hoursOfYear of 365 days, or 366.
const mostHours = 366 * 24

// year is the hours of a year and what is known of each.
type year struct {
	months [12]calendar
	hours  int
	month  []uint8 // of each hour
	from   [12]int // first hour of each month
}

func yearOf(number int) *year {
	y := &year{month: make([]uint8, 0, mostHours)}
	for m := range 12 {
		c := monthOf(number, m)
		y.months[m], y.from[m] = c, len(y.month)
		for range 24 * c.days {
			y.month = append(y.month, uint8(m))
		}
	}
	y.hours = len(y.month)
	return y
}

// night is one stay at the plug: its hours in order, and how much each can take.
type night struct {
	first int         // hour of the year, may run past its end
	n     int         // hours touched, at most 25
	kWh   [25]float64 // the most of each hour
	need  float64
}

// nights calls each with every night of the year in order.
func (c *Charging) nights(y *year, each func(*night)) {
	for m, cal := range y.months {
		for d := range cal.days {
			home, leave, need := c.Home.WeekdayHome, c.Home.WeekdayLeave, c.Need[m].Weekday
			if cal.weekend(d) {
				home, leave, need = c.Home.WeekendHome, c.Home.WeekendLeave, c.Need[m].Weekend
			}
			if leave <= home {
				leave += 24
			}
			t := night{first: y.from[m] + 24*d + int(home), need: float64(need)}
			for h := math.Floor(home); h < leave && t.n < len(t.kWh); h++ {
				t.kWh[t.n] = float64(c.Wall) * (min(leave, h+1) - max(home, h))
				t.n++
			}
			each(&t)
		}
	}
}
