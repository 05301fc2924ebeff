package panel_test

import (
	"math"
	"testing"

	"daybreak/internal/panel"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// draw is a random sound dwelling with one charger.
func draw(t *rapid.T, b *panel.Book) panel.Input {
	r, err := b.Rules(rapid.SampledFrom(b.Editions()).Draw(t, "edition"))
	require.NoError(t, err)
	whole := func(name string, low, high, step int) float64 {
		return float64(step * rapid.IntRange(low, high).Draw(t, name))
	}
	in := panel.Input{
		Rules: r, Dwelling: rapid.SampledFrom([]panel.Dwelling{panel.House, panel.Flat, panel.Mobile}).Draw(t, "dwelling"),
		Volts:     rapid.SampledFrom([]unit.Volts{240, 208}).Draw(t, "volts"),
		FloorArea: unit.SquareFeet(whole("area", 4, 80, 50)), SmallCirc: rapid.IntRange(2, 4).Draw(t, "small"), LaundryCir: rapid.IntRange(0, 2).Draw(t, "laundry"),
		Supply:  panel.Rated(rapid.SampledFrom([]unit.Amps{60, 100, 125, 150, 200, 400}).Draw(t, "service")),
		Cooling: unit.VoltAmps(whole("cooling", 0, 16, 500)),
		Heat: panel.Heat{
			Kind:  rapid.SampledFrom([]panel.HeatKind{panel.NoElectricHeat, panel.HeatPumpAlone, panel.HeatPumpWithStrips, panel.Resistance, panel.Storage}).Draw(t, "heat"),
			VA:    unit.VoltAmps(whole("heat_va", 0, 40, 500)),
			Units: rapid.IntRange(1, 9).Draw(t, "units"), Compressor: unit.VoltAmps(whole("compressor", 0, 14, 500)),
		},
		Spaces: panel.Spaces{Seen: panel.Counted, Free: rapid.IntRange(0, 4).Draw(t, "free"), Tandem: rapid.SampledFrom([]panel.Tandem{panel.TandemAllowed, panel.TandemBarred}).Draw(t, "tandem")},
	}
	for range rapid.IntRange(0, 9).Draw(t, "loads") {
		in.Loads = append(in.Loads, drawLoad(t))
	}
	in.Chargers = []panel.Charger{{Setting: rapid.SampledFrom([]unit.Amps{12, 16, 24, 32, 40, 48, 80}).Draw(t, "setting"), Volts: in.Volts}}
	if rapid.Bool().Draw(t, "record") {
		in.Measured = panel.Measured{Record: rapid.SampledFrom([]panel.Record{panel.OneYear, panel.ThirtyDays}).Draw(t, "record_kind"),
			Peak: unit.Kilowatts(whole("peak", 1, 40, 1)) / 2, IntervalMin: rapid.SampledFrom([]int{15, 30, 60}).Draw(t, "interval")}
	}
	return in
}

func drawLoad(t *rapid.T) panel.Load {
	return panel.Load{
		Kind:  panel.LoadKind(rapid.IntRange(0, int(panel.OtherLoad)).Draw(t, "kind")),
		VA:    unit.VoltAmps(100 * rapid.IntRange(0, 120).Draw(t, "va")),
		Count: rapid.IntRange(1, 3).Draw(t, "count"),
	}
}

func calculate(t *rapid.T, in panel.Input) panel.Result {
	res, err := panel.Calculate(in, nil)
	require.NoError(t, err)
	return res
}

// The methods that decide for a whole dwelling never gain by another load. The
// general method may: a fourth fastened appliance brings the 75 % of 220.53.
func TestAddingALoadNeverRaisesSpare(t *testing.T) {
	b := book(t)
	rapid.Check(t, func(t *rapid.T) {
		in := draw(t, b)
		before := calculate(t, in)
		more := in
		more.Loads = append(append([]panel.Load(nil), in.Loads...), drawLoad(t))
		after := calculate(t, more)
		require.LessOrEqual(t, after.Verdict, before.Verdict)
		for m := range before.Methods {
			if o := before.Methods[m]; o.Decides {
				for r := range o.Amps {
					require.LessOrEqual(t, float64(o.Amps[r]), float64(after.Methods[m].Amps[r])+1e-9, "%v", panel.Method(m))
				}
			}
		}
		if before.Verdict == panel.Fits && after.Verdict == panel.Fits {
			require.LessOrEqual(t, float64(after.Spare), float64(before.Spare)+1e-9)
		}
	})
}

func TestAnotherMethodNeverWorsensTheVerdict(t *testing.T) {
	b := book(t)
	rapid.Check(t, func(t *rapid.T) {
		in := draw(t, b)
		res := calculate(t, in)
		for m := range res.Methods {
			if o := res.Methods[m]; o.Decides {
				require.GreaterOrEqual(t, res.Verdict, o.Verdict)
			}
		}
		in.Measured = panel.Measured{}
		require.GreaterOrEqual(t, res.Verdict, calculate(t, in).Verdict)
	})
}

// Readings are ordered, and the verdict is what the plain words say.
func TestReadingsAreOrdered(t *testing.T) {
	b := book(t)
	rapid.Check(t, func(t *rapid.T) {
		res := calculate(t, draw(t, b))
		for _, o := range res.Methods {
			if o.Refusal != panel.Permitted {
				continue
			}
			c, f, l, cap := o.Amps[panel.Continuous], o.Amps[panel.Full], o.Amps[panel.Literal], res.Capacity.Amps
			require.GreaterOrEqual(t, c, f)
			require.Equal(t, o.Verdict == panel.Fits, c <= cap+1e-7)
			if !o.NoLiteral {
				require.GreaterOrEqual(t, float64(f)+1e-9, float64(l))
				require.Equal(t, o.Verdict == panel.DoesNotFit, l > cap+1e-7)
			}
		}
	})
}

// The search for a setting against calculating every setting.
func TestLargestSettingAgainstEverySetting(t *testing.T) {
	b := book(t)
	rapid.Check(t, func(t *rapid.T) {
		in := draw(t, b)
		want := panel.Want{AtMost: rapid.SampledFrom([]unit.Amps{0, 16, 31, 32, 48, 80}).Draw(t, "at_most"), SpareShare: rapid.SampledFrom([]float64{0, 0.02, 0.15}).Draw(t, "spare")}
		got, ok, err := panel.LargestSetting(in, want)
		require.NoError(t, err)
		best := unit.Amps(0)
		for _, a := range in.Rules.Settings(panel.StandardSteps) {
			in.Chargers = []panel.Charger{{Setting: a, Volts: in.Volts}}
			res := calculate(t, in)
			if a <= want.AtMost && res.Verdict == panel.Fits && float64(res.Spare) >= want.SpareShare*float64(res.Capacity.Amps)-1e-7 {
				best = a
			}
		}
		require.Equal(t, best, got)
		require.Equal(t, best > 0, ok)
	})
}

// An hourly year of a managed charger: the house anywhere up to its calculated
// load, the signal lost at any hour. The rating is never exceeded.
func TestManagedNeverExceedsItsRating(t *testing.T) {
	b := book(t)
	rapid.Check(t, func(t *rapid.T) {
		in := draw(t, b)
		res := calculate(t, in)
		m, ok := measureOf(res, panel.ManageEnergy)
		if !ok {
			return // nothing to manage
		}
		in.Management = panel.Management{Kind: panel.MeasuredService, Setpoint: m.Setpoint, FailSafe: m.FailSafe}
		managed := calculate(t, in)
		require.True(t, managed.Managed.Holds)
		require.Equal(t, panel.Fits, managed.Verdict)
		require.LessOrEqual(t, float64(m.Setpoint)*1.25, float64(res.Capacity.Amps)+1e-7)
		house := math.Inf(1)
		for _, o := range res.Methods {
			if o.Decides {
				house = math.Min(house, float64(o.Base)/float64(in.Volts))
			}
		}
		seed := rapid.Uint64().Draw(t, "seed")
		for hour := range 8760 {
			seed = seed*6364136223846793005 + 1442695040888963407
			load := house * float64(seed>>11) / (1 << 53)
			if hour%7 == 0 {
				load = house // everything on at once
			}
			charger := math.Min(float64(m.Setting), math.Max(0, float64(m.Setpoint)-load))
			if seed%5 == 0 {
				charger = float64(m.FailSafe)
			}
			if load+charger > float64(res.Capacity.Amps)+1e-6 {
				t.Fatalf("hour %d: house %.1f A and charger %.1f A on %v A", hour, load, charger, res.Capacity.Amps)
			}
		}
	})
}

// What a measure promises is so when it is taken.
func TestMeasuresHoldWhatTheyPromise(t *testing.T) {
	b := book(t)
	rapid.Check(t, func(t *rapid.T) {
		in := draw(t, b)
		res := calculate(t, in)
		last := panel.FindPeak
		for _, m := range res.Measures {
			require.GreaterOrEqual(t, m.Kind, last, "cheapest first")
			last = m.Kind
			take := in
			switch m.Kind {
			case panel.FindPeak:
				take.Measured = panel.Measured{Record: panel.OneYear, Peak: m.Peak, IntervalMin: 15}
			case panel.LowerSetting:
				require.Less(t, m.Setting, in.Chargers[0].Setting)
				take.Chargers = []panel.Charger{{Setting: m.Setting, Volts: in.Volts}}
			case panel.UpgradeService:
				take.Supply = panel.Rated(m.Service)
			default:
				continue
			}
			if m.Kind == panel.FindPeak && m.Peak > 200 {
				continue
			}
			require.Equal(t, panel.Fits, calculate(t, take).Verdict, "%v", m.Kind)
		}
	})
}

// A kept sheet changes no number, and nothing reaches into the input.
func TestSheetChangesNothing(t *testing.T) {
	b := book(t)
	rapid.Check(t, func(t *rapid.T) {
		in := draw(t, b)
		loads := append([]panel.Load(nil), in.Loads...)
		plain := calculate(t, in)
		var sheet working.Sheet
		kept, err := panel.Calculate(in, &sheet)
		require.NoError(t, err)
		require.Equal(t, loads, append([]panel.Load(nil), in.Loads...))
		require.NotEmpty(t, kept.Worksheets)
		kept.Worksheets = nil
		require.Equal(t, plain, kept)
	})
}

// The lines of a bracket sheet add up to the total printed under them.
func TestWorksheetLinesAddUp(t *testing.T) {
	b := book(t)
	rapid.Check(t, func(t *rapid.T) {
		in := draw(t, b)
		var sheet working.Sheet
		res, err := panel.Calculate(in, &sheet)
		require.NoError(t, err)
		for _, w := range res.Worksheets {
			sum, open := 0.0, w.Method == panel.ExistingDwelling || w.Method == panel.OptionalDwelling
			for _, line := range w.Lines {
				switch line.Key {
				case "panel.line.connected":
					require.InDelta(t, sum, line.Out.Value, 1e-6)
					sum = 0
				case "panel.line.compressor", "panel.line.strips", "panel.line.heaters", "panel.line.cooling":
				case "panel.line.before":
					if open {
						require.InDelta(t, sum, line.Out.Value, 1e-6, "%v", w.Method)
					}
					open = false
				default:
					sum += line.Out.Value
				}
			}
		}
	})
}

func TestAFourthApplianceIsTheCodesOwnStep(t *testing.T) {
	// Source: NEC 220.53; three appliances in full, four at 75 %.
	r := rules(t, 2020)
	three := r.FastenedDemand([]unit.VoltAmps{4500, 4500, 4500})
	four := r.FastenedDemand([]unit.VoltAmps{4500, 4500, 4500, 600})
	require.Less(t, four, three)
	require.EqualValues(t, 13500+400, r.FastenedDemand([]unit.VoltAmps{4500, 4500, 4500, 400}), "below 500 W it makes no fourth from 2020")
}
