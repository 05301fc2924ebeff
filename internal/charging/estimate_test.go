package charging_test

import (
	"testing"

	"daybreak/internal/charging"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

func question(t testing.TB, all *charging.Tables) charging.Question {
	v := vehicle(t, all, "mid-sedan-long")
	station, err := all.Climates.Station("14742")
	require.NoError(t, err)
	day, err := charging.Weekday(34)
	require.NoError(t, err)
	limits := v.Limits(on(240, 40, 32))
	limits.Receptacle, limits.Cable, limits.Managed = charging.At[unit.Amps](50), charging.At[unit.Amps](40), charging.At[unit.Amps](36)
	return charging.Question{
		Limits: limits, Usable: v.Usable, Consumption: v.Consumption, From: 0.2, To: 1, Outdoor: 10,
		Day: day, Mean: station.Mean, Window: 11,
	}
}

// Every step of a whole estimate prints with all its terms filled in.
func TestEstimateShowsItsWorking(t *testing.T) {
	all := tables(t)
	words, err := working.LoadWords(working.Embedded(), "en")
	require.NoError(t, err)
	var sheet working.Sheet
	a, err := charging.Estimate(question(t, all), all.Season, &sheet)
	require.NoError(t, err)
	require.InDelta(t, 7.68, float64(a.Rate.Wall), 1e-9)
	require.InDelta(t, 28.44, float64(a.MilesPerHour), 0.01)
	require.True(t, a.Heavy.Fits)
	require.True(t, a.Usual.Fits)
	require.Greater(t, float64(a.Session.Hours), float64(a.Session.Flat))
	require.Less(t, float64(a.Heavy.Hours), 4.0)
	require.InDelta(t, 215, float64(a.MostMiles), 1)
	_, err = all.Fits.AC("J3400", "J1772", 32, &sheet)
	require.NoError(t, err)
	_, err = charging.FastCharge(79, 250, &sheet)
	require.NoError(t, err)
	_, err = charging.Share(11.52, []charging.Sharer{{Need: 26, Most: 11.5}, {Need: 15, Most: 7.2}}, &sheet)
	require.NoError(t, err)
	for _, s := range sheet.Steps {
		require.NotNil(t, s.Source, s.Rule)
		require.True(t, s.Source.Status.Known(), s.Rule)
		require.NotContains(t, words.Formula(s), "{", s.Rule)
		require.NotContains(t, words.Sentence(s), "{", s.Rule)
	}
}

func TestSheetDoesNotChangeTheAnswer(t *testing.T) {
	all := tables(t)
	with, err := charging.Estimate(question(t, all), all.Season, &working.Sheet{})
	require.NoError(t, err)
	without, err := charging.Estimate(question(t, all), all.Season, nil)
	require.NoError(t, err)
	require.Equal(t, with, without)
}

func TestEstimateAllocatesNothing(t *testing.T) {
	all := tables(t)
	q := question(t, all)
	require.Zero(t, testing.AllocsPerRun(100, func() {
		if _, err := charging.Estimate(q, all.Season, nil); err != nil {
			t.Fatal(err)
		}
	}))
}

func BenchmarkEstimate(b *testing.B) {
	all := tables(b)
	q := question(b, all)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := charging.Estimate(q, all.Season, nil); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPower(b *testing.B) {
	l := on(240, 40, 32)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := charging.Power(l, nil); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSearch(b *testing.B) {
	all := tables(b)
	b.ReportAllocs()
	for b.Loop() {
		all.Vehicles.Search("efficeint midsize", 5)
	}
}
