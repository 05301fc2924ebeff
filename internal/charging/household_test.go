package charging_test

import (
	"testing"

	"daybreak/internal/charging"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

func tables(t testing.TB) *charging.Tables {
	t.Helper()
	all, err := charging.Load(charging.Embedded())
	require.NoError(t, err)
	return all
}

func vehicle(t testing.TB, all *charging.Tables, id string) charging.Vehicle {
	t.Helper()
	v, err := all.Vehicles.ByID(id)
	require.NoError(t, err)
	return v
}

// on is a circuit with equipment set to 80 % of its breaker.
func on(supply unit.Volts, breaker, setting unit.Amps) charging.Limits {
	return charging.Limits{
		Supply: supply, Breaker: charging.At(breaker), Receptacle: charging.None[unit.Amps](),
		Setting: charging.At(setting), Cable: charging.None[unit.Amps](), Managed: charging.None[unit.Amps](),
	}
}

// Times and energies that an expert worked out for sixteen invented
// households of Alder Bay (computed from the loss model, rounded as told).
func TestHouseholdTimes(t *testing.T) {
	all := tables(t)
	for _, c := range []struct {
		name     string
		vehicle  string
		usable   unit.KilowattHours // 0: the vehicle's own
		limits   charging.Limits
		from, to float64
		hours    float64
		within   float64
	}{
		{"V01 32 A", "mid-sedan-long", 0, on(240, 40, 32), 0.2, 0.8, 6.8, 0.05},
		{"V01 Level 1", "mid-sedan-long", 0, on(120, 15, 12), 0.2, 0.8, 39.5, 0.05},
		{"V02 empty to full", "phev-sedan", 0, on(120, 20, 12), 0, 1, 9.1, 0.05},
		{"V04 24 A", "mid-sedan-eff", 0, on(240, 30, 24), 0.1, 0.9, 8.8, 0.05},
		{"V16 32 A", "pickup-max", 130, on(240, 40, 32), 0.1, 0.9, 14.9, 0.05},
		{"V16 48 A", "pickup-max", 130, on(240, 60, 48), 0.1, 0.9, 9.8, 0.05},
	} {
		v := vehicle(t, all, c.vehicle)
		if c.usable == 0 {
			c.usable = v.Usable
		}
		rate, err := charging.Power(v.Limits(c.limits), nil)
		require.NoError(t, err, c.name)
		got, err := charging.ChargeTime(charging.Session{
			Usable: c.usable, From: c.from, To: c.to, Wall: rate.Wall,
			Losses: charging.LossesAt(50), Taper: charging.UsualTaper(),
		}, nil)
		require.NoError(t, err, c.name)
		require.InDelta(t, c.hours, float64(got.Hours), c.within, c.name)
	}
}

func TestHouseholdPower(t *testing.T) {
	all := tables(t)
	for _, c := range []struct {
		name    string
		vehicle string
		limits  charging.Limits
		kw      float64
		binding charging.Limit
	}{
		{"V03 the car stops at 30 A", "city-hatch", on(240, 40, 32), 7.2, charging.OnboardPower},
		{"V03 16 A", "city-hatch", on(240, 20, 16), 3.84, charging.Circuit},
		{"V04 24 A", "mid-sedan-eff", on(240, 30, 24), 5.76, charging.Circuit},
		{"V08 208 V 16 A", "older-hatch", on(208, 20, 16), 3.328, charging.Circuit},
		{"V08 208 V 24 A", "older-hatch", on(208, 30, 24), 4.992, charging.Circuit},
		{"V08 208 V, the car's 28 A", "older-hatch", on(208, 60, 40), 5.824, charging.OnboardCurrent},
	} {
		rate, err := charging.Power(vehicle(t, all, c.vehicle).Limits(c.limits), nil)
		require.NoError(t, err, c.name)
		require.InDelta(t, c.kw, float64(rate.Wall), 1e-6, c.name)
		require.Equal(t, c.binding, rate.Binding, c.name)
		require.Zero(t, rate.Open, c.name)
	}
}

// The rule of *enough for now* against what the same expert called enough.
func TestEnoughForNow(t *testing.T) {
	all := tables(t)
	for _, c := range []struct {
		name    string
		vehicle string
		station string
		weekday unit.Miles
		window  unit.Hours
		limits  charging.Limits
		enough  bool
	}{
		{"V01 shared outlet at 12 A", "mid-sedan-long", "24233", 35, 11, on(120, 15, 12), false},
		{"V01 own 120 V 20 A circuit", "mid-sedan-long", "24233", 35, 11, on(120, 20, 16), true},
		{"V02 Level 1", "phev-sedan", "24233", 22, 10, on(120, 20, 12), true},
		{"V03 Level 1", "city-hatch", "24233", 30, 10, on(120, 15, 12), false},
		{"V03 16 A", "city-hatch", "24233", 30, 10, on(240, 20, 16), true},
		{"V04 Level 1", "mid-sedan-eff", "24233", 40, 10, on(120, 15, 12), false},
		{"V04 24 A", "mid-sedan-eff", "24233", 40, 10, on(240, 30, 24), true},
		{"V06 Level 1", "city-hatch", "24233", 22, 11, on(120, 15, 12), true},
		{"V08 208 V 16 A", "older-hatch", "24233", 28, 9, on(208, 20, 16), true},
		{"V09 Level 1 in Burlington", "mid-sedan-long", "14742", 34, 11, on(120, 15, 12), false},
		{"V14 Level 1", "compact-hatch", "24233", 24, 12, on(120, 20, 12), true},
		{"V14 at 40 miles", "compact-hatch", "24233", 40, 12, on(120, 20, 12), false},
	} {
		v := vehicle(t, all, c.vehicle)
		station, err := all.Climates.Station(c.station)
		require.NoError(t, err)
		day, err := charging.Weekday(c.weekday)
		require.NoError(t, err)
		rate, err := charging.Power(v.Limits(c.limits), nil)
		require.NoError(t, err)
		refill, need, err := charging.RefillsWorstWeekday(rate, charging.WorstWeekday{
			Day: day, Consumption: v.Consumption, Usable: v.Usable, Mean: station.Mean, Window: c.window,
		}, all.Season, nil)
		require.NoError(t, err)
		require.Equal(t, c.enough, refill.Fits, "%s: %.1f kWh in %.1f h", c.name, need.Energy, refill.Hours)
	}
}

func TestHouseholdNeeds(t *testing.T) {
	all := tables(t)
	for _, c := range []struct {
		name    string
		miles   unit.Miles
		rate    charging.Consumption
		outdoor unit.Fahrenheit // 0: the label's weather
		kwh     float64
	}{
		{"V01 a mild day", 35, 27, 0, 9.4},
		{"V02 a mild day", 22, 27, 0, 5.94},
		{"V09 January", 34, 27, 18.7, 13.4},
		{"V14 January", 24, 28.5, 42, 8.0},
		{"V16 January", 55, 48, 18.7, 38.5},
	} {
		m := 1.0
		if c.outdoor != 0 {
			var err error
			m, err = all.Season.At(c.outdoor, charging.Mid, nil)
			require.NoError(t, err)
		}
		need, err := charging.Need(charging.Trip{Miles: c.miles, Consumption: c.rate, Multiplier: m}, nil)
		require.NoError(t, err)
		require.InDelta(t, c.kwh, float64(need), 0.06, c.name)
	}
}

// V11: two cars share 48 A.
func TestTwoCarsOneCircuit(t *testing.T) {
	done, err := charging.Share(11.52, []charging.Sharer{{Need: 26, Most: 11.5}, {Need: 15, Most: 7.2}}, nil)
	require.NoError(t, err)
	require.InDelta(t, 3.56, float64(done[0]), 0.005)
	require.InDelta(t, 2.60, float64(done[1]), 0.005)
}

// Common practice: figures that any public page on charging gives.
func TestBallparks(t *testing.T) {
	all := tables(t)
	perHour := func(kw unit.Kilowatts, c charging.Consumption, f float64) float64 {
		m, err := charging.MilesPerHour(kw, c, f, nil)
		require.NoError(t, err)
		return float64(m)
	}
	// Level 1 at 12 A: about 4 to 5 miles an hour (common practice).
	for _, c := range []charging.Consumption{27, 30} {
		got := perHour(1.44, c, charging.Level1.DistanceFactor())
		require.True(t, got > 3.9 && got < 5.1, "%v", got)
	}
	// Level 1, empty battery: more than a day (common practice).
	v := vehicle(t, all, "compact-hatch")
	empty, err := charging.ChargeTime(charging.Session{Usable: v.Usable, To: 1, Wall: 1.44, Losses: charging.LossesAt(68), Taper: charging.UsualTaper()}, nil)
	require.NoError(t, err)
	require.Greater(t, float64(empty.Hours), 24.0)
	// 7 kW class: up to about 25 miles an hour (common practice).
	require.InDelta(t, 25, perHour(7.2, 28.5, 1), 1)
	// 7 kW for an hour is 7 kWh at the wall, and half the time or far less (common practice).
	level2, err := charging.ChargeTime(charging.Session{Usable: v.Usable, To: 1, Wall: 7, Losses: charging.LossesAt(68), Taper: charging.UsualTaper()}, nil)
	require.NoError(t, err)
	require.Less(t, float64(level2.Hours), float64(empty.Hours)/2)
	r, err := charging.Overnight(7, charging.Night{Wall: 7, Factor: 1, Window: 8}, nil)
	require.NoError(t, err)
	require.InDelta(t, 1, float64(r.Hours), 1e-9)
	// Direct current: 80 % in 20 minutes to an hour (common practice).
	for _, v := range all.Vehicles.List() {
		f, err := charging.FastCharge(v.Usable, v.DCPeak, nil)
		require.NoError(t, err)
		require.Equal(t, !v.PetrolBackup, f.Can, v.ID)
		if f.Can {
			require.True(t, f.Quick > 0.28 && f.Slow < 1.1, "%s %v %v", v.ID, f.Quick, f.Slow)
		}
	}
}
