package charging

import (
	"fmt"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Soak says how the battery comes to the plug in the cold.
type Soak uint8

const (
	// SoakUnknown plans on a battery that has stood in the cold, the longer time.
	SoakUnknown Soak = iota
	// JustDriven is a warm battery.
	JustDriven
	// StoodOutside is a battery as cold as the air.
	StoodOutside
)

// Question is everything that one way of charging one car is asked.
type Question struct {
	Limits      Limits
	Usable      unit.KilowattHours
	Consumption Consumption
	From, To    float64         // states of charge of the session wanted, 0 to 1
	Outdoor     unit.Fahrenheit // during that session
	Soak        Soak
	Day         Day        // from Weekday or AverageDay
	Mean        Months     // of the climate station
	Window      unit.Hours // plugged in overnight
	Reading     Reading
}

// Answer is how that way of charging serves that car.
type Answer struct {
	Rate         Rate
	MilesPerHour unit.Miles
	Session      Charge     // From → To at Outdoor
	Full         Charge     // empty to full, warm
	Usual        Refill     // an average day in the label's weather
	Heavy        Refill     // the 90th-percentile weekday of the coldest month
	HeavyNeed    WindowNeed // and what it is made of
	MostMiles    unit.Miles // that a night covers in the coldest month
}

// Estimate answers a question whole: power, miles an hour, session times and
// whether the night is long enough. Its faults are those of the calls it makes.
//
// Source: as at Power, ChargeTime, Need and NeedForWindow
func Estimate(q Question, season Curve, sheet *working.Sheet) (Answer, error) {
	var a Answer
	var err error
	if q.Soak > StoodOutside {
		return Answer{}, fault.Invalid("soak", fmt.Sprint(q.Soak), "unknown, just driven or stood outside")
	}
	if a.Rate, err = Power(q.Limits, sheet); err != nil {
		return Answer{}, err
	}
	factor := a.Rate.Level.DistanceFactor()
	if a.MilesPerHour, err = MilesPerHour(a.Rate.Wall, q.Consumption, factor, sheet); err != nil {
		return Answer{}, err
	}
	if err = a.times(q, sheet); err != nil {
		return Answer{}, err
	}
	heavy := WorstWeekday{Day: q.Day, Consumption: q.Consumption, Usable: q.Usable, Mean: q.Mean, Window: q.Window, Reading: q.Reading}
	if a.Heavy, a.HeavyNeed, err = RefillsWorstWeekday(a.Rate, heavy, season, sheet); err != nil {
		return Answer{}, err
	}
	need, err := Need(Trip{Miles: q.Day.Average(), Consumption: q.Consumption, Multiplier: 1}, sheet)
	if err != nil {
		return Answer{}, err
	}
	night := Night{Wall: a.Rate.Wall, Factor: factor, Window: q.Window}
	if a.Usual, err = Overnight(need, night, sheet); err != nil {
		return Answer{}, err
	}
	a.MostMiles, err = MaxDailyMiles(night, q.Consumption, a.HeavyNeed.Multiplier, sheet)
	return a, err
}

// times runs the session asked for and a whole charge in mild weather.
func (a *Answer) times(q Question, sheet *working.Sheet) error {
	heat := unit.KilowattHours(0)
	if q.Soak != JustDriven {
		var err error
		if heat, err = ColdStartHeat(q.Usable, q.Outdoor); err != nil {
			return err
		}
	}
	s := Session{
		Usable: q.Usable, From: q.From, To: q.To, Wall: a.Rate.Wall,
		Losses: LossesAt(q.Outdoor), Taper: UsualTaper(), Heating: heat,
	}
	var err error
	if a.Session, err = ChargeTime(s, sheet); err != nil {
		return err
	}
	s.From, s.To, s.Losses, s.Heating = 0, 1, LossesAt(coldBelowF), 0
	a.Full, err = ChargeTime(s, nil)
	return err
}
