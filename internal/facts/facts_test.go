package facts_test

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"
	"unsafe"

	"daybreak/internal/facts"
	"daybreak/internal/fault"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func Example() {
	var f facts.Facts
	leaf, _ := facts.LeafAt("panel.service_amps")
	fmt.Println(leaf.At(&f).Tell(-20.0))
	_ = leaf.At(&f).Tell(200.0)
	amps, known := f.Panel.ServiceAmps.Get()
	fmt.Println(amps, known, f.Panel.BusAmps.State())
	// Output:
	// panel.service_amps: -20 is not accepted; give 30 to 400 A
	// 200 true unknown
}

// Reflection over the struct: every Known field stands in the table once, at
// the same place, and nothing else does.
func TestTableHoldsEveryLeafOfTheStruct(t *testing.T) {
	var f facts.Facts
	require.Len(t, facts.Leaves(), len(states(&f)))
	for i, l := range facts.Leaves() {
		require.Equal(t, i, l.Index, l.Path)
		f = facts.Facts{}
		l.At(&f).Unsure()
		for j, s := range states(&f) {
			require.Equal(t, i == j, s == facts.Unsure, "%s stands at another place than its field", l.Path)
		}
	}
}

// states lists the state of every Known field in the order of the struct.
func states(f *facts.Facts) []facts.State {
	var out []facts.State
	var walk func(v reflect.Value)
	walk = func(v reflect.Value) {
		if k, ok := v.Interface().(interface{ State() facts.State }); ok {
			out = append(out, k.State())
			return
		}
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				walk(v.Field(i))
			}
		}
	}
	walk(reflect.ValueOf(f).Elem())
	return out
}

func TestPathsAndListsAreWellFormed(t *testing.T) {
	lists := map[string]facts.List{}
	for _, l := range facts.Lists() {
		lists[l.Name] = l
		require.LessOrEqual(t, len(l.Words), 32, l.Name)
		require.Len(t, slices.Compact(slices.Sorted(slices.Values(l.Words))), len(l.Words), l.Name)
	}
	used := map[string]bool{}
	for _, l := range facts.Leaves() {
		require.Regexp(t, `^[a-z][a-z0-9_]*(\.[a-z][a-z0-9_]*)+$`, l.Path)
		require.NotEmpty(t, l.Accepted(), l.Path)
		if l.List != "" {
			used[l.List] = true
			require.Equal(t, lists[l.List].Words, l.Words, l.Path)
			require.Equal(t, lists[l.List].Set, l.Kind == facts.Set, l.Path)
		}
		found, ok := facts.LeafAt(l.Path)
		require.True(t, ok)
		require.Same(t, l, found)
	}
	require.Len(t, used, len(lists))
}

func TestSizeIsSmallEnoughToCopy(t *testing.T) {
	size := unsafe.Sizeof(facts.Facts{})
	t.Logf("%d leaves, %d bytes", len(facts.Leaves()), size)
	require.LessOrEqual(t, size, uintptr(3584))
}

func TestRefusesWhatTheLeafDoesNotAccept(t *testing.T) {
	for _, c := range []struct {
		path string
		give any
	}{
		{"panel.service_amps", math.NaN()},
		{"panel.service_amps", math.Inf(1)},
		{"panel.service_amps", 29.9},
		{"panel.service_amps", "200"},
		{"panel.service_amps", nil},
		{"driving.weekday_miles", math.Copysign(0, -1)},
		{"driving.weekday_miles", 1e9},
		{"driving.home_by_hour", 18.25},
		{"panel.supply_volts", 220.0},
		{"panel.free_full_spaces", 2.5},
		{"place.parking", "Attached"},
		{"place.parking", 1},
		{"place.danger_signs", []string{"hot", "hot"}},
		{"place.danger_signs", []string{"warm"}},
		{"place.danger_signs", "hot"},
		{"place.postal_code", "0001"},
		{"place.postal_code", "0001a"},
		{"vehicle.model", ""},
		{"vehicle.model", "a b"},
		{"place.time_zone", "Mars!"},
		{"place.permit_date", "2016-12-31"},
		{"place.permit_date", "2026-02-30"},
		{"vehicle.petrol_backup", 1},
		{"wishes.budget_minor", int64(2_000_001)},
	} {
		var f facts.Facts
		leaf, _ := facts.LeafAt(c.path)
		err := leaf.At(&f).Tell(c.give)
		require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindInvalid}, "%s %v", c.path, c.give)
		flt, _ := fault.As(err)
		require.Equal(t, c.path, flt.Field)
		require.Equal(t, leaf.Accepted(), flt.Accepted)
		require.Equal(t, facts.Facts{}, f, "nothing half-applied")
	}
}

// anyValue draws a value the leaf accepts.
func anyValue(t *rapid.T, l *facts.Leaf) any {
	switch l.Kind {
	case facts.Number:
		return l.Nearest(rapid.Float64Range(l.Low, l.High).Draw(t, l.Path))
	case facts.Whole:
		return int(l.Nearest(rapid.Float64Range(l.Low, l.High).Draw(t, l.Path)))
	case facts.Money:
		return int64(l.Nearest(rapid.Float64Range(l.Low, l.High).Draw(t, l.Path)))
	case facts.Flag:
		return rapid.Bool().Draw(t, l.Path)
	case facts.Choice:
		return rapid.SampledFrom(l.Words).Draw(t, l.Path)
	case facts.Set:
		words := []string{}
		for _, w := range l.Words {
			if rapid.Bool().Draw(t, w) {
				words = append(words, w)
			}
		}
		return words
	case facts.Day:
		d := facts.Date{Year: int16(rapid.IntRange(int(l.Low), 2100).Draw(t, "year")), Month: uint8(rapid.IntRange(1, 12).Draw(t, "month")), Day: uint8(rapid.IntRange(1, 28).Draw(t, "day"))}
		return d
	}
	return fmt.Sprintf("%05d", rapid.IntRange(0, 99999).Draw(t, l.Path))
}

