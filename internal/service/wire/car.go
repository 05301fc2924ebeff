package wire

import (
	"fmt"
	"strings"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/charging"
	"daybreak/internal/fault"
	"daybreak/internal/readiness"
	"daybreak/internal/unit"
)

// car reads a car: what is told, else its row of the vehicle table, else its
// archetype's. What nobody told stays 0.
func car(field string, m *daybreakv1.CarCase, vehicles charging.Vehicles) (charging.Vehicle, error) {
	var out charging.Vehicle
	id, from := strings.TrimPrefix(m.GetVehicle(), "vehicles/"), ".vehicle"
	if id == "" && m.Archetype != nil {
		id, from = archetype(m.GetArchetype()), ".archetype"
	}
	if id != "" {
		row, err := vehicles.ByID(id)
		if err != nil {
			return out, fault.Invalid(field+from, id, "a car of the vehicle table")
		}
		out = row
	}
	out.Usable = unit.KilowattHours(or(m.UsableKwh, float64(out.Usable)))
	out.Consumption = charging.Consumption(or(m.WallKwhPer_100Mi, float64(out.Consumption)))
	out.PetrolBackup = or(m.PetrolBackup, out.PetrolBackup)
	if out.Consumption == 0 {
		return out, fault.Invalid(field+".wall_kwh_per_100mi", "nothing", "15 to 120 kWh/100 mi, or a vehicle or an archetype")
	}
	return out, nil
}

// week reads a driver's weekdays and weekend days, with the usual habit of
// plugging in.
func week(field string, m *daybreakv1.DailyMiles, window unit.Hours) (readiness.Driver, error) {
	switch {
	case m.AverageMiles != nil && (m.WeekdayMiles != nil || m.WeekendMiles != nil):
		return readiness.Driver{}, fault.Invalid(field+".average_miles", m.GetAverageMiles(), "nothing beside weekday_miles or weekend_miles")
	case m.AverageMiles != nil:
		return readiness.EveryDay(unit.Miles(m.GetAverageMiles()), window)
	case m.WeekdayMiles == nil:
		return readiness.Driver{}, fault.Invalid(field+".weekday_miles", "nothing", "0 to 1000 mi, or average_miles in its place")
	}
	weekend := unit.Miles(or(m.WeekendMiles, m.GetWeekdayMiles()))
	return readiness.Week(unit.Miles(m.GetWeekdayMiles()), weekend, readiness.Window{Weeknight: window, Weekend: window})
}

// climate reads the months of a place: a station's, or those told.
func climate(field string, m *daybreakv1.ClimateCase, stations charging.Climates) (charging.Months, error) {
	var out charging.Months
	means := m.GetMonthlyMeanF()
	switch {
	case m.GetStation() != "" && len(means) > 0:
		return out, fault.Invalid(field+".monthly_mean_f", fmt.Sprintf("%d of them", len(means)), "nothing beside a station")
	case m.GetStation() != "":
		s, err := stations.Station(m.GetStation())
		if err != nil {
			return out, fault.Invalid(field+".station", m.GetStation(), "the id or the name of a station of the climate table")
		}
		return s.Mean, nil
	case len(means) != len(out):
		return out, fault.Invalid(field+".monthly_mean_f", fmt.Sprintf("%d of them", len(means)), "12, January first, or a station in their place")
	}
	for i, f := range means {
		out[i] = unit.Fahrenheit(f)
	}
	return out, nil
}
