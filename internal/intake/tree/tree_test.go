package tree_test

import (
	"fmt"
	"testing"

	"daybreak/internal/facts"
	"daybreak/internal/facts/condition"
	"daybreak/internal/intake/tree"

	"github.com/stretchr/testify/require"
)

func Example() {
	t, err := tree.Load(tree.Embedded())
	if err != nil {
		fmt.Println(err)
		return
	}
	var f facts.Facts
	f.Place.Tenure = facts.Tell(facts.TenureOwn)
	q, _ := t.Question("place.permission")
	words, _ := t.Words("en")
	fmt.Println(words.Questions[q.ID].Words, q.Applies(&f).Value)
	q, _ = t.Question("panel.main")
	_, err = q.Read(tree.Answer{Choices: []string{"m1000"}})
	fmt.Println(err)
	// Output:
	// Did the owner or board say yes? false
	// answer.choices: "m1000" is not accepted; give one of m60, m100, m125, m150, m200, m225, m400, nomain
}

func load(t testing.TB) *tree.Tree {
	tr, err := tree.Load(tree.Embedded())
	require.NoError(t, err)
	return tr
}

func tell(t require.TestingT, f *facts.Facts, told map[string]any) {
	for path, v := range told {
		l, ok := facts.LeafAt(path)
		require.True(t, ok, path)
		require.NoError(t, l.At(f).Tell(v))
	}
}

func TestTheHouseTreeHoldsTogether(t *testing.T) {
	tr := load(t)
	require.Len(t, tr.Questions(), 59)
	require.Equal(t, []string{"en"}, tr.Locales())
	require.Len(t, tr.Revision(), 16)
	for i, q := range tr.Questions() {
		require.Equal(t, i, q.Place)
		again, ok := tr.Question(q.ID)
		require.True(t, ok)
		require.Same(t, q, again)
	}
	signs, _ := tr.Question("place.signs")
	require.Less(t, signs.Place, 3)
	require.Equal(t, "place.signs", tr.Setting("outlet.condition")[0].ID)
	other, err := tree.Load(tree.Embedded())
	require.NoError(t, err)
	require.Equal(t, tr.Revision(), other.Revision())
}

// With nothing known a condition is unknown, unless it asks only how we came
// by a leaf. A plain true or false would rest on a default.
func TestNoConditionRestsOnADefault(t *testing.T) {
	tr := load(t)
	n := 0
	for _, q := range tr.Questions() {
		if q.When == nil {
			continue
		}
		n++
		var nothing facts.Facts
		for _, path := range q.When.Reads() {
			l, _ := facts.LeafAt(path)
			for _, unset := range []func(facts.Slot){facts.Slot.Clear, facts.Slot.Unsure} {
				f := nothing
				unset(l.At(&f))
				r := q.Applies(&f)
				asksState := len(r.Missing) == 0
				require.True(t, r.Value == condition.Unknown || asksState, "%s: %v", q.ID, r)
				if asksState {
					require.Contains(t, q.When.Source(), "known(", q.ID)
				}
			}
		}
	}
	require.Equal(t, 25, n)
}

