package facts_test

import (
	"testing"

	"daybreak/internal/facts"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Each row: what is told, and what must follow from it and on what basis.
// Source: the "derived from" column of the fact list.
func TestDeriveWithin(t *testing.T) {
	asOf, _ := facts.ParseDate("2026-11-25")
	for _, c := range []struct {
		told  map[string]any
		path  string
		want  any
		basis facts.Basis
	}{
		{map[string]any{"place.tenure": "own"}, "place.permission", "written", facts.FromAnotherAnswer},
		{map[string]any{"place.tenure": "rent"}, "place.permission", nil, 0},
		{map[string]any{"place.parking": "attached"}, "place.mounting", "inside", facts.FromAnotherAnswer},
		{map[string]any{"place.parking": "driveway"}, "place.mounting", nil, 0},
		{map[string]any{"place.parking": "driveway"}, "place.detached_feed", "none", facts.FromAnotherAnswer},
		{map[string]any{"place.parking": "carport"}, "place.detached_feed", nil, 0},
		{map[string]any{"panel.service_amps": 150}, "panel.main_breaker_amps", 150.0, facts.FromAnotherAnswer},
		{map[string]any{"panel.service_amps": 150}, "panel.bus_amps", nil, 0},
		{map[string]any{"panel.service_amps": 150, "panel.backfeed_kind": "none"}, "panel.bus_amps", 150.0, facts.FromAnotherAnswer},
		{map[string]any{"place.dwelling_kind": "row"}, "panel.supply_volts", 240.0, facts.FromUsualPractice},
		{map[string]any{"place.dwelling_kind": "flat"}, "panel.supply_volts", nil, 0},
		{map[string]any{"place.dwelling_kind": "house"}, "panel.meter_owner", "own", facts.FromUsualPractice},
		{map[string]any{"place.dwelling_kind": "flat", "place.tenure": "own"}, "panel.approver", "association", facts.FromAnotherAnswer},
		{map[string]any{"panel.heat_kind": "furnace", "panel.heat_breaker_amps": 60, "place.dwelling_kind": "house"}, "panel.heat_watts", 11520.0, facts.FromAnotherAnswer},
		{map[string]any{"panel.heat_kind": "baseboard"}, "panel.heat_units", 7, facts.FromClassPrior},
		{map[string]any{"outlet.configuration": "TT-30"}, "outlet.volts", 120.0, facts.FromAnotherAnswer},
		{map[string]any{"outlet.configuration": "14-50", "panel.supply_volts": 208}, "outlet.volts", 208.0, facts.FromAnotherAnswer},
		{map[string]any{"outlet.configuration": "14-50"}, "outlet.volts", nil, 0},
		{map[string]any{"outlet.present": "normal", "place.parking": "attached"}, "outlet.location", "garage", facts.FromAnotherAnswer},
		{map[string]any{"outlet.present": "normal", "place.mounting": "post"}, "outlet.location", "outdoor", facts.FromAnotherAnswer},
		{map[string]any{"outlet.present": "normal", "place.year_built": 1996}, "outlet.age_years", 30.0, facts.FromAnotherAnswer},
		{map[string]any{"driving.annual_miles": 7300}, "driving.weekday_miles", 20.0, facts.FromAnotherAnswer},
		{map[string]any{"vehicle.archetype": "phev-suv"}, "vehicle.petrol_backup", true, facts.FromAnotherAnswer},
		{map[string]any{"vehicle.onboard_charger_kw": 7.2}, "vehicle.max_ac_amps", 30.0, facts.FromAnotherAnswer},
		{map[string]any{"second_vehicle.archetype": "van"}, "wishes.second_vehicle", "now", facts.FromAnotherAnswer},
		{map[string]any{"equipment.owned": true}, "equipment.setting_means", "none", facts.FromSaferReading},
		{map[string]any{"panel.loads.spa.fuel": "electric"}, "panel.loads.spa.count", 1, facts.FromUsualPractice},
		{map[string]any{"panel.free_full_spaces": 1}, "panel.crowding", "crowded", facts.FromAnotherAnswer},
		{map[string]any{"panel.protection": "fuses"}, "panel.crowding", "obsolete_type", facts.FromAnotherAnswer},
		{map[string]any{"route.ways": []string{"attic"}}, "route.panel_drop_feet", 8.0, facts.FromUsualPractice},
		{map[string]any{"route.ways": []string{"open"}}, "route.wall_finish", "open", facts.FromAnotherAnswer},
		{map[string]any{"route.ways": []string{"open", "surface"}, "route.panel_to_charger_feet": 40}, "route.surface_feet", 20.0, facts.FromAnotherAnswer},
		{map[string]any{"route.ways": []string{"trench"}, "route.panel_to_charger_feet": 90, "route.trench_feet": 60}, "route.surface_feet", 30.0, facts.FromAnotherAnswer},
		{map[string]any{}, "panel.terminals_c", 60.0, facts.FromCodeRule},
	} {
		var f facts.Facts
		for path, v := range c.told {
			tell(t, &f, path, v)
		}
		facts.DeriveWithin(&f, asOf)
		l, _ := facts.LeafAt(c.path)
		require.Equal(t, c.want, l.At(&f).Value(), "%s from %v", c.path, c.told)
		require.Equal(t, c.basis, l.At(&f).Basis(), c.path)
	}
}

func tell(t require.TestingT, f *facts.Facts, path string, v any) {
	l, ok := facts.LeafAt(path)
	require.True(t, ok, path)
	require.NoError(t, l.At(f).Tell(v))
}

func TestCompleteLooksUpAndLeavesTheToldAlone(t *testing.T) {
	tables := facts.Tables{
		Archetype: func(a facts.Archetype) (facts.VehicleRow, bool) {
			return facts.VehicleRow{Archetype: a, UsableKWh: 75, OnboardChargerKW: 11.5, MaxACAmps: 48, DCInlet: facts.DCInletNone}, true
		},
		Postal: func(code string) (facts.PostalRow, bool) {
			return facts.PostalRow{Jurisdiction: "alder-bay-city", ClimateZone: facts.ClimateZoneMarine}, code == "00010"
		},
		Edition:   func(string, facts.Date) (facts.CodeEdition, bool) { return facts.CodeEdition2023, true },
		LoadWatts: func(kind string) (unit.Watts, bool) { return 9600, kind == "spa" },
	}
	var f facts.Facts
	tell(t, &f, "vehicle.archetype", "mid-sedan-long")
	tell(t, &f, "vehicle.usable_kwh", 60)
	tell(t, &f, "place.postal_code", "00010")
	tell(t, &f, "panel.loads.spa.fuel", "electric")
	require.NoError(t, f.Narrow("vehicle.max_ac_amps", facts.OneOf, 32, 48))
	facts.Complete(&f, facts.Date{}, tables)
	require.Equal(t, facts.Tell(unit.KilowattHours(60)), f.Vehicle.UsableKWh)
	require.Equal(t, facts.Derive(unit.Kilowatts(11.5), facts.FromArchetypeTable), f.Vehicle.OnboardChargerKW)
	require.Equal(t, facts.Narrowed, f.Vehicle.MaxACAmps.State())
	require.Equal(t, facts.Derive(unit.Kilowatts(0), facts.FromArchetypeTable), f.Vehicle.DCPeakKW)
	require.Equal(t, facts.Derive("alder-bay-city", facts.FromPostalTable), f.Place.Jurisdiction)
	require.Equal(t, facts.Derive(facts.CodeEdition2023, facts.FromPostalTable), f.Place.CodeEdition)
	require.Equal(t, facts.Derive(unit.Watts(9600), facts.FromApplianceTable), f.Panel.Loads.Spa.Watts)
}

// Whatever is told, deriving changes no told leaf, stays within every leaf's
// limits and does nothing the second time.
func TestDerivingIsLawfulAndSettles(t *testing.T) {
	asOf, _ := facts.ParseDate("2026-11-25")
	rapid.Check(t, func(t *rapid.T) {
		var f facts.Facts
		told := map[string]any{}
		for range rapid.IntRange(1, 30).Draw(t, "leaves") {
			l := rapid.SampledFrom(facts.Leaves()).Draw(t, "leaf")
			told[l.Path] = anyValue(t, l)
			require.NoError(t, l.At(&f).Tell(told[l.Path]))
		}
		facts.DeriveWithin(&f, asOf)
		var again facts.Facts
		for _, l := range facts.Leaves() {
			slot := l.At(&f)
			if v, ok := told[l.Path]; ok {
				require.Equal(t, v, slot.Value())
			}
			if slot.Has() {
				require.NoError(t, l.At(&again).Tell(slot.Value()), l.Path)
			}
		}
		settled := f
		facts.DeriveWithin(&settled, asOf)
		require.True(t, settled == f)
	})
}
