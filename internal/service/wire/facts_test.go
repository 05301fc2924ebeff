package wire_test

import (
	"fmt"
	"math"
	"testing"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/facts"
	"daybreak/internal/fault"
	"daybreak/internal/service/wire"

	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"
	"pgregory.net/rapid"
)

// household draws any household a person could tell.
func household(t *rapid.T) facts.Facts {
	var f facts.Facts
	for _, l := range facts.Leaves() {
		switch rapid.IntRange(0, 4).Draw(t, l.Path) {
		case 0:
			l.At(&f).Unsure()
		case 1, 2:
			require.NoError(t, l.At(&f).Tell(told(t, l)), l.Path)
		case 3:
			if l.Kind == facts.Number && len(l.OneOf) == 0 && l.Step == 0 && len(f.Narrowings()) < facts.MostNarrowed {
				low := rapid.Float64Range(l.Low, l.High).Draw(t, "low") + 0
				require.NoError(t, f.Narrow(l.Path, facts.Range, low, l.High))
			}
		}
	}
	return f
}

func told(t *rapid.T, l *facts.Leaf) any {
	switch l.Kind {
	case facts.Number, facts.Whole, facts.Money:
		return l.Nearest(rapid.Float64Range(l.Low, l.High).Draw(t, "number"))
	case facts.Flag:
		return rapid.Bool().Draw(t, "flag")
	case facts.Choice:
		return rapid.SampledFrom(l.Words).Draw(t, "word")
	case facts.Set:
		return rapid.SliceOfDistinct(rapid.SampledFrom(l.Words), rapid.ID[string]).Draw(t, "words")
	case facts.Day:
		return fmt.Sprintf("%d-%02d-01", rapid.IntRange(2020, 2034).Draw(t, "year"), rapid.IntRange(1, 12).Draw(t, "month"))
	}
	switch l.Path {
	case "place.postal_code":
		return "00010"
	case "place.time_zone":
		return "America/Los_Angeles"
	}
	return rapid.StringMatching(`[A-Za-z0-9._-]{1,64}`).Draw(t, "id")
}

func TestFactsComeBackAsTheyWent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := household(t)
		raw, err := proto.Marshal(wire.FactsMessage(&want))
		require.NoError(t, err)
		var m daybreakv1.Facts
		require.NoError(t, proto.Unmarshal(raw, &m))
		got, err := wire.Facts("facts", &m)
		require.NoError(t, err)
		require.Equal(t, string(want.AppendCanonical(nil)), string(got.AppendCanonical(nil)))
		require.True(t, want == got)
	})
}

func TestDerivedLeavesAreNamedWithTheirSource(t *testing.T) {
	var f facts.Facts
	f.Place.ClimateStation = facts.Derive("24233", facts.FromPostalTable)
	m := wire.FactsMessage(&f)
	require.Equal(t, "24233", m.GetPlace().GetClimateStation())
	require.Len(t, m.GetDerived(), 1)
	require.Equal(t, "place.climate_station", m.GetDerived()[0].GetPath())
	require.Equal(t, "postal_table", m.GetDerived()[0].GetSource())
	_, err := wire.Facts("facts", m)
	require.ErrorContains(t, err, "facts.derived")
}

func TestRefusedFactsAreNamedByPath(t *testing.T) {
	minusZero := math.Copysign(0, -1)
	for _, c := range []struct {
		name  string
		facts *daybreakv1.Facts
		field string
		says  string
	}{
		{"negative feet", &daybreakv1.Facts{Route: &daybreakv1.Route{PanelToChargerFeet: proto.Float64(-5)}}, "facts.route.panel_to_charger_feet", "1 to 400 ft"},
		{"NaN", &daybreakv1.Facts{Driving: &daybreakv1.Driving{WeekdayMiles: proto.Float64(math.NaN())}}, "facts.driving.weekday_miles", "0 to 400 mi"},
		{"minus zero", &daybreakv1.Facts{Driving: &daybreakv1.Driving{WeekdayMiles: &minusZero}}, "facts.driving.weekday_miles", "0 to 400 mi"},
		{"10⁹ miles", &daybreakv1.Facts{Driving: &daybreakv1.Driving{AnnualMiles: proto.Float64(1e9)}}, "facts.driving.annual_miles", "0 to 150000 mi"},
		{"unspecified word", &daybreakv1.Facts{Place: &daybreakv1.Place{Parking: daybreakv1.Parking_PARKING_UNSPECIFIED.Enum()}}, "facts.place.parking", "attached"},
		{"number of no word", &daybreakv1.Facts{Place: &daybreakv1.Place{Parking: daybreakv1.Parking(99).Enum()}}, "facts.place.parking", "attached"},
		{"word twice", &daybreakv1.Facts{Route: &daybreakv1.Route{Ways: &daybreakv1.WaySet{Words: []daybreakv1.Way{1, 1}}}}, "facts.route.ways", "each once"},
		{"unknown path", &daybreakv1.Facts{Unsure: []string{"panel.service_amp"}}, "facts.unsure[0]", "panel.service_amps"},
		{"told and unsure", &daybreakv1.Facts{Unsure: []string{"panel.service_amps"}, Panel: &daybreakv1.Panel{ServiceAmps: proto.Float64(200)}}, "facts.unsure[0]", "told nowhere else"},
		{"narrowed upside down", &daybreakv1.Facts{Narrowed: []*daybreakv1.Narrowed{{Path: "driving.weekday_miles", Kind: daybreakv1.NarrowedKind_NARROWED_KIND_RANGE, Numbers: []float64{50, 40}}}}, "facts.narrowed[0]", "low value first"},
		{"half hour steps", &daybreakv1.Facts{Driving: &daybreakv1.Driving{HomeByHour: proto.Float64(18.3)}}, "facts.driving.home_by_hour", "steps of 0.5"},
		{"no such day", &daybreakv1.Facts{Place: &daybreakv1.Place{PermitDate: proto.String("2026-02-30")}}, "facts.place.permit_date", "a date such as"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := wire.Facts("facts", c.facts)
			found := fault.All(err)
			require.Len(t, found, 1, "%v", err)
			require.Equal(t, fault.KindInvalid, found[0].Kind)
			require.Equal(t, c.field, found[0].Field)
			require.Contains(t, found[0].Error(), c.says)
		})
	}
}

