package charging_test

import (
	"math"
	"testing"
	"time"
	_ "time/tzdata"

	"daybreak/internal/charging"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

// Each car of the table is told its own times, and a car without an inlet for
// fast charging that it has none.
func TestFastChargingIsExplainedAsAwayFromHome(t *testing.T) {
	all := tables(t)
	words, err := working.LoadWords(working.Embedded(), "en")
	require.NoError(t, err)
	for _, v := range all.Vehicles.List() {
		var sheet working.Sheet
		a, err := charging.AwayFromHome(v, all.Fits, &sheet)
		require.NoError(t, err)
		require.Equal(t, v.DCInlet != "none", a.Can)
		for _, s := range sheet.Steps {
			require.NotContains(t, words.Sentence(s), "{")
		}
		direct := 0
		for _, f := range a.Fits {
			if f.Fit.Joint == charging.Direct {
				direct++
				require.Equal(t, v.DCInlet, f.Connector)
			}
		}
		if !a.Can {
			require.Zero(t, direct)
			require.Zero(t, a.Stations[2].Fast.Quick)
			continue
		}
		require.Equal(t, 1, direct)
		for i, s := range a.Stations {
			require.LessOrEqual(t, s.Power, v.DCPeak)
			require.Less(t, s.Fast.Quick, s.Fast.Slow)
			if i > 0 {
				require.LessOrEqual(t, s.Fast.Slow, a.Stations[i-1].Fast.Slow)
			}
		}
	}
	_, err = charging.AwayFromHome(charging.Vehicle{DCInlet: "other", Usable: 60}, all.Fits, nil)
	require.ErrorContains(t, err, "dc_inlet")
	_, err = charging.AwayFromHome(charging.Vehicle{DCInlet: "none"}, all.Fits, nil)
	require.ErrorContains(t, err, "usable_kwh")
}

// Cabin energy by temperature (from memory); 1.44 kW cannot carry it.
func TestPreconditioning(t *testing.T) {
	for _, c := range []struct {
		outdoor unit.Fahrenheit
		wall    unit.Kilowatts
		energy  float64
	}{{70, 7.2, 0}, {59, 7.2, 0}, {32, 7.2, 1.0}, {14, 7.2, 1.8}, {-4, 7.2, 2.6}, {-40, 1.44, 2.6}, {23, 1.44, 1.4}} {
		p, err := charging.Preconditioning(c.outdoor, c.wall, nil)
		require.NoError(t, err)
		require.InDelta(t, c.energy, float64(p.Energy), 1e-9)
		require.InDelta(t, float64(p.Energy), float64(p.Wall+p.Battery), 1e-9)
		if c.wall > 7 {
			require.Zero(t, p.Battery)
		} else {
			require.Greater(t, p.Battery, p.Wall)
		}
	}
	_, err := charging.Preconditioning(unit.Fahrenheit(math.NaN()), 7.2, nil)
	require.ErrorContains(t, err, "outdoor_f")
	_, err = charging.Preconditioning(20, -1, nil)
	require.ErrorContains(t, err, "wall_kw")
}

// ANSI/NEMA WD 6: a plug goes into its own receptacle, a 15 A plug also into
// the 20 A one; nothing else fits, whatever its size.
func TestPlugs(t *testing.T) {
	words, err := working.LoadWords(working.Embedded(), "en")
	require.NoError(t, err)
	names := []string{"1-15", "5-15", "5-20", "6-15", "6-20", "6-30", "6-50", "10-30", "10-50", "14-30", "14-50", "14-60", "TT-30", "L5-30", "L6-20", "L6-30", "L14-30"}
	for _, plug := range names {
		for _, receptacle := range names {
			var sheet working.Sheet
			fit, err := charging.PlugFits(plug, receptacle, &sheet)
			require.NoError(t, err)
			want := charging.NoFit
			if plug == receptacle && receptacle[:2] != "10" && receptacle != "1-15" || plug+receptacle == "5-155-20" || plug+receptacle == "6-156-20" {
				want = charging.Direct
			}
			require.Equal(t, want, fit.Joint, "%s into %s", plug, receptacle)
			require.NotContains(t, words.Sentence(sheet.Steps[0]), "{")
			require.True(t, words.Has(fit.Condition))
		}
	}
	_, err = charging.PlugFits("14-50P", "14-50", nil)
	require.ErrorContains(t, err, "plug")
	_, err = charging.PlugFits("14-50", "socket", nil)
	require.ErrorContains(t, err, "receptacle")
}

// The night on which clocks go back or forward (America/Los_Angeles, 2026).
func TestNightsAcrossTheClockChange(t *testing.T) {
	zone, err := time.LoadLocation("America/Los_Angeles")
	require.NoError(t, err)
	at := func(month time.Month, day, hour, minute int) time.Time {
		return time.Date(2026, month, day, hour, minute, 0, 0, zone)
	}
	for _, c := range []struct {
		from, to time.Time
		hours    float64
	}{
		{at(time.October, 31, 19, 0), at(time.November, 1, 7, 0), 13},
		{at(time.March, 7, 19, 0), at(time.March, 8, 7, 0), 11},
		{at(time.June, 1, 19, 0), at(time.June, 2, 7, 0), 12},
		{at(time.November, 1, 1, 30), at(time.November, 1, 1, 30).Add(40 * time.Minute), 40.0 / 60}, // 1:10 on the clock
	} {
		h, err := charging.Between(c.from, c.to)
		require.NoError(t, err)
		require.InDelta(t, c.hours, float64(h), 1e-9)
		_, err = charging.Between(c.to, c.from)
		require.ErrorContains(t, err, "departure")
	}
	// By the clock later, in truth before: 1:30 the second time, 1:40 the first.
	first := at(time.November, 1, 1, 40)
	_, err = charging.Between(at(time.November, 1, 1, 30).Add(time.Hour), first)
	require.ErrorContains(t, err, "a moment after the arrival")
	_, err = charging.Between(first, first.AddDate(0, 0, 8))
	require.ErrorContains(t, err, "departure")
}

func TestTheAverageOfWarmedMornings(t *testing.T) {
	p, err := charging.Preconditioning(32, 7, nil)
	require.NoError(t, err)
	for share, want := range map[float64]float64{0: 0, 0.25: 0.25, 1: 1} { // of 1 kWh at 32 °F (from memory)
		got, err := p.Average(share, nil)
		require.NoError(t, err)
		require.InDelta(t, want, float64(got), 1e-9)
	}
	for _, share := range []float64{-0.1, 1.1, math.NaN(), math.Inf(1)} {
		_, err := p.Average(share, nil)
		require.ErrorContains(t, err, "precondition_share")
	}
}
