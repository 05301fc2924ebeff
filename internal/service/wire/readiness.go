package wire

import (
	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/readiness"
	"daybreak/internal/working"
)

// OptionYear is a year of one way of charging on the wire.
func (w *Words) OptionYear(r *readiness.Result, petrol bool, steps []working.Step) *daybreakv1.OptionYear {
	out := &daybreakv1.OptionYear{
		WallKw: float64(r.Wall), ShortDays: float64(r.Short), UncurableDays: float64(r.Uncurable),
		HabitDays: float64(r.Habit), CausedDays: float64(r.Caused),
		DeviationDays: r.Spread.SD, LowDays: int32(r.Spread.Low), HighDays: int32(r.Spread.High),
		PublicKwh: float64(r.Public), HomeKwh: float64(r.Home), ElsewhereKwh: float64(r.Elsewhere),
		MorningShare: r.Morning, StillChargingDays: float64(r.Still), StillChargingHours: float64(r.StillFor),
		Working: w.Working(steps),
	}
	for _, m := range r.ByMonth {
		out.Months = append(out.Months, &daybreakv1.MonthOfYear{
			ShortDays: float64(m.Short), UncurableDays: float64(m.Uncurable), HabitDays: float64(m.Habit), CausedDays: float64(m.Caused),
			PublicKwh: float64(m.Public), MorningShare: m.Morning, StillChargingDays: float64(m.Still),
		})
	}
	if r.Worst != 0 {
		month := int32(r.Worst)
		out.WorstMonth = &month
	}
	if r.Overload.Any {
		out.Overload = overload(r.Overload)
	}
	if petrol {
		out.Fuel = &daybreakv1.FuelYear{FuelMiles: float64(r.Fuel.Miles), ElectricShare: r.Fuel.Electric}
		out.Summary = w.say("readiness.fuel", working.Num("share", 100*r.Fuel.Electric, "%"))
		return out
	}
	out.Summary = w.shortDays(r.Caused)
	return out
}

// shortDays says in whole days what an option causes.
func (w *Words) shortDays(caused readiness.Days) *daybreakv1.Words {
	whole, years := caused.Read()
	switch {
	case whole == 0:
		return w.say("readiness.rare", working.Num("years", float64(years), ""))
	case whole == 1:
		return w.say("readiness.one")
	}
	return w.say("readiness.days", working.Num("days", float64(whole), ""))
}

func overload(o readiness.Overload) *daybreakv1.Overload {
	out := &daybreakv1.Overload{WholeYear: o.Whole, NeedKwh: o.Need, GainKwh: o.Gain}
	for i, over := range o.Months {
		if over {
			out.Months = append(out.Months, int32(i+1))
		}
	}
	return out
}
