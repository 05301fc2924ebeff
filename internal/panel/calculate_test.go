package panel_test

import (
	"fmt"
	"math"
	"testing"

	"daybreak/internal/panel"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

func Example() {
	book, err := panel.OpenBook(panel.Embedded())
	if err != nil {
		fmt.Println(err)
		return
	}
	rules, _ := book.Rules(2023)
	res, err := panel.Calculate(panel.Input{
		Rules: rules, Volts: 240, FloorArea: 2200, SmallCirc: 2, LaundryCir: 1, Cooling: 5760,
		Loads:    []panel.Load{{Kind: panel.Dishwasher, VA: 1200, Count: 1}, {Kind: panel.FurnaceFan, VA: 800, Count: 1}},
		Supply:   panel.Rated(200),
		Chargers: []panel.Charger{{Setting: 32, Volts: 240}},
	}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%v by %v: %.1f of %v A\n", res.Verdict, res.Deciding, res.Total, res.Capacity.Amps)
	// Output: fits by existing_83: 105.8 of 200 A
}

func sound(t testing.TB) panel.Input { return find(t, "V01").input(t, 32) }

func TestOddInputsAreRefusedByName(t *testing.T) {
	for _, c := range []struct {
		field  string
		change func(*panel.Input)
	}{
		{"floor_area", func(in *panel.Input) { in.FloorArea = 0 }},
		{"floor_area", func(in *panel.Input) { in.FloorArea = unit.SquareFeet(math.NaN()) }},
		{"spaces.free", func(in *panel.Input) { in.Spaces.Free = -2 }},
		{"loads[0].va", func(in *panel.Input) { in.Loads = []panel.Load{{VA: -1200, Count: 1}} }},
		{"loads[1].count", func(in *panel.Input) {
			in.Loads = []panel.Load{one(panel.Range, 8000), {Kind: panel.Oven, VA: 4000, Count: 1_000_000_000}}
		}},
		{"loads[0].kind", func(in *panel.Input) { in.Loads = []panel.Load{{Kind: 99, VA: 1, Count: 1}} }},
		{"loads", func(in *panel.Input) { in.Loads = make([]panel.Load, 65) }},
		{"supply.main", func(in *panel.Input) { in.Supply.Main = unit.Amps(math.Inf(1)) }},
		{"supply.meter", func(in *panel.Input) { in.Supply.Meter = 0 }},
		{"volts", func(in *panel.Input) { in.Volts = 230 }},
		{"cooling", func(in *panel.Input) { in.Cooling = 1e12 }},
		{"heat.va", func(in *panel.Input) { in.Heat.VA = unit.VoltAmps(math.Inf(-1)) }},
		{"chargers[0].setting", func(in *panel.Input) { in.Chargers = []panel.Charger{{Setting: 200, Volts: 240}} }},
		{"chargers[0].volts", func(in *panel.Input) { in.Chargers = []panel.Charger{{Setting: 32, Volts: 400}} }},
		{"chargers", func(in *panel.Input) { in.Chargers = make([]panel.Charger, 5) }},
		{"measured.peak", func(in *panel.Input) {
			in.Measured = panel.Measured{Record: panel.OneYear, Peak: unit.Kilowatts(math.NaN()), IntervalMin: 15}
		}},
		{"measured.interval", func(in *panel.Input) { in.Measured = panel.Measured{Record: panel.OneYear, Peak: 8, IntervalMin: 7} }},
		{"heat.kind", func(in *panel.Input) { in.Heat.Kind = 77 }},
		{"rules", func(in *panel.Input) { in.Rules = nil }},
	} {
		in := sound(t)
		c.change(&in)
		_, err := panel.Calculate(in, nil)
		require.ErrorContains(t, err, c.field+":")
	}
	in := sound(t)
	in.Rules = rules(t, 2020)
	in.Chargers = []panel.Charger{{Plate: panel.PlateUnknown, Volts: 240}}
	_, err := panel.Calculate(in, nil)
	require.ErrorContains(t, err, "this edition gives no load for an unknown one")
}

func TestOddSuppliesAreNamedAndCalculated(t *testing.T) {
	in := sound(t)
	in.Supply = panel.Ratings{Service: 150, Main: 200, Bus: 125, Conductors: 150, Meter: 100}
	in.Heat = panel.Heat{Kind: panel.Resistance, VA: 50000, Units: 1}
	in.Measured = panel.Measured{Record: panel.OneYear, Peak: 2, IntervalMin: 15}
	res, err := panel.Calculate(in, nil)
	require.NoError(t, err)
	require.Equal(t, []string{"main_above_service", "above_meter", "bus_below_main", "heat_above_main", "peak_below_load"}, res.Odd.Words())
	require.Equal(t, panel.Capacity{Amps: 100, SetBy: panel.ByMeter}, res.Capacity)
}

// 220.87 beside a source: the edition's bar, net data, and no deciding alone.
func TestMeasuredDemandBesideASource(t *testing.T) {
	for _, c := range []struct {
		edition    int
		record     panel.Record
		generation panel.Generation
		want       panel.Refusal
	}{
		{2020, panel.OneYear, panel.GrossOfGeneration, panel.RefusedGeneration},
		{2023, panel.OneYear, panel.GrossOfGeneration, panel.Permitted},
		{2023, panel.OneYear, panel.NetOfGeneration, panel.RefusedNetData},
		{2023, panel.OneYear, panel.GenerationUnknown, panel.RefusedNetData},
		{2023, panel.ThirtyDays, panel.GrossOfGeneration, panel.RefusedGeneration},
		{2026, panel.OneYear, panel.GrossOfGeneration, panel.RefusedGeneration},
	} {
		in := sound(t)
		in.Rules = rules(t, c.edition)
		in.Source = panel.Backfeed{Kind: panel.Solar, Output: 24, Place: panel.FarEnd}
		in.Measured = panel.Measured{Record: c.record, Peak: 5, IntervalMin: 15, Generation: c.generation}
		res, err := panel.Calculate(in, nil)
		require.NoError(t, err)
		require.Equal(t, c.want, res.Methods[panel.MeasuredDemand].Refusal)
		require.False(t, res.Methods[panel.MeasuredDemand].Decides)
	}
	in := sound(t)
	in.Measured = panel.Measured{Record: panel.OneYear, Peak: 5, IntervalMin: 15, Added: panel.LoadAdded}
	res, err := panel.Calculate(in, nil)
	require.NoError(t, err)
	require.Equal(t, panel.RefusedLoadAdded, res.Methods[panel.MeasuredDemand].Refusal)
}

// A panel accepted by the sum of its breakers is recounted with the charger's.
func TestSumOfBreakersIsRecounted(t *testing.T) {
	in := sound(t)
	in.Source = panel.Backfeed{Kind: panel.Solar, Output: 32, Accepted: panel.BySumOfBreakers, LoadBreakers: 170}
	res, err := panel.Calculate(in, nil)
	require.NoError(t, err)
	require.Equal(t, panel.BusCheck{Verdict: panel.BusBroken, Rule: panel.BySumOfBreakers, Sum: 210, Limit: 200}, res.Bus)
	in.Source.LoadBreakers = 160
	res, err = panel.Calculate(in, nil)
	require.NoError(t, err)
	require.Equal(t, panel.BusRecounted, res.Bus.Verdict)
	in.Source = panel.Backfeed{Kind: panel.Solar, Output: 32}
	res, err = panel.Calculate(in, nil)
	require.NoError(t, err)
	require.Equal(t, panel.BusToBeSeen, res.Bus.Verdict, "nobody knows where the source sits")
}

func TestFeedersGoByTheGeneralMethodAlone(t *testing.T) {
	in := sound(t)
	in.Carries = panel.PartOfDwelling
	res, err := panel.Calculate(in, nil)
	require.NoError(t, err)
	require.Equal(t, panel.General, res.Deciding)
	require.Equal(t, panel.RefusedPartFeeder, res.Methods[m83].Refusal)
	in.Carries = panel.HousePanel
	res, err = panel.Calculate(in, nil)
	require.NoError(t, err)
	require.Contains(t, res.Cautions.Codes(), "D-603")
}

func TestFusesAskForAPanelboard(t *testing.T) {
	in := sound(t)
	in.Protection = panel.Fuses
	res, err := panel.Calculate(in, nil)
	require.NoError(t, err)
	require.Contains(t, res.Cautions.Codes(), "D-103")
	require.Equal(t, panel.NewPanelboard, res.Measures[0].Kind)
}

// The garage feeder of V07: 1.25 × 24 A and a 1 500 W receptacle on 120 V.
func TestFeederOfTheDetachedGarage(t *testing.T) {
	least, device := rules(t, 2020).Feeder(12.5, 24)
	require.InDelta(t, 42.5, float64(least), 1e-9)
	require.EqualValues(t, 45, device)
}

func TestConductorsServe(t *testing.T) {
	// Source: NEC 310.12; 3 AWG copper carries 100 A at 75 °C, 2/0 AWG 175 A.
	r := rules(t, 2023)
	for _, c := range []struct{ ampacity, rating unit.Amps }{{100, 110}, {175, 200}, {83, 100}} {
		got, ok := r.ConductorsServe(c.ampacity)
		require.True(t, ok)
		require.Equal(t, c.rating, got)
	}
	_, ok := r.ConductorsServe(60)
	require.False(t, ok)
}

// V01: a 200 A service with gas heat never asks for an inventory; a spa, a
// tankless heater, electric heat or a smaller service does.
func TestQuickScreenSparesTheEasyHouse(t *testing.T) {
	easy := panel.Screen{Input: sound(t), Appliances: appliances(t), Zone: panel.Marine}
	easy.Input.Loads = nil
	easy.Input.Cooling = 0
	for _, setting := range []unit.Amps{16, 32, 48} {
		easy.Input.Chargers = []panel.Charger{{Setting: setting, Volts: 240}}
		got, err := panel.QuickScreen(easy)
		require.NoError(t, err)
		require.False(t, got.InventoryMatters, "%v A, spare %.2f", setting, got.SpareShare)
	}
	for name, change := range map[string]func(*panel.Screen){
		"100 A":         func(q *panel.Screen) { q.Input.Supply = panel.Rated(100) },
		"derated":       func(q *panel.Screen) { q.Input.Supply.Main = 150 },
		"spa":           func(q *panel.Screen) { q.Spa = panel.ToldYes },
		"tankless":      func(q *panel.Screen) { q.Tankless = panel.ToldYes },
		"electric heat": func(q *panel.Screen) { q.Input.Heat = panel.Heat{Kind: panel.Resistance, VA: 10000, Units: 1} },
		"80 A":          func(q *panel.Screen) { q.Input.Chargers = []panel.Charger{{Setting: 80, Volts: 240}} },
		"a mansion":     func(q *panel.Screen) { q.Input.FloorArea = 9000 },
	} {
		q := easy
		change(&q)
		got, err := panel.QuickScreen(q)
		require.NoError(t, err)
		require.True(t, got.InventoryMatters, name)
	}
	easy.Input.FloorArea = -1
	_, err := panel.QuickScreen(easy)
	require.ErrorContains(t, err, "floor_area:")
}

func TestCalculateWithoutASheetAllocatesNothing(t *testing.T) {
	in := sound(t)
	require.Zero(t, testing.AllocsPerRun(100, func() {
		if _, err := panel.Calculate(in, nil); err != nil {
			t.Fatal(err)
		}
	}))
}

func BenchmarkCalculateFits(b *testing.B) {
	in := sound(b)
	b.ReportAllocs()
	for b.Loop() {
		_, _ = panel.Calculate(in, nil)
	}
}

func BenchmarkCalculateWithMeasures(b *testing.B) {
	in := find(b, "V16").input(b, 48)
	b.ReportAllocs()
	for b.Loop() {
		_, _ = panel.Calculate(in, nil)
	}
}

func BenchmarkCalculateKeepingTheSheet(b *testing.B) {
	in := sound(b)
	b.ReportAllocs()
	for b.Loop() {
		var sheet working.Sheet
		_, _ = panel.Calculate(in, &sheet)
	}
}

func BenchmarkLargestSetting(b *testing.B) {
	in := find(b, "V16").input(b, 48)
	b.ReportAllocs()
	for b.Loop() {
		_, _, _ = panel.LargestSetting(in, panel.Want{AtMost: 32, SpareShare: 0.02})
	}
}

// 2026: 120.83 was not seen. Where 3 VA/ft² in place of 2 would lower the
// verdict, the result says so; the figure itself is by the edition's value.
func TestUnseenAreaValueIsNamedWhereItMatters(t *testing.T) {
	in := find(t, "V06 60").input(t, 16)
	in.Rules = rules(t, 2026)
	in.Supply = panel.Rated(54)
	res, err := panel.Calculate(in, nil)
	require.NoError(t, err)
	require.Equal(t, panel.Fits, res.Verdict)
	require.InDelta(t, 53.5, float64(res.Total), 0.05)
	require.True(t, res.UnseenArea)
	in.Supply = panel.Rated(60)
	res, err = panel.Calculate(in, nil)
	require.NoError(t, err)
	require.False(t, res.UnseenArea)
}

func TestSettings(t *testing.T) {
	r := rules(t, 2023)
	require.Equal(t, []unit.Amps{12, 16, 24, 32, 40, 44, 48, 64, 80}, r.Settings(panel.StandardSteps))
	for limit, want := range map[unit.Amps]unit.Amps{30: 32, 32: 32, 28: 32, 48: 48, 15: 16} {
		got, ok := r.NextSetting(limit)
		require.True(t, ok)
		require.Equal(t, want, got)
	}
	_, ok := r.NextSetting(96)
	require.False(t, ok)
	for year, want := range map[int]panel.SettingCounts{2017: panel.RatingOnly, 2020: panel.FastenedEquipment, 2023: panel.AnyEquipment, 2026: panel.AnyEquipment} {
		require.Equal(t, want, rules(t, year).SettingCounts())
	}
	for _, s := range r.Sources() {
		require.True(t, s.Status.Known())
	}
	_, _, err := panel.LargestSetting(find(t, "V01").input(t, 32), panel.Want{AtMost: unit.Amps(math.NaN())})
	require.ErrorContains(t, err, "at_most:")
	_, _, err = panel.LargestSetting(find(t, "V01").input(t, 32), panel.Want{AtMost: 32, SpareShare: 2})
	require.ErrorContains(t, err, "spare_share:")
}

// A new home on 60 A: 220.83 is for homes that stand, 220.82 for 100 A and up.
func TestANewSmallDwellingGoesByTheGeneralMethod(t *testing.T) {
	in := find(t, "V06 60").input(t, 16)
	in.Stage = panel.NewDwelling
	res, err := panel.Calculate(in, nil)
	require.NoError(t, err)
	require.Equal(t, panel.General, res.Deciding)
	require.Equal(t, panel.Fits, res.Verdict)
	require.InDelta(t, (6420+4800)/240.0, float64(res.Total), 0.05)
}
