package band_test

import (
	"testing"

	"daybreak/internal/band"
	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/facts"
	"daybreak/internal/panel"
	"daybreak/internal/pricing"
	"daybreak/internal/quote"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// requireMeasure: a measure is never shown, stands by what it says it carries,
// and its bills add exactly.
func requireMeasure(t require.TestingT, o *quote.Option) {
	sum := o.Bill.Total
	for i := range o.Apart {
		b := &o.Apart[i].Bill
		if len(b.Lines) == 0 {
			require.Zero(t, o.Role, o.ID)
			continue
		}
		for s := pricing.Low; s <= pricing.High; s++ {
			lines := int64(0)
			for k := range b.Lines {
				lines += b.Lines[k].Amount[s]
			}
			require.Equal(t, b.Sum[s], lines, o.ID)
			require.Equal(t, b.Total[s], b.Subtotal[s]+b.Permit[s]+b.Tax[s], o.ID)
			sum[s] += b.Total[s]
		}
		require.LessOrEqual(t, b.AllIn.P10, b.AllIn.P90, o.ID)
	}
	require.Equal(t, sum, o.Sums(), o.ID)
	m := o.Taken
	if m == nil {
		return
	}
	require.Zero(t, o.Role, o.ID)
	if o.Panel == nil {
		return
	}
	limit := o.Panel.Capacity.Amps
	if m.Kind == panel.UpgradeService {
		limit = m.Service
	}
	require.Greater(t, float64(m.Total), 0.0, o.ID)
	require.LessOrEqual(t, float64(m.Total), float64(limit)+1e-6, o.ID)
	require.NotEqual(t, panel.Fits, o.Panel.Verdict, "%s: it fits as it stands", o.ID)
}

func TestMeasuresStandApartAndAddExactly(t *testing.T) {
	kinds := map[panel.MeasureKind]int{}
	rapid.Check(t, func(r *rapid.T) {
		told := toldSome(r, t)
		q, err := band.Quote(openBooks(t), told, today)
		require.NoError(r, err)
		for _, list := range [][]quote.Option{q.Options, q.Others} {
			for i := range list {
				requireMeasure(r, &list[i])
				if m := list[i].Taken; m != nil {
					kinds[m.Kind]++
				}
			}
		}
	})
	t.Log(kinds)
}

func tellFuses(f *facts.Facts) { f.Panel.Protection = facts.Tell(facts.ProtectionFuses) }

// Fuses: a new panel on a bill of its own, with the utility's and the
// inspector's part; nothing to book before somebody has looked.
// Source: common practice; NEC 408.36.
func TestFusesGetAPanelOnABillOfItsOwn(t *testing.T) {
	q := quoteOf(t, "V06", tellFuses)
	o := best(t, &q)
	require.Len(t, o.Apart, 1)
	require.Equal(t, "quote.headline.with_panel", q.Headline.Key)
	require.NotEqual(t, quote.ReadyToBook, q.Standing)
	b := &o.Apart[0].Bill
	require.NotNil(t, b.Utility)
	require.Equal(t, [3]int{}, b.Weeks(), "the rating stays")
	requireMeasure(t, o)
	require.Empty(t, o.Unpriced)
	full := quoteOf(t, "V06", func(f *facts.Facts) { tellFuses(f); f.Panel.FreeFullSpaces = facts.Tell(0) })
	require.Zero(t, best(t, &full).Subpanel, "a new panel has the spaces")
	require.Greater(t, q.Outcome().Likely, int64(0))
	require.Equal(t, o.Bill.Total[pricing.Likely], q.Outcome().Likely, "the range is the charger's own")
}

// An old four-wire feed may be large enough to stay: one new feeder is planned,
// and the other way named.
// Source: NEC 225.30, 250.32(B).
func TestAnOldFourWireFeedIsNamed(t *testing.T) {
	q := quoteOf(t, "V07", func(f *facts.Facts) { f.Place.DetachedFeed = facts.Tell(facts.DetachedFeedFourWire) })
	o := best(t, &q)
	require.NotNil(t, o.Feeder)
	require.Contains(t, q.Verify, quote.Said("quote.verify.four_wire"))
	require.Equal(t, 1, o.Feeder.Panel.Removed)
}

// A garage without a supply gets a single circuit with its switch there, and no
// feeder.
// Source: NEC 225.30, 225.31, 250.32(A) exception.
func TestABuildingWithoutASupplyGetsOneCircuit(t *testing.T) {
	q := quoteOf(t, "V07", func(f *facts.Facts) { f.Place.DetachedFeed = facts.Tell(facts.DetachedFeedNone) })
	o := best(t, &q)
	require.Nil(t, o.Feeder)
	require.True(t, o.Circuit.StructureDisconnect)
	require.EqualValues(t, 85, o.Circuit.Takeoff.RouteFeet)
}

// Under a driveway nothing lies bare in the ground.
// Source: NEC Table 300.5(A).
func TestUnderADriveItIsARaceway(t *testing.T) {
	for _, under := range []bool{false, true} {
		q := quoteOf(t, "V12", func(f *facts.Facts) {
			f.Route.TrenchUnderDrive = facts.Tell(under)
		})
		bare := false
		for i := range q.Options {
			for _, p := range q.Options[i].Circuit.Chosen.Parts {
				bare = bare || p.Method == edition.UFB
			}
		}
		require.Equal(t, !under, bare, "cable buried as it is")
	}
}

// A full panel whose label takes tandems: they free the spaces, in the bill.
// Source: NEC 408.54.
func TestTandemsWhereTheLabelAllowsThem(t *testing.T) {
	q := quoteOf(t, "V10", func(f *facts.Facts) { f.Panel.TandemAllowed = facts.Tell(true) })
	o := best(t, &q)
	require.Equal(t, 2, o.Tandems)
	require.Zero(t, o.Subpanel)
	require.Equal(t, circuit.Designed, o.Circuit.Outcome)
	require.NotEqual(t, quote.ReadyToBook, q.Standing)
	full := quoteOf(t, "V10", func(*facts.Facts) {})
	require.Less(t, o.Bill.Total[pricing.Likely], best(t, &full).Bill.Total[pricing.Likely])
	require.Equal(t, o.Panel.Total, best(t, &full).Panel.Total, "spaces, not capacity")
}

// What would flip the verdict does: the load named, at the figure named.
// Source: V06; NEC 220.83.
func TestWhatWouldFlipTheVerdictDoes(t *testing.T) {
	q := quoteOf(t, "V06", func(*facts.Facts) {})
	o := best(t, &q)
	require.NotEmpty(t, o.Flips)
	require.Equal(t, "quote.flip.load", o.Flips[0].Key)
	for watts, want := range map[float64]panel.Verdict{4200: panel.Fits, 4201: panel.Tight} {
		at := quoteOf(t, "V06", func(f *facts.Facts) {
			l, _ := facts.LeafAt("panel.loads.dishwasher.watts")
			require.NoError(t, l.At(f).Tell(watts))
		})
		for _, list := range [][]quote.Option{at.Options, at.Others} {
			for i := range list {
				if list[i].ID == "new-hardwired-16" {
					require.Equal(t, want, list[i].Panel.Verdict, watts)
				}
			}
		}
	}
}
