package readiness

import (
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Sources of the rules below; never changed.
var (
	chainModel    = &working.Source{Publication: "Markov chain of a finite dam", Section: "deficit of the battery from morning to morning, on a grid", Status: working.Computed}
	lognormalDays = &working.Source{Publication: "On the distribution of individual daily driving distances (Transportation Research Part B, 2017)", Section: "lognormal days", Status: working.FromMemory}
	labelToCar    = &working.Source{Publication: "40 CFR 600.311-12 and SAE J1634", Section: "0.90 of the label's wall energy reaches the battery", Status: working.Computed}
	lossModel     = &working.Source{Publication: "A comparison of electric vehicle Level 1 and Level 2 charging efficiency (IEEE SusTech 2014)", Section: "fitted: 0.93 of the power above 0.15 kW", Status: working.FromMemory}
	sharedCircuit = &working.Source{Publication: "NEC", Section: "625.42(A), load management; equal split", Status: working.FromMemory}
)

// show writes down how a result came about: the energy there is, the worst
// month's need and night, and the days.
func (m *Model) show(r *Result, sheet *working.Sheet) {
	if !sheet.Keeping() {
		return
	}
	c := m.in.Car
	sheet.Add(working.Step{
		Rule:   "readiness.car.room",
		In:     working.In(working.Num("usable", c.Usable, "kWh"), working.Num("limit", c.Limit*100, "%"), working.Num("reserve", c.Reserve*100, "%")),
		Out:    working.Num("room", c.room(), "kWh"),
		Source: chainModel,
	})
	sheet.Add(working.Step{
		Rule:   "readiness.need.mean",
		In:     working.In(working.Num("miles", m.miles()/365, "mi"), working.Num("per_mile", c.perMile(), "kWh")),
		Out:    working.Num("need", unit.KilowattHours(r.Overload.Need), "kWh"),
		Source: labelToCar,
	})
	sheet.Add(working.Step{
		Rule:   "readiness.night.mean",
		In:     working.In(working.Num("wall", r.Wall, "kW"), working.Num("window", m.in.Driver.Window.Weeknight, "h"), working.Num("plugged", 100*m.in.Driver.PlugIn*(1-m.in.Driver.Away), "%")),
		Out:    working.Num("gain", unit.KilowattHours(r.Overload.Gain), "kWh"),
		Source: lossModel,
	})
	if r.Overload.Any {
		sheet.Add(working.Step{
			Rule:   "readiness.overload",
			In:     working.In(working.Num("need", r.Overload.Need, "kWh"), working.Num("gain", r.Overload.Gain, "kWh")),
			Out:    working.Word("overload", r.Overload.Word()),
			Source: chainModel,
		})
	}
	if c.Petrol {
		sheet.Add(working.Step{
			Rule:   "readiness.fuel.miles",
			In:     working.In(working.Num("electric", 100*r.Fuel.Electric, "%")),
			Out:    working.Num("miles", r.Fuel.Miles, "mi"),
			Source: chainModel,
		})
		return
	}
	m.showDays(r, sheet)
}

func (m *Model) showDays(r *Result, sheet *working.Sheet) {
	sheet.Add(working.Step{
		Rule:   "readiness.days.short",
		In:     working.In(working.Num("low", r.Spread.Low, ""), working.Num("high", r.Spread.High, ""), working.Word("month", r.Worst.String())),
		Out:    working.Num("days", r.Short, ""),
		Source: chainModel,
	})
	sheet.Add(working.Step{
		Rule:   "readiness.days.uncurable",
		In:     working.In(working.Num("room", m.in.Car.room(), "kWh")),
		Out:    working.Num("days", r.Uncurable, ""),
		Source: lognormalDays,
	})
	if r.Habit > 0.05 {
		sheet.Add(working.Step{
			Rule:   "readiness.days.habit",
			In:     working.In(working.Num("plugged", 100*m.in.Driver.PlugIn, "%")),
			Out:    working.Num("days", r.Habit, ""),
			Source: chainModel,
		})
	}
	sheet.Add(working.Step{
		Rule:   "readiness.days.caused",
		In:     working.In(working.Num("short", r.Short, ""), working.Num("uncurable", r.Uncurable, ""), working.Num("habit", r.Habit, "")),
		Out:    working.Num("days", r.Caused, ""),
		Source: chainModel,
	})
	sheet.Add(working.Step{
		Rule:   "readiness.public.energy",
		Out:    working.Num("energy", r.Public, "kWh"),
		Source: chainModel,
	})
}

// Word is the overload's key in words for people: none, months or year.
func (o Overload) Word() string {
	switch {
	case o.Whole:
		return "year"
	case o.Any:
		return "months"
	}
	return "none"
}
