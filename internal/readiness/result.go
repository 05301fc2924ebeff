package readiness

import (
	"math"
	"time"

	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Days is a mean number of days or mornings a year.
type Days float64

// Read gives whole days; and, when that is none, that it is fewer than one in
// so many years, at most 100.
func (d Days) Read() (whole, oneInYears int) {
	whole = int(math.Round(float64(d)))
	if whole > 0 {
		return whole, 0
	}
	return 0, int(min(max(1/max(float64(d), 1e-9), 1), 100))
}

// Result is a year of one option.
type Result struct {
	Short     Days // below the reserve, whatever the cause; 0 for a plug-in hybrid
	Uncurable Days // of these, what no home option cures: plugged in every night at home, refilled by each
	Habit     Days // of these, what nights at home without plugging in add, whatever the option
	Caused    Days // of these, what this option causes: the rest
	ByMonth   [12]MonthResult
	Worst     time.Month // of most short days
	Spread    Spread     // of Short between years
	Public    unit.KilowattHours
	Home      unit.KilowattHours // into the battery at home
	Elsewhere unit.KilowattHours // into the battery at work and the like
	Morning   float64            // mean state of charge at departure, of usable
	Still     Days               // departures while the car still charges
	StillFor  unit.Hours         // it would then take, on average
	Overload  Overload
	Fuel      Fuel // of a plug-in hybrid
	Wall      unit.Kilowatts
}

// MonthResult is a month of a Result.
type MonthResult struct {
	Short     Days
	Uncurable Days
	Habit     Days
	Caused    Days
	Public    unit.KilowattHours
	Morning   float64
	Still     Days
}

// Spread is how the number of short days differs from year to year. SD is that
// of the chain; one year of ten lies below Low, one above High.
type Spread struct {
	SD        float64
	Low, High int
}

// Overload says that driving takes more than the nights give, so that the
// battery stays near the reserve and its size hardly matters.
type Overload struct {
	Months [12]bool
	Any    bool
	Whole  bool    // over the year as a whole
	Need   float64 // battery kWh of a mean day in the worst month
	Gain   float64 // and what a mean night of that month can give
}

// Fuel is what a plug-in hybrid drives on fuel.
type Fuel struct {
	Miles    unit.Miles // a year
	Electric float64    // share of all miles on electricity
}

func (m *Model) result(o Option, n *nights, sheet *working.Sheet) Result {
	months := m.solve(n)
	r := Result{Wall: o.Wall, Overload: m.overload(n)}
	var sum tally
	for i := range months {
		t := &months[i]
		one := MonthResult{
			Short:   Days(t[shortDays]),
			Public:  unit.KilowattHours(t[missing]),
			Morning: m.morning(t[deficit] / float64(daysOf[i])),
			Still:   Days(t[still]),
		}
		refilled := min(Days(m.habit[i][shortDays]), one.Short)
		one.Uncurable = min(Days(m.never[i][shortDays]), refilled)
		one.Habit, one.Caused = refilled-one.Uncurable, one.Short-refilled
		r.Uncurable += one.Uncurable
		r.Habit += one.Habit
		r.Caused += one.Caused
		r.Short += one.Short
		r.ByMonth[i] = one
		if r.Worst == 0 || one.Short > r.ByMonth[r.Worst-1].Short {
			r.Worst = time.Month(i + 1)
		}
		if kw := m.in.Year[i].batteryKW(o.Wall); kw > 0 {
			r.StillFor += unit.Hours(t[lacking] / kw)
		}
		r.Fuel.Miles += unit.Miles(t[missing] / (m.in.Car.perMile() * m.in.Year[i].Multiplier))
		sum.add(t, 1)
	}
	r.Public, r.Home, r.Elsewhere = unit.KilowattHours(sum[missing]), unit.KilowattHours(sum[gained]), unit.KilowattHours(sum[elsewhere])
	r.Morning, r.Still = m.morning(sum[deficit]/365), Days(sum[still])
	if sum[still] > 1e-6 {
		r.StillFor /= unit.Hours(sum[still])
	} else {
		r.StillFor = 0
	}
	r.Spread = spreadOf(sum[shortDays], sum[variance])
	m.fuel(&r)
	m.show(&r, sheet)
	return r
}

func (m *Model) morning(meanDeficit float64) float64 {
	return m.in.Car.Limit - meanDeficit/float64(m.in.Car.Usable)
}

// fuel turns a plug-in hybrid's missing energy into miles on fuel; nothing is
// short and nothing is bought on the road.
func (m *Model) fuel(r *Result) {
	if !m.in.Car.Petrol {
		r.Fuel = Fuel{}
		return
	}
	if all := m.miles(); all > 0 {
		r.Fuel.Electric = max(1-float64(r.Fuel.Miles)/all, 0)
	}
	r.Short, r.Uncurable, r.Habit, r.Caused, r.Public, r.Spread, r.Worst = 0, 0, 0, 0, 0, Spread{}, 0
	for i := range r.ByMonth {
		one := &r.ByMonth[i]
		one.Short, one.Uncurable, one.Habit, one.Caused, one.Public = 0, 0, 0, 0, 0
	}
}

// miles of a year.
func (m *Model) miles() float64 {
	d := m.in.Driver
	return 365 * (5*float64(d.Weekday.Average()) + 2*float64(d.Weekend.Average())) / 7
}

// overload compares the mean need of each month with the most that its nights
// and charging elsewhere can give.
func (m *Model) overload(n *nights) Overload {
	var o Overload
	plugged := m.in.Driver.PlugIn * (1 - m.in.Driver.Away)
	other := 5 * m.in.Driver.Other.Share * float64(m.in.Driver.Other.Energy)
	needs, gains, worst := 0.0, 0.0, math.Inf(-1)
	for i := range n {
		k := m.coarse.kernels
		need := (5*k[m.coarse.of[i][0]].average + 2*k[m.coarse.of[i][1]].average) / 7
		gain := (plugged*(5*n[i].weeknight+2*n[i].weekend) + other) / 7
		needs, gains = needs+need*float64(daysOf[i]), gains+gain*float64(daysOf[i])
		o.Months[i] = need >= gain && need > 0
		o.Any = o.Any || o.Months[i]
		if need-gain > worst {
			worst, o.Need, o.Gain = need-gain, need, gain
		}
	}
	o.Whole = needs >= gains && needs > 0
	return o
}
