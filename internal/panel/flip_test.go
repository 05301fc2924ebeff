package panel_test

import (
	"testing"

	"daybreak/internal/panel"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The search against trying every volt-ampere, setting and edition.
func TestFlipsAgainstBruteForce(t *testing.T) {
	b := book(t)
	rapid.Check(t, func(t *rapid.T) {
		in := draw(t, b)
		now := calculate(t, in)
		flips, err := panel.Flips(in, b)
		require.NoError(t, err)
		for _, f := range flips {
			require.NotEqual(t, now.Verdict, f.Verdict)
		}
		if len(in.Loads) > 0 && now.Deciding != panel.General {
			i := rapid.IntRange(0, len(in.Loads)-1).Draw(t, "which")
			trial := in
			trial.Loads = append([]panel.Load(nil), in.Loads...)
			want, found := 0.0, false
			for x := in.Loads[i].VA - 1; x >= 0 && !found; x-- {
				trial.Loads[i].VA = x
				if calculate(t, trial).Verdict != now.Verdict {
					want, found = float64(x), true
				}
			}
			require.Equal(t, found, has(flips, panel.FlipLoad, in.Loads[i].Kind, float64(in.Loads[i].VA), want))
		}
		for _, a := range in.Rules.Settings(panel.StandardSteps) {
			if a >= in.Chargers[0].Setting {
				break
			}
			trial := in
			trial.Chargers = []panel.Charger{{Setting: a, Volts: in.Volts}}
			if calculate(t, trial).Verdict != now.Verdict {
				ok := false
				for _, f := range flips {
					ok = ok || (f.Fact == panel.FlipSetting && f.To < float64(in.Chargers[0].Setting) && f.To >= float64(a))
				}
				require.True(t, ok, "%v A", a)
			}
		}
	})
}

// has looks for a flip of a load; where several loads are alike any will do.
func has(flips []panel.Flip, fact panel.FlipFact, kind panel.LoadKind, from, to float64) bool {
	for _, f := range flips {
		if f.Fact == fact && f.Load == kind && f.From == from && f.To == to && f.To < f.From {
			return true
		}
	}
	return false
}

// V06: the edition changed the answer, and so would the setting.
func TestCottageFlipsByEditionAndSetting(t *testing.T) {
	b := book(t)
	flips, err := panel.Flips(find(t, "V06 60").input(t, 16), b)
	require.NoError(t, err)
	require.Contains(t, flips, panel.Flip{Fact: panel.FlipEdition, From: 2020, To: 2023, Verdict: panel.AskTheAHJ})
	require.Contains(t, flips, panel.Flip{Fact: panel.FlipSetting, From: 16, To: 24, Verdict: panel.Tight})
	// The dishwasher may be 3 000 VA larger: 40 % of it fills the 5 A to spare.
	require.Contains(t, flips, panel.Flip{Fact: panel.FlipLoad, Load: panel.Dishwasher, From: 1200, To: 4201, Verdict: panel.Tight})
	_, err = panel.Flips(panel.Input{Rules: rules(t, 2020), FloorArea: -1}, b)
	require.ErrorContains(t, err, "floor_area:")
}

func TestPeakFlips(t *testing.T) {
	in := find(t, "V09").input(t, 32)
	in.Measured = panel.Measured{Record: panel.OneYear, Peak: 9, IntervalMin: 15}
	flips, err := panel.Flips(in, nil)
	require.NoError(t, err)
	// Source: NEC 220.87: (100 A − 1.25 × 32 A) × 240 V × 0.95 ÷ 1.25 = 10.944 kW.
	require.Contains(t, flips, panel.Flip{Fact: panel.FlipPeak, From: 9, To: 10.95, Verdict: panel.Tight})
	require.EqualValues(t, 10.944, unit.Kilowatts(60*240*0.95/1.25/1000))
}

func BenchmarkFlips(b *testing.B) {
	shelf, in := book(b), find(b, "V16").input(b, 32)
	b.ReportAllocs()
	for b.Loop() {
		_, _ = panel.Flips(in, shelf)
	}
}
