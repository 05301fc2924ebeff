package readiness_test

import (
	"math"
	"os"
	"path/filepath"
	"regexp"
	"testing"
	"time"

	"daybreak/internal/charging"
	"daybreak/internal/fault"
	"daybreak/internal/readiness"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

func assess(t testing.TB, in readiness.Input) readiness.Result {
	t.Helper()
	r, err := readiness.Assess(in, nil)
	require.NoError(t, err)
	return r
}

func TestRefusals(t *testing.T) {
	all := tables(t)
	good := household(t, all, "mid-sedan-long", "Burlington", 35, 10)
	good.Option.Wall = 1.44
	for field, breakIt := range map[string]func(*readiness.Input){
		"car.usable_kwh":            func(in *readiness.Input) { in.Car.Usable = 0 },
		"car.kwh_per_100mi":         func(in *readiness.Input) { in.Car.Consumption = -3 },
		"car.reserve":               func(in *readiness.Input) { in.Car.Reserve = math.NaN() },
		"car.limit":                 func(in *readiness.Input) { in.Car.Limit = 0.1 },
		"day.mean":                  func(in *readiness.Input) { in.Driver.Weekday.Mean = unit.Miles(math.Inf(1)) },
		"day.sigma":                 func(in *readiness.Input) { in.Driver.Weekend.Sigma = 0 },
		"driver.window.weeknight_h": func(in *readiness.Input) { in.Driver.Window.Weeknight = 25 },
		"driver.window.weekend_h":   func(in *readiness.Input) { in.Driver.Window.Weekend = -1 },
		"driver.plug_in":            func(in *readiness.Input) { in.Driver.PlugIn = 1.01 },
		"driver.below":              func(in *readiness.Input) { in.Driver.Below = -0.1 },
		"driver.away":               func(in *readiness.Input) { in.Driver.Away = math.NaN() },
		"driver.elsewhere.share":    func(in *readiness.Input) { in.Driver.Other.Share = 2 },
		"driver.elsewhere.kwh":      func(in *readiness.Input) { in.Driver.Other.Energy = 1e9 },
		"year[3].multiplier":        func(in *readiness.Input) { in.Year[3].Multiplier = 0 },
		"year[0].efficiency":        func(in *readiness.Input) { in.Year[0].Losses.Share = 1.1 },
		"option.wall_kw":            func(in *readiness.Input) { in.Option.Wall = unit.Kilowatts(math.NaN()) },
	} {
		in := good
		breakIt(&in)
		_, err := readiness.Assess(in, nil)
		require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindInvalid}, field)
		require.ErrorContains(t, err, field)
		if field != "option.wall_kw" {
			_, err = readiness.Prepare(in.Car, in.Driver, in.Year)
			require.ErrorContains(t, err, field)
		}
		_, _, err = readiness.AssessPair(good, in, 9.6, nil)
		require.ErrorContains(t, err, field)
	}
	_, _, err := readiness.AssessPair(good, good, 0, nil)
	require.ErrorContains(t, err, "circuit_kw")
}

// Level 1 against 55 miles a day of a heavy pickup: nights give less than days
// take, in winter and over the year; a battery half as large again hardly helps
// (energy balance of a dam that is always empty).
func TestOverloadIsSaid(t *testing.T) {
	all := tables(t)
	in := household(t, all, "pickup-max", "Burlington", 55, 10)
	in.Option.Wall = 1.44
	small := assess(t, in)
	require.True(t, small.Overload.Any && small.Overload.Whole)
	require.Equal(t, "year", small.Overload.Word())
	require.Greater(t, small.Overload.Need, small.Overload.Gain)
	require.InDelta(t, 1, small.Morning/in.Car.Reserve, 0.8, "the battery stays near the reserve")
	in.Car.Usable *= 1.5
	large := assess(t, in)
	require.InEpsilon(t, float64(small.Short), float64(large.Short), 0.1)

	in.Option.Wall = 7.68
	require.Equal(t, "none", assess(t, in).Overload.Word())
	light := household(t, all, "mid-sedan-long", "Fairbanks", 24, 9)
	light.Option.Wall = 1.44
	cold := assess(t, light)
	require.Equal(t, "months", cold.Overload.Word())
	require.True(t, cold.Overload.Months[0])
	require.False(t, cold.Overload.Months[6])
	require.Equal(t, time.January, cold.Worst)
}

// In deep cold warming the battery takes what Level 1 gives: at −30 °F hardly
// anything is left of 12 A at 120 V, of 32 A at 240 V nearly all.
func TestLevel1VanishesInDeepCold(t *testing.T) {
	all := tables(t)
	in := household(t, all, "mid-sedan-long", "Fairbanks", 25, 11)
	var deep charging.Months
	for i := range deep {
		deep[i] = -30
	}
	year, err := readiness.YearOf(deep, all.Season, charging.Mid)
	require.NoError(t, err)
	in.Option.Wall = 1.44
	mild := assess(t, in)
	in.Year = year
	level1 := assess(t, in)
	in.Option.Wall = 7.68
	level2 := assess(t, in)
	require.Greater(t, level1.Short, 5*mild.Short)
	require.Less(t, level1.Home, mild.Home*2/3)
	require.Less(t, level2.Caused, Days(1))
}