func TestRefusedFactsAreAllNamedInOneOrder(t *testing.T) {
	m := &daybreakv1.Facts{
		Panel:   &daybreakv1.Panel{ServiceAmps: proto.Float64(5), BusAmps: proto.Float64(5)},
		Driving: &daybreakv1.Driving{WeekdayMiles: proto.Float64(-1)},
	}
	for range 20 {
		_, err := wire.Facts("facts", m)
		var fields []string
		for _, f := range fault.All(err) {
			fields = append(fields, f.Field)
		}
		require.Equal(t, []string{"facts.driving.weekday_miles", "facts.panel.bus_amps", "facts.panel.service_amps"}, fields)
	}
}

func TestToldNothingIsNotTheEmptySet(t *testing.T) {
	none, err := wire.Facts("facts", &daybreakv1.Facts{Place: &daybreakv1.Place{DangerSigns: &daybreakv1.DangerSignSet{}}})
	require.NoError(t, err)
	require.True(t, none.Place.DangerSigns.Has())
	require.NotNil(t, wire.FactsMessage(&none).GetPlace().GetDangerSigns())
	unknown, err := wire.Facts("facts", &daybreakv1.Facts{})
	require.NoError(t, err)
	require.False(t, unknown.Place.DangerSigns.Has())
	require.Nil(t, wire.FactsMessage(&unknown).GetPlace())
}

func BenchmarkFacts(b *testing.B) {
	var f facts.Facts
	for _, l := range facts.Leaves() {
		switch l.Kind {
		case facts.Number, facts.Whole:
			require.NoError(b, l.At(&f).Tell(l.Nearest((l.Low+l.High)/2)))
		case facts.Choice:
			require.NoError(b, l.At(&f).Tell(l.Words[0]))
		}
	}
	m := wire.FactsMessage(&f)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := wire.Facts("facts", m); err != nil {
			b.Fatal(err)
		}
	}
}

// Any bytes that are Facts are either refused or read, written and read again
// to the same household.
func FuzzFacts(f *testing.F) {
	var told facts.Facts
	for _, l := range facts.Leaves() {
		if l.Kind == facts.Number {
			require.NoError(f, l.At(&told).Tell(l.Low+0))
		}
	}
	seed, err := proto.Marshal(wire.FactsMessage(&told))
	require.NoError(f, err)
	f.Add(seed)
	f.Add([]byte{})
	f.Fuzz(func(t *testing.T, raw []byte) {
		var m daybreakv1.Facts
		if proto.Unmarshal(raw, &m) != nil {
			return
		}
		first, err := wire.Facts("facts", &m)
		if err != nil {
			require.NotEmpty(t, fault.All(err))
			return
		}
		again, err := wire.Facts("facts", wire.FactsMessage(&first))
		require.NoError(t, err)
		require.True(t, first == again)
	})
}

// The household of a page's worth of answers is read with few allocations.
func TestReadingFactsIsCheap(t *testing.T) {
	var told facts.Facts
	for i, l := range facts.Leaves() {
		if i%4 == 0 && l.Kind == facts.Number {
			require.NoError(t, l.At(&told).Tell(l.Nearest((l.Low+l.High)/2)))
		}
	}
	m := wire.FactsMessage(&told)
	allocs := testing.AllocsPerRun(100, func() { _, _ = wire.Facts("facts", m) })
	require.LessOrEqual(t, allocs, 70.0)
}
