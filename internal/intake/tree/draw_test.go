package tree_test

import (
	"testing"

	"daybreak/internal/facts"
	"daybreak/internal/intake/tree"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

var world = tree.World{
	HomePostal: "00010",
	Tables: facts.Tables{
		Archetype: func(facts.Archetype) (facts.VehicleRow, bool) {
			return facts.VehicleRow{UsableKWh: 60, OnboardChargerKW: 7.2, MaxACAmps: 30, WallKWhPer100Mi: 30, DCInlet: facts.DCInletNone}, true
		},
		Postal: func(string) (facts.PostalRow, bool) {
			return facts.PostalRow{ClimateStation: "24233", ClimateZone: facts.ClimateZoneMarine}, true
		},
		Station: func(string) (facts.StationRow, bool) {
			return facts.StationRow{JanuaryMeanF: 41, ColdestNightF: 20}, true
		},
	},
}

func uniforms(t *rapid.T, n int) []float64 {
	return rapid.SliceOfN(rapid.Float64Range(0, 0.999999), n, n).Draw(t, "u")
}

// Whatever the numbers, a draw fills every leaf an applying question sets
// first, touches nothing told, keeps to every leaf's limits, and is the same
// again for the same numbers.
func TestADrawIsWholeLawfulAndRepeatable(t *testing.T) {
	tr := load(t)
	rapid.Check(t, func(t *rapid.T) {
		var told facts.Facts
		for range rapid.IntRange(0, 12).Draw(t, "told") {
			l := rapid.SampledFrom(facts.Leaves()).Draw(t, "leaf")
			if l.Kind != facts.Text && l.Kind != facts.Day && l.Kind != facts.Set {
				l.At(&told).DeriveNumber(rapid.Float64Range(l.Low, l.High).Draw(t, "value"), 0)
				require.NoError(t, l.At(&told).Tell(l.At(&told).Value()))
			}
		}
		facts.Complete(&told, facts.Date{}, world.Tables)
		u := uniforms(t, tr.Dimensions())
		f, again := told, told
		tr.Draw(u, &f, &world)
		tr.Draw(u, &again, &world)
		require.True(t, f == again)
		var copied facts.Facts
		for _, l := range facts.Leaves() {
			slot := l.At(&f)
			if before := l.At(&told); before.Has() {
				require.Equal(t, before.Value(), slot.Value(), l.Path)
				require.Equal(t, before.State(), slot.State(), l.Path)
			}
			if slot.Has() {
				require.NoError(t, l.At(&copied).Tell(slot.Value()), l.Path)
			}
		}
		for _, path := range []string{"vehicle.archetype", "vehicle.usable_kwh", "place.parking", "panel.service_amps", "panel.main_breaker_amps",
			"panel.heat_kind", "panel.loads.dryer.fuel", "route.panel_to_charger_feet", "route.ways", "place.floor_area_sqft", "place.mounting", "place.permission"} {
			l, _ := facts.LeafAt(path)
			require.True(t, l.At(&f).Has(), path)
		}
	})
}

func TestDrawsKeepToWhatIsNarrowed(t *testing.T) {
	tr := load(t)
	rapid.Check(t, func(t *rapid.T) {
		var f facts.Facts
		require.NoError(t, f.Narrow("panel.service_amps", facts.OneOf, 400, 200))
		require.NoError(t, f.Narrow("outlet.configuration", facts.OneOf, "L6-20", "L6-30"))
		require.NoError(t, f.Narrow("driving.weekday_miles", facts.About, 34, 46))
		require.NoError(t, f.Narrow("place.coldest_night_f", facts.Range, -10, 0))
		require.NoError(t, f.Narrow("route.panel_to_charger_feet", facts.Maybe, 60))
		u := uniforms(t, tr.Dimensions())
		tr.Draw(u, &f, &world)
		amps, _ := f.Panel.ServiceAmps.Get()
		require.Contains(t, []unit.Amps{200, 400}, amps)
		if face, ok := f.Outlet.Configuration.Get(); ok {
			require.Contains(t, []facts.Configuration{facts.ConfigurationL6x20, facts.ConfigurationL6x30}, face)
		}
		miles, _ := f.Driving.WeekdayMiles.Get()
		require.True(t, 34 <= miles && miles <= 46, miles)
		cold, _ := f.Place.ColdestNightF.Get()
		require.True(t, -10 <= cold && cold <= 0, cold)
		require.Empty(t, f.Narrowings())
	})
}

// The shares a tree states are the shares its draws have.
func TestDrawsHaveTheStatedShares(t *testing.T) {
	tr := load(t)
	const n = 2000
	count := map[unit.Amps]int{}
	maybe := 0
	for i := range n {
		u := make([]float64, tr.Dimensions())
		for d := range u {
			u[d] = (float64(i) + 0.5) / n
		}
		var f facts.Facts
		tell(t, &f, map[string]any{"place.dwelling_kind": "house", "place.year_built": 1970, "panel.heat_kind": "fuel",
			"place.floor_area_sqft": 2000, "panel.backfeed_kind": "none", "panel.loads.spa.fuel": "none", "panel.loads.pool_pump.fuel": "none"})
		require.NoError(t, f.Narrow("route.panel_to_charger_feet", facts.Maybe, 60))
		tr.Draw(u, &f, &world)
		amps, _ := f.Panel.ServiceAmps.Get()
		count[amps]++
		if f.Route.PanelToChargerFeet.Is(60) {
			maybe++
		}
	}
	// Service size of detached homes built 1960 to 1979: engineering judgement, as the tree states it.
	for amps, share := range map[unit.Amps]float64{60: 0.01, 100: 0.28, 125: 0.09, 150: 0.16, 200: 0.43, 400: 0.03} {
		require.InDelta(t, share, float64(count[amps])/n, 0.001, "%v A", amps)
	}
	require.InDelta(t, 0.6, float64(maybe)/n, 0.01)
}

// Electric heat doubles the odds of 200 A and above: from 0.46 to 0.63.
func TestATiltMultipliesOdds(t *testing.T) {
	tr := load(t)
	const n = 2000
	large := 0
	for i := range n {
		u := make([]float64, tr.Dimensions())
		for d := range u {
			u[d] = (float64(i) + 0.5) / n
		}
		var f facts.Facts
		tell(t, &f, map[string]any{"place.dwelling_kind": "house", "place.year_built": 1970, "panel.heat_kind": "furnace",
			"place.floor_area_sqft": 2000, "panel.backfeed_kind": "none", "panel.loads.spa.fuel": "none", "panel.loads.pool_pump.fuel": "none"})
		tr.Draw(u, &f, &world)
		if amps, _ := f.Panel.ServiceAmps.Get(); amps >= 200 {
			large++
		}
	}
	require.InDelta(t, 2*0.46/(0.54+2*0.46), float64(large)/n, 0.001)
}

func TestCentralNamesEveryAssumption(t *testing.T) {
	tr := load(t)
	var f facts.Facts
	tell(t, &f, map[string]any{"panel.service_amps": 100, "place.parking": "attached"})
	f.Place.YearBuilt = facts.DontKnow[int]()
	require.NoError(t, f.Narrow("driving.weekday_miles", facts.Range, 8, 10))
	assumed := tr.Central(&f, &world)
	by := map[string]tree.Assumption{}
	for _, a := range assumed {
		require.Equal(t, a.Value, a.Leaf.At(&f).Value())
		require.Equal(t, facts.Derived, a.Leaf.At(&f).State(), a.Leaf.Path)
		require.NotEmpty(t, a.Basis)
		require.True(t, a.Status.Known())
		by[a.Leaf.Path] = a
	}
	require.NotContains(t, by, "panel.service_amps")
	require.NotContains(t, by, "place.parking")
	require.Equal(t, 1980, by["place.year_built"].Value)
	require.Equal(t, "place.built", by["place.year_built"].Question)
	require.Equal(t, 9.0, by["driving.weekday_miles"].Value)
	require.Equal(t, 1, by["panel.free_full_spaces"].Value, "the median for a panel of 100 A")
	require.True(t, by["place.danger_signs"].Verify, "a hazard is never assumed away")
	require.Empty(t, by["panel.loads.dishwasher.fuel"].Question)
	require.Empty(t, tr.Central(&f, &world), "nothing is left to assume")
}