// Days keeps the table above short.
type Days = readiness.Days

func TestPlugInHybridIsNeverShort(t *testing.T) {
	all := tables(t)
	in := household(t, all, "phev-sedan", "Seattle-Tacoma", 22, 10)
	in.Option.Wall = 1.44
	r := assess(t, in)
	require.Zero(t, r.Short)
	require.Zero(t, r.Caused)
	require.Zero(t, r.Public)
	require.Zero(t, r.Worst)
	require.Greater(t, r.Fuel.Miles, unit.Miles(500))
	require.Less(t, r.Fuel.Miles, unit.Miles(22*365))
	require.InDelta(t, 1-float64(r.Fuel.Miles)/(22*365), r.Fuel.Electric, 1e-6)
	in.Option.Wall = 0.6
	require.Greater(t, assess(t, in).Fuel.Miles, r.Fuel.Miles)
	var sheet working.Sheet
	_, err := readiness.Assess(in, &sheet)
	require.NoError(t, err)
	require.Equal(t, "readiness.fuel.miles", sheet.Steps[len(sheet.Steps)-1].Rule)
	in.Option.Wall = 0
	require.InEpsilon(t, 22*365.0, float64(assess(t, in).Fuel.Miles), 1e-3, "no charging at home is all fuel")
}

// Two cars on 48 A at 240 V: neither does better than alone, neither worse than
// on half the circuit, and a circuit for both at full power is as two circuits.
func TestPairsShareOneCircuit(t *testing.T) {
	all := tables(t)
	a := household(t, all, "mid-sedan-long", "Burlington", 45, 9)
	b := household(t, all, "small-suv-2wd", "Burlington", 40, 9)
	a.Option.Wall, b.Option.Wall = 3.84, 2.88
	first, second, err := readiness.AssessPair(a, b, 3.84, nil)
	require.NoError(t, err)
	for _, c := range []struct {
		in   readiness.Input
		pair readiness.Result
	}{{a, first}, {b, second}} {
		alone := assess(t, c.in)
		half := c.in
		half.Option.Wall = 1.92
		require.GreaterOrEqual(t, float64(c.pair.Short), float64(alone.Short)-0.01)
		require.LessOrEqual(t, float64(c.pair.Short), float64(assess(t, half).Short)+0.01)
	}
	var sheet working.Sheet
	first, second, err = readiness.AssessPair(a, b, 6.72, &sheet)
	require.NoError(t, err)
	require.InDelta(t, float64(assess(t, a).Short), float64(first.Short), 1e-9)
	require.InDelta(t, float64(assess(t, b).Short), float64(second.Short), 1e-9)
}

// The other car's need is planned even where nothing of its power reaches the
// battery: it then asks for its part all night.
func TestAPairWithAHopelessPartner(t *testing.T) {
	all := tables(t)
	a := household(t, all, "mid-sedan-long", "Burlington", 45, 9)
	b := household(t, all, "small-suv-2wd", "Burlington", 40, 9)
	a.Option.Wall, b.Option.Wall = 3.84, 0.1
	first, second, err := readiness.AssessPair(a, b, 3.84, nil)
	require.NoError(t, err)
	a.Option.Wall = 3.74
	require.InDelta(t, float64(assess(t, a).Short), float64(first.Short), 1e-6)
	require.Greater(t, float64(second.Short), 200.0)
}

func TestInputsWeighMoreThanArithmetic(t *testing.T) {
	all := tables(t)
	in := household(t, all, "mid-sedan-long", "Burlington", 35, 10)
	in.Option.Wall = 1.44
	station, err := all.Climates.Station("Burlington")
	require.NoError(t, err)
	var years [3]readiness.Year
	for i, reading := range []charging.Reading{charging.Mild, charging.Mid, charging.Harsh} {
		years[i], err = readiness.YearOf(station.Mean, all.Season, reading)
		require.NoError(t, err)
	}
	low, mid, high, err := readiness.Around(in, years, nil)
	require.NoError(t, err)
	require.Equal(t, assess(t, in), mid)
	require.Less(t, low.Short, mid.Short)
	require.Less(t, mid.Short, high.Short)
}

// A week told as such: the same distance in two ways gives two answers, since
// a commute is no day of all kinds; both name their fields when wrong.
func TestDriversTold(t *testing.T) {
	all := tables(t)
	in := household(t, all, "compact-hatch", "Burlington", 40, 10)
	in.Option.Wall = 1.44
	even := assess(t, in)
	week, err := readiness.Week(40, 40, readiness.Window{Weeknight: 10, Weekend: 10})
	require.NoError(t, err)
	require.Equal(t, in.Driver.PlugIn, week.PlugIn)
	in.Driver = week
	require.NotEqual(t, even.Short, assess(t, in).Short)
	_, err = readiness.Week(-1, 40, readiness.Window{})
	require.ErrorContains(t, err, "weekday_miles")
	_, err = readiness.Week(1, 4000, readiness.Window{})
	require.ErrorContains(t, err, "weekend_miles")
	_, err = readiness.EveryDay(-1, 10)
	require.ErrorContains(t, err, "average_miles")
}