func TestEveryLeafKeepsWhatItIsTold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var f, g facts.Facts
		told := map[string]any{}
		for range rapid.IntRange(1, 20).Draw(t, "leaves") {
			l := rapid.SampledFrom(facts.Leaves()).Draw(t, "leaf")
			v := anyValue(t, l)
			require.NoError(t, l.At(&f).Tell(v), l.Path)
			told[l.Path] = v
		}
		for _, l := range facts.Leaves() {
			slot := l.At(&f)
			if v, ok := told[l.Path]; ok {
				require.Equal(t, v, slot.Value(), l.Path)
				require.Equal(t, facts.Told, slot.State())
				require.NoError(t, l.At(&g).Tell(slot.Value()))
			} else {
				require.Nil(t, slot.Value())
				require.Equal(t, facts.Unknown, slot.State())
			}
		}
		require.True(t, f == g)
		require.Equal(t, f.Fingerprint(), g.Fingerprint())
		for path := range told {
			l, _ := facts.LeafAt(path)
			l.At(&g).Unsure()
			require.NotEqual(t, f.Fingerprint(), g.Fingerprint(), path)
			l.At(&f).Clear()
			l.At(&g).Clear()
		}
		require.True(t, f == facts.Facts{} && g == f)
	})
}

func TestNarrowedLeavesHaveNoValueAndAnyOrderIsTheSame(t *testing.T) {
	var f, g facts.Facts
	require.NoError(t, f.Narrow("panel.service_amps", facts.OneOf, 400.0, 200.0))
	require.NoError(t, f.Narrow("driving.weekday_miles", facts.About, 34.0, 46.0))
	require.NoError(t, f.Narrow("outlet.configuration", facts.OneOf, "14-30", "10-30"))
	require.NoError(t, g.Narrow("outlet.configuration", facts.OneOf, "14-30", "10-30"))
	require.NoError(t, g.Narrow("driving.weekday_miles", facts.About, 34.0, 46.0))
	require.NoError(t, g.Narrow("panel.service_amps", facts.OneOf, 400.0, 200.0))
	require.True(t, f == g)
	require.Equal(t, f.Fingerprint(), g.Fingerprint())
	require.False(t, f.Panel.ServiceAmps.Has())
	require.Equal(t, facts.Narrowed, f.Panel.ServiceAmps.State())

	leaf, _ := facts.LeafAt("outlet.configuration")
	n, ok := f.NarrowedTo(leaf)
	require.True(t, ok)
	require.Equal(t, []any{"14-30", "10-30"}, n.Values())

	require.NoError(t, leaf.At(&f).Tell("14-50"))
	_, ok = f.NarrowedTo(leaf)
	require.False(t, ok)
	require.Len(t, f.Narrowings(), 2)

	for _, bad := range []error{
		f.Narrow("panel.service_amp", facts.OneOf, 100.0, 200.0),
		f.Narrow("panel.service_amps", facts.OneOf, 100.0),
		f.Narrow("panel.service_amps", facts.OneOf, 100.0, 100.0),
		f.Narrow("panel.service_amps", facts.Range, 200.0, 100.0),
		f.Narrow("panel.service_amps", facts.Range, 20.0, 100.0),
		f.Narrow("place.parking", facts.Range, "attached", "detached"),
		f.Narrow("place.danger_signs", facts.OneOf, []string{"hot"}, []string{}),
		f.Narrow("panel.service_amps", 0, 100.0, 200.0),
	} {
		require.ErrorIs(t, bad, &fault.Fault{Kind: fault.KindInvalid})
	}
}

func TestTooManyNarrowedLeavesAreRefused(t *testing.T) {
	var f facts.Facts
	n := 0
	var last error
	for _, l := range facts.Leaves() {
		if l.Kind == facts.Number && last == nil {
			last = f.Narrow(l.Path, facts.Range, l.Low, l.High)
			n++
		}
	}
	require.Error(t, last)
	require.Equal(t, facts.MostNarrowed+1, n)
	require.Len(t, f.Narrowings(), facts.MostNarrowed)
}

func TestMisspeltPathNamesItsNeighbour(t *testing.T) {
	require.Equal(t, "panel.service_amps", facts.NearestPath("panel.servce_amp"))
	require.ErrorContains(t, facts.UnknownPath("place.parkin"), "place.parking")
}

func TestSlotsAllocateNothing(t *testing.T) {
	var f facts.Facts
	leaf, _ := facts.LeafAt("route.panel_to_charger_feet")
	require.Zero(t, testing.AllocsPerRun(100, func() {
		s := leaf.At(&f)
		s.DeriveNumber(40, facts.FromDraw)
		_, _ = s.Number()
	}))
}

func BenchmarkCopy256(b *testing.B) {
	var f facts.Facts
	leaf, _ := facts.LeafAt("route.panel_to_charger_feet")
	for b.Loop() {
		for i := range 256 {
			g := f
			leaf.At(&g).DeriveNumber(float64(i), facts.FromDraw)
		}
	}
}

func BenchmarkFingerprint(b *testing.B) {
	var f facts.Facts
	for i, l := range facts.Leaves() {
		if i%2 == 0 && l.Kind != facts.Text && l.Kind != facts.Day && l.Kind != facts.Set {
			l.At(&f).DeriveNumber(l.Low, facts.FromClassPrior)
		}
	}
	for b.Loop() {
		_ = f.Fingerprint()
	}
}
