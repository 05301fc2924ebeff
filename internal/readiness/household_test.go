package readiness_test

import (
	"testing"

	"daybreak/internal/charging"
	"daybreak/internal/readiness"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

func tables(t testing.TB) *charging.Tables {
	t.Helper()
	all, err := charging.Load(charging.Embedded())
	require.NoError(t, err)
	return all
}

// household is a driver whose average day is told, as the sixteen check
// households have it: 90 % limit, 15 % reserve, plugged in on 95 of 100 nights.
func household(t testing.TB, all *charging.Tables, vehicle, station string, miles unit.Miles, window unit.Hours) readiness.Input {
	t.Helper()
	v, err := all.Vehicles.ByID(vehicle)
	require.NoError(t, err)
	s, err := all.Climates.Station(station)
	require.NoError(t, err)
	year, err := readiness.YearOf(s.Mean, all.Season, charging.Mid)
	require.NoError(t, err)
	d, err := readiness.EveryDay(miles, window)
	require.NoError(t, err)
	return readiness.Input{
		Car:    readiness.Car{Usable: v.Usable, Limit: 0.9, Reserve: 0.15, Consumption: v.Consumption, Petrol: v.PetrolBackup},
		Driver: d, Year: year,
	}
}

// Short days a year of each option, and those no home option cures, as computed
// for sixteen invented households of Alder Bay on a chain of 56 cells; within
// 10 % or one day.
func TestHouseholdReadiness(t *testing.T) {
	all := tables(t)
	const marine, inland = "Seattle-Tacoma", "Burlington"
	for _, c := range []struct {
		name      string
		vehicle   string
		station   string
		usable    unit.KilowattHours // 0: the vehicle's own
		rate      charging.Consumption
		miles     unit.Miles
		window    unit.Hours
		wall      unit.Kilowatts
		short     float64
		uncurable float64
	}{
		{"V01 32 A", "mid-sedan-long", marine, 0, 0, 35, 11, 7.68, 2.0, 1.7},
		{"V01 Level 1", "mid-sedan-long", marine, 0, 0, 35, 11, 1.44, 7.2, 1.7},
		{"V03 7.2 kW", "city-hatch", marine, 0, 0, 30, 10, 7.2, 16.7, 14.5},
		{"V03 16 A", "city-hatch", marine, 0, 0, 30, 10, 3.84, 16.7, 14.5},
		{"V03 Level 1", "city-hatch", marine, 0, 0, 30, 10, 1.44, 28.4, 14.5},
		{"V04 24 A", "mid-sedan-eff", marine, 0, 0, 40, 10, 5.76, 7.2, 6.2},
		{"V04 Level 1", "mid-sedan-eff", marine, 0, 0, 40, 10, 1.44, 24.8, 6.2},
		{"V05 24 A", "small-suv-2wd", marine, 0, 0, 38, 10, 5.76, 8.1, 6.9},
		{"V06 16 A", "city-hatch", marine, 0, 0, 22, 11, 3.84, 7.0, 6.0},
		{"V06 Level 1", "city-hatch", marine, 0, 0, 22, 11, 1.44, 9.1, 6.0},
		{"V07 24 A", "compact-hatch", marine, 0, 0, 42, 10, 5.76, 10.2, 8.8},
		{"V08 16 A at 208 V", "older-hatch", marine, 36, 0, 28, 9, 3.328, 16.2, 14.0},
		{"V08 24 A at 208 V", "older-hatch", marine, 36, 0, 28, 9, 4.992, 16.2, 14.0},
		{"V08 Level 1", "older-hatch", marine, 36, 0, 28, 9, 1.44, 31.2, 14.0},
		{"V09 managed", "mid-sedan-long", inland, 0, 0, 34, 11, 4, 2.6, 2.1},
		{"V09 Level 1", "mid-sedan-long", inland, 0, 0, 34, 11, 1.44, 12.3, 2.1},
		{"V10 32 A", "small-suv-awd", marine, 0, 0, 45, 10, 7.68, 11.0, 9.4},
		{"V10 16 A", "small-suv-awd", marine, 0, 0, 45, 10, 3.84, 12.7, 9.4},
		{"V14 Level 1", "compact-hatch", marine, 0, 0, 24, 12, 1.44, 2.5, 1.4},
		{"V14 at 40 mi", "compact-hatch", marine, 0, 0, 40, 12, 1.44, 22.7, 0},
		{"V16 32 A", "pickup-max", inland, 130, 48, 55, 10, 7.68, 14.5, 11.7},
		{"V16 48 A", "pickup-max", inland, 130, 48, 55, 10, 11.52, 13.5, 11.7},
		{"V16 Level 1", "pickup-max", inland, 130, 48, 55, 10, 1.44, 224.6, 0},
	} {
		in := household(t, all, c.vehicle, c.station, c.miles, c.window)
		if c.usable > 0 {
			in.Car.Usable = c.usable
		}
		if c.rate > 0 {
			in.Car.Consumption = c.rate
		}
		in.Option.Wall = c.wall
		r, err := readiness.Assess(in, nil)
		require.NoError(t, err, c.name)
		t.Logf("%-18s %6.1f / %5.1f   told %6.1f / %5.1f", c.name, r.Short, r.Uncurable, c.short, c.uncurable)
		require.InDelta(t, c.short, float64(r.Short), max(1, 0.1*c.short), c.name)
		if c.uncurable > 0 {
			require.InDelta(t, c.uncurable, float64(r.Uncurable), max(1, 0.1*c.uncurable), c.name)
		}
	}
}
