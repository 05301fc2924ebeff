package wire

import (
	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/charging"
	"daybreak/internal/fault"
	"daybreak/internal/readiness"
	"daybreak/internal/unit"
)

// ReadinessCase is a case of short days in the core's words.
type ReadinessCase struct {
	First   readiness.Input   // without an option
	Years   [3]readiness.Year // mild, mid and harsh reading of the season
	Options []readiness.Option
	Second  *readiness.Input // nil without a second car
	Circuit unit.Kilowatts   // both cars share it
}

// What a driver does who told nothing else: the reserve is what the rule of
// enough for now keeps, and a battery is charged to 90 % day by day.
//
// Source: advice of vehicle makers for daily charging (from memory)
const (
	usualLimit   = 0.9
	usualReserve = 0.15
)

// Readiness reads a case of short days. A field that is refused is named.
func Readiness(field string, m *daybreakv1.ReadinessCase, tables *charging.Tables) (ReadinessCase, error) {
	var c ReadinessCase
	mean, err := climate(field+".climate", m.GetClimate(), tables.Climates)
	if err != nil {
		return c, err
	}
	for i, reading := range [3]charging.Reading{charging.Mild, charging.Mid, charging.Harsh} {
		if c.Years[i], err = readiness.YearOf(mean, tables.Season, reading); err != nil {
			return c, err
		}
	}
	if c.First, err = readinessInput(field, m, tables.Vehicles, c.Years[1]); err != nil {
		return c, err
	}
	for _, o := range m.GetOptions() {
		c.Options = append(c.Options, readiness.Option{Wall: unit.Kilowatts(o.GetWallKw())})
	}
	if second := m.GetSecond(); second != nil {
		in, err := readinessInput(field+".second", second, tables.Vehicles, c.Years[1])
		if err != nil {
			return c, err
		}
		in.Option.Wall = unit.Kilowatts(second.GetWallKw())
		c.Second, c.Circuit = &in, unit.Kilowatts(second.GetCircuitKw())
	}
	return c, nil
}

// driven is a car with its driver, as first and as second of a case.
type driven interface {
	GetCar() *daybreakv1.CarCase
	GetMiles() *daybreakv1.DailyMiles
	GetHabit() *daybreakv1.PlugInHabit
}

func readinessInput(field string, m driven, vehicles charging.Vehicles, year readiness.Year) (readiness.Input, error) {
	in := readiness.Input{Year: year}
	var err error
	if in.Car, err = readinessCar(field+".car", m.GetCar(), vehicles); err != nil {
		return in, err
	}
	in.Driver, err = driver(field, m.GetMiles(), m.GetHabit())
	return in, err
}

func readinessCar(field string, m *daybreakv1.CarCase, vehicles charging.Vehicles) (readiness.Car, error) {
	row, err := car(field, m, vehicles)
	if err != nil {
		return readiness.Car{}, err
	}
	if row.Usable == 0 {
		return readiness.Car{}, fault.Invalid(field+".usable_kwh", "nothing", "5 to 250 kWh, or a vehicle or an archetype")
	}
	limit, reserve := usualLimit, usualReserve
	if row.PetrolBackup {
		limit, reserve = 1, 0
	}
	limit, reserve = or(m.ChargeLimitShare, limit), or(m.ReserveShare, reserve)
	if limit < reserve+0.01 {
		return readiness.Car{}, fault.Invalid(field+".charge_limit_share", limit, "at least 0.01 above the reserve, which is "+unit.Print(reserve, 2))
	}
	return readiness.Car{Usable: row.Usable, Limit: limit, Reserve: reserve, Consumption: row.Consumption, Petrol: row.PetrolBackup}, nil
}

func driver(field string, miles *daybreakv1.DailyMiles, m *daybreakv1.PlugInHabit) (readiness.Driver, error) {
	if m == nil {
		m = &daybreakv1.PlugInHabit{}
	}
	weeknight := or(m.WeeknightHours, float64(usualWindow))
	d, err := week(field+".miles", miles, unit.Hours(weeknight))
	if err != nil {
		return d, err
	}
	d.Window.Weekend = unit.Hours(or(m.WeekendNightHours, weeknight))
	d.PlugIn, d.Below, d.Away = or(m.PlugInShare, d.PlugIn), or(m.PlugInBelowShare, d.Below), or(m.AwayShare, 0)
	d.Other = readiness.Elsewhere{Share: or(m.ElsewhereShare, 0), Energy: unit.KilowattHours(or(m.ElsewhereKwh, 0))}
	return d, nil
}