// Each row is a household of the conversation's fifteen contradictions, and
// one beside it that must not raise it.
func TestContradictions(t *testing.T) {
	tr := load(t)
	for id, c := range map[string]struct{ with, without map[string]any }{
		"C-01": {map[string]any{"outlet.configuration": "14-50", "outlet.breaker_amps": 30}, map[string]any{"outlet.configuration": "14-50", "outlet.breaker_amps": 40}},
		"C-02": {map[string]any{"outlet.configuration": "10-30", "outlet.breaker_amps": 40}, map[string]any{"outlet.configuration": "14-30", "outlet.breaker_amps": 30}},
		"C-03": {map[string]any{"outlet.configuration": "5-20", "outlet.breaker_amps": 30}, map[string]any{"outlet.configuration": "5-20", "outlet.breaker_amps": 20}},
		"C-04": {map[string]any{"outlet.configuration": "TT-30", "outlet.volts": 240}, map[string]any{"outlet.configuration": "TT-30", "outlet.volts": 120}},
		"C-05": {map[string]any{"wishes.output_amps": 48, "panel.service_amps": 60, "panel.heat_kind": "furnace"}, map[string]any{"wishes.output_amps": 48, "panel.service_amps": 60, "panel.heat_kind": "fuel"}},
		"C-06": {map[string]any{"panel.heat_breaker_amps": 180, "panel.main_breaker_amps": 100}, map[string]any{"panel.heat_breaker_amps": 60, "panel.main_breaker_amps": 100}},
		"C-07": {map[string]any{"panel.protection": "fuses", "panel.service_amps": 200}, map[string]any{"panel.protection": "breakers", "panel.service_amps": 200}},
		"C-08": {map[string]any{"panel.crowding": "crowded", "panel.free_full_spaces": 2}, map[string]any{"panel.free_full_spaces": 2}},
		"C-09": {map[string]any{"outlet.reach_feet": 26}, map[string]any{"outlet.reach_feet": 25}},
		"C-10": {map[string]any{"panel.loads.dryer.fuel": "gas", "outlet.shared_with": "dryer"}, map[string]any{"panel.loads.dryer.fuel": "electric", "outlet.shared_with": "dryer"}},
		"C-11": {map[string]any{"place.year_built": 2000, "outlet.configuration": "10-30"}, map[string]any{"place.year_built": 1995, "outlet.configuration": "10-30"}},
		"C-12": {map[string]any{"driving.weekday_miles": 180, "vehicle.wall_kwh_per_100mi": 29.5, "vehicle.usable_kwh": 37, "vehicle.petrol_backup": false}, map[string]any{"driving.weekday_miles": 140, "vehicle.wall_kwh_per_100mi": 29.5, "vehicle.usable_kwh": 37, "vehicle.petrol_backup": false}},
		"C-13": {map[string]any{"driving.home_by_hour": 7, "driving.leave_by_hour": 18}, map[string]any{"driving.home_by_hour": 18, "driving.leave_by_hour": 7}},
		"C-14": {map[string]any{"panel.backfeed_kind": "none", "panel.backfeed_amps": 40}, map[string]any{"panel.backfeed_kind": "solar", "panel.backfeed_amps": 40}},
		"C-15": {map[string]any{"place.permission": "refused", "wishes.connection": "wired"}, map[string]any{"place.permission": "refused", "wishes.connection": "any"}},
	} {
		var with, without facts.Facts
		tell(t, &with, c.with)
		tell(t, &without, c.without)
		require.Equal(t, []string{id}, ids(tr.Contradictions(&with)), id)
		require.Empty(t, ids(tr.Contradictions(&without)), id)
	}
}

// Nights at work, and an hour past midnight, are no contradiction.
func TestHoursThatFit(t *testing.T) {
	tr := load(t)
	for _, h := range [][2]float64{{0.5, 7}, {18, 5.5}, {23, 6}, {13, 18}} {
		var f facts.Facts
		tell(t, &f, map[string]any{"driving.home_by_hour": h[0], "driving.leave_by_hour": h[1]})
		require.Empty(t, ids(tr.Contradictions(&f)), "%v", h)
	}
}

func ids(cs []*tree.Contradiction) []string {
	var out []string
	for _, c := range cs {
		out = append(out, c.ID)
	}
	return out
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		_ = load(b)
	}
}

func BenchmarkDraw(b *testing.B) {
	tr := load(b)
	u := make([]float64, tr.Dimensions())
	for i := range u {
		u[i] = float64(i%10)/10 + 0.05
	}
	b.ReportAllocs()
	for b.Loop() {
		var f facts.Facts
		tr.Draw(u, &f, &tree.World{})
	}
}
