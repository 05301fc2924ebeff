package quote

import (
	"daybreak/internal/charging"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// readNeed works out what the driver has to put back: a normal weekday in mild
// weather, and the 90th-percentile weekday of the coldest month.
func (w *weighing) readNeed() error {
	station, err := w.books.Charging.Climates.Station(or(w.facts.Place.ClimateStation, ""))
	if err != nil {
		return err
	}
	day, err := charging.Weekday(w.car.miles)
	if err != nil {
		return err
	}
	w.worst = charging.WorstWeekday{
		Day:         day,
		Consumption: charging.Consumption(w.car.wallPer100),
		Usable:      w.car.usable,
		Mean:        station.Mean,
		Window:      w.window,
	}
	worst, err := charging.NeedForWindow(w.worst, w.books.Charging.Season, w.sheet)
	if err != nil {
		return err
	}
	w.winter = worst.Multiplier
	usual, err := charging.Need(charging.Trip{Miles: w.car.miles, Consumption: w.worst.Consumption, Multiplier: 1}, w.sheet)
	if err != nil {
		return err
	}
	carRate, err := charging.Power(charging.Limits{
		Supply: w.supply, Breaker: charging.None[unit.Amps](), Receptacle: charging.None[unit.Amps](),
		Setting: charging.None[unit.Amps](), Cable: charging.None[unit.Amps](), Managed: charging.None[unit.Amps](),
		OnboardKW: charging.At(w.car.onboardKW), OnboardAmps: charging.At(w.car.acAmps),
	}, w.sheet)
	if err != nil {
		return err
	}
	w.need = Need{
		Miles:       w.car.miles,
		EnergyKWh:   usual,
		WorstKWh:    worst.Energy,
		WindowHours: w.window,
		Hybrid:      w.car.hybrid,
		CarKW:       w.car.onboardKW,
		CarAmps:     carRate.Amps,
	}
	return nil
}

// times fills what an option does for the driver.
func (w *weighing) times(o *Option) error {
	factor := o.Level.DistanceFactor()
	night := charging.Night{Wall: o.Rate.Wall, Factor: factor, Window: w.window}
	usual, err := charging.Overnight(w.need.EnergyKWh, night, w.full)
	if err != nil {
		return err
	}
	o.HoursNormal = usual.Hours
	worst, err := charging.Overnight(w.need.WorstKWh, night, w.full)
	if err != nil {
		return err
	}
	o.RefillsWorst = worst.Fits
	if !w.full.Keeping() {
		return nil
	}
	miles, err := charging.MilesPerHour(o.Rate.Wall, w.worst.Consumption, factor, w.full)
	if err != nil {
		return err
	}
	o.MilesPerHour = float64(miles)
	if o.WinterMiles, err = charging.MaxDailyMiles(night, w.worst.Consumption, w.winter, w.full); err != nil {
		return err
	}
	full, err := charging.ChargeTime(charging.Session{
		Usable: w.car.usable, From: 0, To: 1, Wall: o.Rate.Wall,
		Losses: charging.LossesAt(mildDay), Taper: charging.UsualTaper(),
	}, w.full)
	if err != nil {
		return err
	}
	o.HoursFull = full.Hours
	return nil
}

// mildDay is the weather of a time quoted without a season, °F.
const mildDay = unit.Fahrenheit(68)

// hoursTerm is a time as a term of a sentence.
func hoursTerm(name string, h unit.Hours) working.Term { return working.Num(name, h, "h") }
