package facts

import "daybreak/internal/unit"

// Driving is how the household drives.
type Driving struct {
	WeekdayMiles            Known[unit.Miles] // miles on a normal weekday, mi
	WeekendMiles            Known[unit.Miles] // miles on a weekend day, mi
	AnnualMiles             Known[unit.Miles] // miles in a year, mi
	CommuteDaysPerWeek      Known[float64]    // days a week driven to work, d
	LongDaysPerMonth        Known[float64]    // much longer days in a month, d
	LongDayMiles            Known[unit.Miles] // miles on one of those, mi
	HomeByHour              Known[unit.Hours] // local hour the car is home for the night, h
	LeaveByHour             Known[unit.Hours] // local hour it leaves in the morning, h
	NightsAwayPerMonth      Known[float64]    // nights a month the car is not at home, nights
	ElsewhereDaysPerWeek    Known[float64]    // days a week it can charge elsewhere, d
	ReserveMiles            Known[unit.Miles] // miles the driver wants left, mi
	ShortMorningsOKPerYear  Known[float64]    // stops at a public charger a year that would be fine, d
	SecondVehicleDailyMiles Known[unit.Miles] // miles a day of the second vehicle, mi
}

func drivingLeaves() []*Leaf {
	return []*Leaf{
		number("driving.weekday_miles", "mi", 0, 400, 1, func(f *Facts) *Known[unit.Miles] { return &f.Driving.WeekdayMiles }),
		number("driving.weekend_miles", "mi", 0, 600, 1, func(f *Facts) *Known[unit.Miles] { return &f.Driving.WeekendMiles }),
		number("driving.annual_miles", "mi", 0, 150000, 0, func(f *Facts) *Known[unit.Miles] { return &f.Driving.AnnualMiles }),
		number("driving.commute_days_per_week", "d", 0, 7, 1, func(f *Facts) *Known[float64] { return &f.Driving.CommuteDaysPerWeek }),
		number("driving.long_days_per_month", "d", 0, 31, 1, func(f *Facts) *Known[float64] { return &f.Driving.LongDaysPerMonth }),
		number("driving.long_day_miles", "mi", 40, 900, 1, func(f *Facts) *Known[unit.Miles] { return &f.Driving.LongDayMiles }),
		number("driving.home_by_hour", "h", 0, 24, 1, func(f *Facts) *Known[unit.Hours] { return &f.Driving.HomeByHour }).stepping(0.5),
		number("driving.leave_by_hour", "h", 0, 24, 1, func(f *Facts) *Known[unit.Hours] { return &f.Driving.LeaveByHour }).stepping(0.5),
		number("driving.nights_away_per_month", "nights", 0, 31, 1, func(f *Facts) *Known[float64] { return &f.Driving.NightsAwayPerMonth }),
		number("driving.elsewhere_days_per_week", "d", 0, 7, 1, func(f *Facts) *Known[float64] { return &f.Driving.ElsewhereDaysPerWeek }),
		number("driving.reserve_miles", "mi", 0, 200, 1, func(f *Facts) *Known[unit.Miles] { return &f.Driving.ReserveMiles }),
		number("driving.short_mornings_ok_per_year", "d", 0, 365, 0, func(f *Facts) *Known[float64] { return &f.Driving.ShortMorningsOKPerYear }),
		number("driving.second_vehicle_daily_miles", "mi", 0, 400, 1, func(f *Facts) *Known[unit.Miles] { return &f.Driving.SecondVehicleDailyMiles }),
	}
}
