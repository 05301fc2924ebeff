package charging_test

import (
	"math"
	"testing"

	"daybreak/internal/charging"
	"daybreak/internal/fault"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

var nan, inf = math.NaN(), math.Inf(1)

func TestBadInputIsRefusedByName(t *testing.T) {
	all := tables(t)
	good := charging.Session{Usable: 60, From: 0.2, To: 0.8, Wall: 7.2, Losses: charging.LossesAt(50)}
	session := func(change func(*charging.Session)) error {
		s := good
		change(&s)
		_, err := charging.ChargeTime(s, nil)
		return err
	}
	power := func(change func(*charging.Limits)) error {
		l := on(240, 40, 32)
		change(&l)
		_, err := charging.Power(l, nil)
		return err
	}
	only := func(_ any, err error) error { return err }
	two := func(_, _ any, err error) error { return err }
	for field, err := range map[string]error{
		"usable_kwh":    session(func(s *charging.Session) { s.Usable = 0 }),
		"soc_to":        session(func(s *charging.Session) { s.To = 0.1 }),
		"soc_from":      session(func(s *charging.Session) { s.From = nan }),
		"wall_kw":       session(func(s *charging.Session) { s.Wall = -1 }),
		"heating_kwh":   session(func(s *charging.Session) { s.Heating = unit.KilowattHours(inf) }),
		"efficiency":    session(func(s *charging.Session) { s.Losses.Share = 0 }),
		"overhead_kw":   session(func(s *charging.Session) { s.Losses.Overhead = unit.Kilowatts(nan) }),
		"supply_volts":  power(func(l *charging.Limits) { l.Supply = 0 }),
		"breaker_amps":  power(func(l *charging.Limits) { l.Breaker = charging.At(unit.Amps(nan)) }),
		"setting_amps":  power(func(l *charging.Limits) { l.Setting = charging.At[unit.Amps](-32) }),
		"onboard_kw":    power(func(l *charging.Limits) { l.OnboardKW = charging.At[unit.Kilowatts](0) }),
		"onboard_amps":  power(func(l *charging.Limits) { l.OnboardAmps = charging.At(unit.Amps(1e9)) }),
		"limits":        power(func(l *charging.Limits) { *l = charging.Limits{Supply: 240} }),
		"miles":         only(charging.Need(charging.Trip{Miles: 1e9, Consumption: 30, Multiplier: 1}, nil)),
		"multiplier":    only(charging.Need(charging.Trip{Miles: 10, Consumption: 30}, nil)),
		"kwh_per_100mi": only(charging.MilesPerHour(7, 0, 1, nil)),
		"level_factor":  only(charging.MilesPerHour(7, 30, 0, nil)),
		"window_hours":  only(charging.Overnight(10, charging.Night{Wall: 7, Factor: 1}, nil)),
		"need_kwh":      only(charging.Overnight(unit.KilowattHours(nan), charging.Night{Wall: 7, Factor: 1, Window: 8}, nil)),
		"outdoor_f":     only(all.Season.At(unit.Fahrenheit(inf), charging.Mid, nil)),
		"reading":       only(all.Season.At(30, 9, nil)),
		"duty_pct":      only(charging.PilotAmps(-1)),
		"evs":           only(charging.Share(7, nil, nil)),
		"evs[0].max_kw": only(charging.Share(7, []charging.Sharer{{Need: 1}}, nil)),
		"limit_kwh":     only(charging.RunWeek(charging.Week{Start: 20, Limit: 10, Night: make([]unit.KilowattHours, 1), Need: make([]unit.KilowattHours, 3)})),
		"night_kwh":     only(charging.RunWeek(charging.Week{Limit: 10, Need: make([]unit.KilowattHours, 3)})),
		"weekday_miles": only(charging.Weekday(-20)),
		"average_miles": only(charging.AverageDay(unit.Miles(nan))),
		"weekend_miles": only(charging.Weekend(1e9)),
		"home_by_hour":  only(charging.Window(25, 7)),
		"currency":      two(charging.YearAtOnePrice(1000, 30, 16, unit.Currency{})),
		"charge240_h":   two(charging.LabelFull(100, 30, 0)),
		"mi_per_h":      only(charging.ImpliedConsumption(7, 0)),
		"min_a":         only(charging.Simultaneous(16, 0)),
		"dc_peak_kw":    only(charging.FastCharge(60, -1, nil)),
		"inlet":         only(all.Fits.AC("type 2", "J1772", 32, nil)),
		"dc_inlet":      only(all.Fits.DC("CCS1", "J1772", nil)),
		"quantile":      only(charging.Day{Sigma: 1}.Quantile(1)),
		"end_fraction":  only(charging.TaperFrom(0.9, 7, 0)),
	} {
		require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindInvalid}, field)
		named := false
		for _, f := range fault.All(err) {
			named = named || f.Field == field
			require.NotEmpty(t, f.Accepted, field)
		}
		require.True(t, named, "%s is not named in %v", field, err)
	}
	_, err := charging.TaperFrom(1, 7, 0.3)
	require.ErrorContains(t, err, "soc_start_taper")
	_, err = all.Vehicles.ByID("rocket")
	require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindNotFound})
	_, err = all.Climates.Station("atlantis")
	require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindNotFound})
	_, _, err = charging.Continuous(0, 240)
	require.ErrorContains(t, err, "breaker_amps")
	_, err = charging.BreakerFor(81)
	require.ErrorContains(t, err, "setting_amps")
	_, err = charging.Estimate(charging.Question{Soak: 7}, all.Season, nil)
	require.ErrorContains(t, err, "soak")
}

// In deep cold a Level 1 supply can vanish into keeping the battery warm: that
// is a result, not a fault.
func TestDeepColdStalls(t *testing.T) {
	c, err := charging.ChargeTime(charging.Session{
		Usable: 60, From: 0.2, To: 0.8, Wall: 0.96, Losses: charging.LossesAt(-30),
	}, nil)
	require.NoError(t, err)
	require.True(t, c.Stalls)
	require.Zero(t, c.Hours)
	require.Equal(t, 0.2, c.After(10))
}

func TestWindowWrapsMidnight(t *testing.T) {
	for _, c := range [][3]float64{{19, 6, 11}, {22, 22, 24}, {0, 24, 24}, {7, 18, 11}} {
		h, err := charging.Window(c[0], c[1])
		require.NoError(t, err)
		require.Equal(t, unit.Hours(c[2]), h)
	}
}
