package readiness_test

import (
	"fmt"

	"daybreak/internal/charging"
	"daybreak/internal/readiness"
)

// Is the outlet in the garage enough for 35 miles a day in the far north-east?
func Example() {
	all, _ := charging.Load(charging.Embedded())
	car, _ := all.Vehicles.ByID("mid-sedan-long")
	place, _ := all.Climates.Station("Burlington")
	year, _ := readiness.YearOf(place.Mean, all.Season, charging.Mid)
	driver, _ := readiness.EveryDay(35, 11)
	model, _ := readiness.Prepare(readiness.Car{
		Usable: car.Usable, Limit: 0.9, Reserve: 0.15, Consumption: car.Consumption,
	}, driver, year)
	for _, option := range []readiness.Option{{Wall: 1.44}, {Wall: 7.68}} {
		r, _ := model.Assess(option, nil)
		fmt.Printf("%.2f kW: %.0f days short, %.0f of them caused by it, %.0f cured by nothing at home; worst in %v\n",
			option.Wall, r.Short, r.Caused, r.Uncurable, r.Worst)
	}
	// Output:
	// 1.44 kW: 14 days short, 11 of them caused by it, 2 cured by nothing at home; worst in January
	// 7.68 kW: 3 days short, 0 of them caused by it, 2 cured by nothing at home; worst in January
}
