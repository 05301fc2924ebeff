package wire

import (
	"fmt"
	"slices"
	"strings"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/charging"
	"daybreak/internal/fault"
	"daybreak/internal/tariff"
	"daybreak/internal/unit"
)

// usualStay is when a car is at the plug when nobody told its hours.
//
// Source: hours of coming home and leaving, National Household Travel Survey
// (from memory)
func usualStay() tariff.Stay {
	return tariff.Stay{WeekdayHome: 18, WeekdayLeave: 7, WeekendHome: 18, WeekendLeave: 9}
}

// mostLevel1 is the most power of AC Level 1, 16 A at 120 V.
//
// Source: SAE J1772, AC Level 1
const mostLevel1 unit.Kilowatts = 1.92

// mostDayKWh is the most a day's driving may take.
const mostDayKWh = 500

// TariffYears reads a case of a year of charging: one year for each option.
func TariffYears(field string, m *daybreakv1.TariffCase, year int, tables *charging.Tables) ([]tariff.Charging, error) {
	c := tariff.Charging{Year: year, Home: usualStay()}
	if s := m.GetStay(); s != nil {
		c.Home = tariff.Stay{WeekdayHome: s.GetWeekdayHome(), WeekdayLeave: s.GetWeekdayLeave(), WeekendHome: s.GetWeekendHome(), WeekendLeave: s.GetWeekendLeave()}
	}
	var err error
	if c.House, err = otherLoads(field+".house_kw", m.GetHouseKw()); err != nil {
		return nil, err
	}
	row, err := car(field+".car", m.GetCar(), tables.Vehicles)
	if err != nil {
		return nil, err
	}
	driver, err := week(field+".miles", m.GetMiles(), usualWindow)
	if err != nil {
		return nil, err
	}
	mean, err := climate(field+".climate", m.GetClimate(), tables.Climates)
	if err != nil {
		return nil, err
	}
	var season [12]float64
	for i, f := range mean {
		if season[i], err = tables.Season.At(f, charging.Mid, nil); err != nil {
			return nil, err
		}
	}
	var out []tariff.Charging
	for i, o := range m.GetOptions() {
		c.Wall = unit.Kilowatts(o.GetWallKw())
		if c.Wall < 0.001 {
			return nil, fault.Invalid(fmt.Sprintf("%s.options[%d].wall_kw", field, i), o.GetWallKw(), "0.001 to 50 kW")
		}
		if c.Need, err = tariff.Needs(driver.Weekday, driver.Weekend, row.Consumption, level(o), season); err != nil {
			return nil, err
		}
		if slices.ContainsFunc(c.Need[:], func(n tariff.Need) bool { return n.Weekday > mostDayKWh || n.Weekend > mostDayKWh }) {
			return nil, fault.Invalid(field+".miles", "driving that takes more", fmt.Sprintf("driving that takes at most %d kWh a day", mostDayKWh))
		}
		out = append(out, c)
	}
	return out, nil
}

// otherLoads is what the household takes beside charging, hour by hour.
func otherLoads(field string, told []float64) ([24]unit.Kilowatts, error) {
	var out [24]unit.Kilowatts
	if n := len(told); n > 1 && n < len(out) {
		return out, fault.Invalid(field, fmt.Sprintf("%d of them", n), "24 values from midnight, one for all hours, or none")
	}
	if len(told) == 0 {
		return tariff.UsualHouse(), nil
	}
	for h := range out {
		out[h] = unit.Kilowatts(told[h%len(told)])
	}
	return out, nil
}

// level is told by the supply, or taken from the power.
func level(o *daybreakv1.HomeOption) charging.Level {
	switch {
	case o.Volts != nil:
		return charging.LevelOf(unit.Volts(o.GetVolts()))
	case unit.Kilowatts(o.GetWallKw()) <= mostLevel1:
		return charging.Level1
	}
	return charging.Level2
}

// ChosenTariffs are those asked for by name, or all of a shop.
func ChosenTariffs(field string, names []string, all []tariff.Tariff) ([]tariff.Tariff, error) {
	if len(names) == 0 {
		return all, nil
	}
	var out []tariff.Tariff
	for i, name := range names {
		at := slices.IndexFunc(all, func(t tariff.Tariff) bool { return tariffName(&t) == name })
		if at < 0 {
			return nil, fault.Invalid(fmt.Sprintf("%s[%d]", field, i), name, "a tariff of the shop's list: "+nameList(all))
		}
		out = append(out, all[at])
	}
	return out, nil
}

func tariffName(t *tariff.Tariff) string { return "tariffs/" + t.Label }

func nameList(all []tariff.Tariff) string {
	var out []string
	for i := range all {
		out = append(out, tariffName(&all[i]))
	}
	return strings.Join(out, ", ")
}
