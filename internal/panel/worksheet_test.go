package panel_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"daybreak/internal/panel"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the worksheets under testdata/panels")

func words(t *testing.T) *working.Words {
	t.Helper()
	w, err := working.LoadWords(working.Embedded(), "en")
	require.NoError(t, err)
	return w
}

// printed is a whole calculation as an electrician reads it.
func printed(t *testing.T, title string, in panel.Input) string {
	w := words(t)
	var sheet working.Sheet
	res, err := panel.Calculate(in, &sheet)
	require.NoError(t, err)
	var b strings.Builder
	fmt.Fprintf(&b, "%s\nNEC %d, %v V, the supply carries %v A (%v)\n", title, in.Rules.Edition(), in.Volts, res.Capacity.Amps, res.Capacity.SetBy)
	for _, s := range res.Worksheets {
		o := res.Methods[s.Method]
		beside := ""
		if !o.Decides {
			beside = ", shown beside"
		}
		fmt.Fprintf(&b, "\n%v: %v%s\n%s", s.Method, o.Verdict, beside, s.Text(w))
	}
	fmt.Fprintf(&b, "\nverdict: %v by %v, %v reading: %s A, spare %s A\n", res.Verdict, res.Deciding, res.Reading,
		unit.Print(res.Total, 1), unit.Print(res.Spare, 1))
	fmt.Fprintf(&b, "spaces: %v, needed %d, free %d\n", res.Spaces.Verdict, res.Spaces.Needed, res.Spaces.Free)
	if res.Bus.Verdict != panel.BusNoSource {
		fmt.Fprintf(&b, "bus: %v by %v, %v of %v A\n", res.Bus.Verdict, res.Bus.Rule, res.Bus.Sum, res.Bus.Limit)
	}
	for _, m := range res.Measures {
		fmt.Fprintf(&b, "- %s (%s) %s\n", w.Sentence(m.Step()), w.Formula(m.Step()), m.Source.Section)
	}
	fmt.Fprintf(&b, "cautions: %v\nodd: %v\n", res.Cautions.Codes(), res.Odd.Words())
	return b.String()
}

// Worksheets are reviewed as prose: go test ./internal/panel -run TestWorksheets -update
func TestWorksheets(t *testing.T) {
	mobile := panel.Input{
		Rules: rules(t, 2020), Dwelling: panel.Mobile, Volts: 240, FloorArea: 980, SmallCirc: 2, LaundryCir: 1, Supply: panel.Rated(150),
		Loads: []panel.Load{one(panel.Range, 10000), one(panel.WaterHeater, 4500), one(panel.Dryer, 5000)},
		Heat:  panel.Heat{Kind: panel.Resistance, VA: 10000, Units: 1}, Chargers: []panel.Charger{{Setting: 24, Volts: 240}},
	}
	garage := panel.Input{
		Rules: rules(t, 2020), Carries: panel.PartOfDwelling, Volts: 240, FloorArea: 400, Supply: panel.Rated(60),
		Loads: []panel.Load{one(panel.Welder, 4800)}, Chargers: []panel.Charger{{Setting: 24, Volts: 240}},
		Spaces: panel.Spaces{Seen: panel.Counted, Free: 1, Tandem: panel.TandemAllowed},
	}
	peak := find(t, "V09").input(t, 32)
	peak.Measured = panel.Measured{Record: panel.OneYear, Peak: 9.1, IntervalMin: 60}
	for _, c := range []struct {
		file, title string
		in          panel.Input
	}{
		{"gas_house_200a", "Gas house of 2 200 ft², a 32 A charger", find(t, "V01").input(t, 32)},
		{"cottage_60a_2020", "Cottage of 900 ft² on 60 A, a 24 A charger", find(t, "V06 60").input(t, 24)},
		{"cottage_60a_2023", "The same cottage under the next edition, a 16 A charger", find(t, "V06 under").input(t, 16)},
		{"apartment_208v", "Apartment of 850 ft² on 208 V, a 24 A charger", find(t, "V08").input(t, 24)},
		{"baseboards_100a", "Seven baseboards on 100 A, a 40 A charger", find(t, "V09").input(t, 40)},
		{"baseboards_measured", "The same house with a year of hourly demand, a 32 A charger", peak},
		{"full_panel", "Full panel of 200 A, a 32 A charger", find(t, "V10").input(t, 32)},
		{"solar_derated", "Solar, main derated to 175 A, a 40 A charger", find(t, "V13").input(t, 40)},
		{"pickup_80a", "Pickup that asks for 80 A", find(t, "V16").input(t, 80)},
		{"mobile_home", "Mobile home of 980 ft², a 24 A charger", mobile},
		{"garage_feeder", "Garage feeder of 60 A, a 24 A charger beside a welder", garage},
	} {
		t.Run(c.file, func(t *testing.T) {
			path := filepath.Join("testdata", "panels", c.file+".txt")
			got := printed(t, c.title, c.in)
			if *update {
				require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
				require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
			}
			want, err := os.ReadFile(path)
			require.NoError(t, err)
			require.Equal(t, string(want), got)
		})
	}
}

func TestEveryRuleHasWords(t *testing.T) {
	w := words(t)
	for _, key := range panel.RuleKeys() {
		require.True(t, w.Has(key), key)
	}
}

// What a sheet keeps are only rules with words, each with a source, and every
// name between braces is filled.
func TestStepsAreWorded(t *testing.T) {
	w := words(t)
	known := map[string]bool{}
	for _, key := range panel.RuleKeys() {
		known[key] = true
	}
	for _, h := range households {
		for _, row := range h.rows {
			var sheet working.Sheet
			_, err := panel.Calculate(h.input(t, row.setting), &sheet)
			require.NoError(t, err)
			for _, s := range sheet.Steps {
				require.True(t, known[s.Rule], s.Rule)
				require.NotNil(t, s.Source, s.Rule)
				require.NotContains(t, w.Sentence(s)+w.Formula(s), "{", s.Rule)
			}
		}
	}
}
