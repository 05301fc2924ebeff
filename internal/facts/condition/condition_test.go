package condition_test

import (
	"fmt"
	"strings"
	"testing"

	"daybreak/internal/facts"
	"daybreak/internal/facts/condition"
	"daybreak/internal/fault"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

func Example() {
	c, err := condition.Compile("place.tenure in ['rent', 'assoc'] && panel.service_amps <= 150")
	if err != nil {
		fmt.Println(err)
		return
	}
	var f facts.Facts
	f.Place.Tenure = facts.Tell(facts.TenureRent)
	r := c.Eval(&f)
	fmt.Println(r.Value, r.Missing)
	f.Place.Tenure = facts.Tell(facts.TenureOwn)
	fmt.Println(c.Eval(&f).Value)
	// Output:
	// unknown [panel.service_amps]
	// false
}

func compile(t testing.TB, src string) *condition.Condition {
	c, err := condition.Compile(src)
	require.NoError(t, err, src)
	return c
}

func TestThreeValues(t *testing.T) {
	var f facts.Facts
	permitDay, _ := facts.ParseDate("2026-03-01")
	f.Panel.ServiceAmps = facts.Tell(unit.Amps(100))
	f.Place.Parking = facts.Tell(facts.ParkingDetached)
	f.Place.Tenure = facts.DontKnow[facts.Tenure]()
	f.Route.Ways = facts.Tell(facts.WayOpen)
	f.Vehicle.ModelYear = facts.Derive(2026, facts.FromVehicleTable)
	f.Vehicle.PetrolBackup = facts.Tell(false)
	f.Place.PermitDate = facts.Tell(permitDay)
	require.NoError(t, f.Narrow("outlet.breaker_amps", facts.OneOf, 30.0, 40.0))
	for _, c := range []struct {
		src     string
		want    condition.Truth
		missing string
	}{
		{"panel.service_amps <= 150", condition.True, ""},
		{"panel.service_amps == 100", condition.True, ""},
		{"panel.service_amps != 100.0", condition.False, ""},
		{"panel.service_amps > 100 || place.tenure == 'own'", condition.Unknown, "place.tenure"},
		{"panel.service_amps <= 100 || place.tenure == 'own'", condition.True, ""},
		{"panel.service_amps > 100 && place.tenure == 'own'", condition.False, ""},
		{"place.tenure == 'own' && panel.bus_amps > 100", condition.Unknown, "place.tenure panel.bus_amps"},
		{"!(place.tenure == 'own')", condition.Unknown, "place.tenure"},
		{"outlet.breaker_amps == 30", condition.Unknown, "outlet.breaker_amps"},
		{"unsure(outlet.breaker_amps)", condition.True, ""},
		{"known(place.tenure)", condition.False, ""},
		{"unsure(place.tenure)", condition.True, ""},
		{"unsure(panel.bus_amps)", condition.False, ""},
		{"told(vehicle.model_year)", condition.False, ""},
		{"known(vehicle.model_year) && vehicle.model_year >= 2026", condition.True, ""},
		{"place.parking in ['detached','carport']", condition.True, ""},
		{"'open' in route.ways && size(route.ways) == 1", condition.True, ""},
		{"'trench' in route.ways", condition.False, ""},
		{"vehicle.petrol_backup", condition.False, ""},
		{"place.permit_date >= '2026-01-01'", condition.True, ""},
		{"driving.leave_by_hour - driving.home_by_hour < 3", condition.Unknown, "driving.home_by_hour driving.leave_by_hour"},
		{"place.january_mean_f < -4", condition.Unknown, "place.january_mean_f"},
		{"true", condition.True, ""},
	} {
		r := compile(t, c.src).Eval(&f)
		require.Equal(t, c.want, r.Value, c.src)
		require.Equal(t, c.missing, strings.Join(r.Missing, " "), c.src)
	}
}

func TestRefusesWhatIsNoCondition(t *testing.T) {
	for src, says := range map[string]string{
		"panel.servce_amps <= 150":         "panel.service_amps",
		"service_amps <= 150":              "panel.service_amps",
		"known(panel.servce_amps)":         "panel.service_amps",
		"known(1)":                         "takes one fact path",
		"place.parking == 'atached'":       "attached, detached",
		"'opn' in route.ways":              "open, fish",
		"place.parking == 3":               "overload",
		"panel.service_amps":               "true or false",
		"panel.service_amps <":             "expression",
		"":                                 "expression",
		"[1,2].exists(x, x > 1)":           "fact",
		"'a'.matches('(a+)+')":             "parts that fit",
		strings.Repeat("true || (", 40):    "",
		strings.Repeat("(", 90) + "true":   "",
		"true" + strings.Repeat(" ", 2000): "2000 bytes",
		"{'a': 1}.a == 1":                  "fact",
		"has(panel.service_amps)":          "",
		"panel.service_amps / 0 > 1":       "",
		"timestamp('2026-01-01') == panel": "",
	} {
		_, err := condition.Compile(src)
		require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindInvalid}, src)
		require.ErrorContains(t, err, says, src)
	}
}

func TestReadsEveryPathOnce(t *testing.T) {
	c := compile(t, "known(panel.bus_amps) && (panel.bus_amps > 100 || place.tenure == 'own')")
	require.Equal(t, []string{"place.tenure", "panel.bus_amps"}, c.Reads())
}

func BenchmarkThreeLeaves(b *testing.B) {
	c := compile(b, "known(panel.backfeed_kind) && panel.backfeed_kind != 'none' && panel.service_amps <= 150")
	var f facts.Facts
	f.Panel.BackfeedKind = facts.Tell(facts.BackfeedKindSolar)
	f.Panel.ServiceAmps = facts.Tell(unit.Amps(100))
	b.ReportAllocs()
	for b.Loop() {
		_ = c.Truth(&f)
	}
}