func TestDaysRead(t *testing.T) {
	for days, want := range map[readiness.Days][2]int{7.2: {7, 0}, 0.6: {1, 0}, 0.3: {0, 3}, 0.004: {0, 100}, 0: {0, 100}} {
		whole, years := days.Read()
		require.Equal(t, want, [2]int{whole, years})
	}
}

// Every option of one driver costs a handful of allocations, whatever its days.
func TestAnOptionAllocatesLittle(t *testing.T) {
	all := tables(t)
	in := household(t, all, "mid-sedan-long", "Burlington", 35, 10)
	m, err := readiness.Prepare(in.Car, in.Driver, in.Year)
	require.NoError(t, err)
	require.LessOrEqual(t, testing.AllocsPerRun(5, func() {
		_, _ = m.Assess(readiness.Option{Wall: 1.44}, nil)
	}), 12.0)
}

var ruleKey = regexp.MustCompile(`"(readiness(?:\.[a-z0-9_]+)+)"`)

// Every rule this room can show has words, every such word has a rule, and the
// working ends in the numbers of the result.
func TestEveryRuleHasWords(t *testing.T) {
	words, err := working.LoadWords(working.Embedded(), "en")
	require.NoError(t, err)
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	found := map[string]bool{}
	for _, name := range files {
		raw, err := os.ReadFile(name)
		require.NoError(t, err)
		for _, m := range ruleKey.FindAllStringSubmatch(string(raw), -1) {
			found[m[1]] = true
			require.True(t, words.Has(m[1]), m[1])
		}
	}
	require.Len(t, found, 11)

	all := tables(t)
	in := household(t, all, "pickup-max", "Burlington", 55, 10)
	in.Option.Wall = 1.44
	var sheet working.Sheet
	r, err := readiness.Assess(in, &sheet)
	require.NoError(t, err)
	shown := map[string]float64{}
	for _, s := range sheet.Steps {
		shown[s.Rule] = s.Out.Value
		require.NotNil(t, s.Source)
		require.NotContains(t, words.Formula(s), "{", s.Rule)
		require.NotContains(t, words.Sentence(s), "{", s.Rule)
	}
	require.InDelta(t, float64(r.Caused), shown["readiness.days.caused"], 1e-9)
	require.InDelta(t, float64(r.Public), shown["readiness.public.energy"], 1e-9)
}

// No input makes a panic or a number that is none.
func FuzzAssess(f *testing.F) {
	f.Add(75.0, 0.9, 0.15, 28.0, 35.0, 0.8, 0.12, 10.0, 0.95, 1.0, 0.0, 1.44, 1.2)
	f.Add(0.0, -1.0, math.NaN(), 1e300, math.Inf(1), 0.0, 2.0, 30.0, 5.0, -5.0, 2.0, -1.0, 0.0)
	f.Add(500.0, 0.011, 0.0, 300.0, 2000.0, 3.0, 0.99, 24.0, 1.0, 0.0, 1.0, 50.0, 10.0)
	f.Add(1e-9, 1.0, 0.0, 1e-9, 1e-9, 1e-9, 0.0, 1e-9, 1e-9, 0.5, 0.5, 1e-9, 1e-9)
	f.Fuzz(func(t *testing.T, usable, limit, reserve, rate, mean, sigma, idle, window, plug, below, away, wall, times float64) {
		day := charging.Day{Mean: unit.Miles(mean), Sigma: sigma, Idle: idle}
		in := readiness.Input{
			Car: readiness.Car{Usable: unit.KilowattHours(usable), Limit: limit, Reserve: reserve, Consumption: charging.Consumption(rate)},
			Driver: readiness.Driver{
				Weekday: day, Weekend: day, Window: readiness.Window{Weeknight: unit.Hours(window), Weekend: unit.Hours(window)},
				PlugIn: plug, Below: below, Away: away,
			},
			Option: readiness.Option{Wall: unit.Kilowatts(wall)},
		}
		for i := range in.Year {
			in.Year[i] = readiness.Month{Multiplier: times, Losses: charging.Losses{Share: 0.93, Overhead: 0.15}}
		}
		r, err := readiness.Assess(in, nil)
		if err != nil {
			_, named := fault.As(err)
			require.True(t, named, err)
			return
		}
		for _, v := range []float64{float64(r.Short), float64(r.Caused), float64(r.Uncurable), float64(r.Public), float64(r.Home), r.Morning, float64(r.StillFor), r.Spread.SD} {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0) || v < -1e-6, "%+v", r)
		}
		require.LessOrEqual(t, float64(r.Short), 366.0)
	})
}
