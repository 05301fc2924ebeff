package tariff_test

import (
	"fmt"
	"io/fs"

	"daybreak/internal/charging"
	"daybreak/internal/shop/alderbay"
	"daybreak/internal/tariff"
)

// What does a year of charging cost, at once and in the cheapest hours?
func Example() {
	demo, _ := fs.Sub(alderbay.Files(), "tariffs")
	tariffs, err := tariff.Load(demo)
	if err != nil {
		fmt.Println(err)
		return
	}
	day, _ := charging.AverageDay(35)
	even := [12]float64{1.2, 1.2, 1.1, 1.1, 1, 1, 1, 1, 1, 1.1, 1.1, 1.2}
	needs, _ := tariff.Needs(day, day, 28, charging.Level2, even)
	year := tariff.Charging{
		Year: 2026, Wall: 7.68, Need: needs,
		Home:  tariff.Stay{WeekdayHome: 18, WeekdayLeave: 7, WeekendHome: 18, WeekendLeave: 9},
		House: tariff.UsualHouse(),
	}
	all, _ := tariff.CompareAll(tariffs, year, nil)
	for _, c := range all {
		fmt.Printf("%-17s %v at once, %v in the cheapest hours, %v a month\n", c.Tariff, c.Unmanaged.Year, c.Scheduled.Year, c.Scheduled.PerMonth())
	}
	// Output:
	// aml-everyday      580.45 USD at once, 580.45 USD in the cheapest hours, 48.37 USD a month
	// aml-evening       900.55 USD at once, 344.71 USD in the cheapest hours, 28.73 USD a month
	// aml-overnight-car 983.80 USD at once, 309.89 USD in the cheapest hours, 25.82 USD a month
}
