package band_test

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"daybreak/internal/band"
	"daybreak/internal/charging"
	"daybreak/internal/facts"
	"daybreak/internal/pricing"
	"daybreak/internal/quote"
	"daybreak/internal/quote/caution"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Whatever was told, there is a quote, and it holds together.
func TestEveryHouseholdGetsAQuoteThatHoldsTogether(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		told := toldSome(r, t)
		q, err := band.Quote(openBooks(t), told, today)
		require.NoError(r, err)
		requireSound(r, &q)
	})
}

var noNumber = regexp.MustCompile(`[^\n]*\b(NaN|[+-]?Inf)\b[^\n]*`)

func requireSound(t require.TestingT, q *quote.Quote) {
	if bad := noNumber.Find(quote.Canonical(q)); bad != nil {
		require.Fail(t, "no number", string(bad))
	}
	require.NotZero(t, q.Standing)
	require.False(t, q.Headline.Empty())
	require.True(t, quote.ReferenceHolds(q.Reference), q.Reference)
	if caution.Halted(q.Findings) {
		require.Equal(t, quote.Halted, q.Standing)
	}
	if q.Band.Draws > 0 {
		require.LessOrEqual(t, q.Band.P10, q.Band.P50)
		require.LessOrEqual(t, q.Band.P50, q.Band.P90)
	}
	ids, roles := map[string]bool{}, quote.Role(0)
	for _, list := range [][]quote.Option{q.Options, q.Others} {
		for i := range list {
			o := &list[i]
			require.False(t, ids[o.ID], "%s twice", o.ID)
			ids[o.ID] = true
			require.Zero(t, roles&o.Role, "a role held twice")
			roles |= o.Role
			requireSoundOption(t, o)
		}
	}
	if len(q.Options) > 0 {
		require.NotZero(t, roles&quote.BestFit)
		require.NotZero(t, roles&quote.EnoughForNow)
	}
	if q.Standing == quote.ReadyToBook {
		requireFirm(t, q)
	}
}

// requireFirm: a quote that may be booked rests on nothing open or unpriced.
func requireFirm(t require.TestingT, q *quote.Quote) {
	require.Empty(t, q.Reasons)
	for _, a := range q.Assumptions {
		require.False(t, a.Decides, a.Path)
	}
	for i := range q.Options {
		if q.Options[i].Role&quote.BestFit != 0 {
			require.Empty(t, q.Options[i].Unpriced)
			require.True(t, q.Options[i].Priced)
		}
	}
}

func requireSoundOption(t require.TestingT, o *quote.Option) {
	for _, x := range []float64{float64(o.Rate.Wall), float64(o.HoursNormal), float64(o.HoursFull), o.MilesPerHour, o.Price.P10, o.Price.Mean, o.Price.P90} {
		require.False(t, math.IsNaN(x) || math.IsInf(x, 0) || x < 0, o.ID)
	}
	require.False(t, o.Why.Empty(), o.ID)
	if o.Breaker > 0 {
		require.LessOrEqual(t, float64(o.Setting), 0.8*float64(o.Breaker)+1e-9, "%s: a car charges for hours", o.ID)
	}
	if o.Role != 0 {
		require.True(t, o.Possible && o.Priced, o.ID)
		require.NotEmpty(t, o.Working, o.ID)
		require.True(t, o.Level == charging.Level1 || o.Panel != nil, o.ID)
	}
	if o.Priced {
		requireSum(t, o)
	}
}

// requireSum adds a bill again.
func requireSum(t require.TestingT, o *quote.Option) {
	b := &o.Bill
	for s := pricing.Low; s <= pricing.High; s++ {
		if o.Role != 0 {
			sum := int64(0)
			for i := range b.Lines {
				sum += b.Lines[i].Amount[s]
			}
			require.Equal(t, b.Sum[s], sum, o.ID)
		}
		require.Equal(t, b.Subtotal[s], b.Sum[s]-b.Discount[s], o.ID)
		require.Equal(t, b.Total[s], b.Subtotal[s]+b.Permit[s]+b.Tax[s], o.ID)
	}
	require.LessOrEqual(t, b.AllIn.P10, b.AllIn.Mean, o.ID)
	require.LessOrEqual(t, b.AllIn.Mean, b.AllIn.P90, o.ID)
}

// With everything told, the range is the bill's own.
func TestATwiceKnownHomeHasTheRangeOfItsBill(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		told := toldAll(r, t)
		q, err := band.Quote(openBooks(t), told, today)
		require.NoError(r, err)
		requireSound(r, &q)
		for i := range q.Options {
			if o := &q.Options[i]; o.Role&quote.BestFit != 0 && len(q.Assumptions) == 0 {
				require.Equal(r, 1, q.Band.Draws)
				require.Equal(r, int64(o.Bill.AllIn.P10+0.5), q.Band.P10)
				require.Equal(r, o.Bill.Total[pricing.Likely], q.Band.P50)
				require.Equal(r, int64(o.Bill.AllIn.P90+0.5), q.Band.P90)
			}
		}
	})
}

// A home of which less is told, but of which the same is taken, never stands
// firmer; and one with a deciding leaf open is a ballpark.
func TestAnOpenLeafNeverMakesAQuoteFirmer(t *testing.T) {
	books := openBooks(t)
	rapid.Check(t, func(r *rapid.T) {
		told := toldAll(r, t)
		before, err := band.Quote(books, told, today)
		require.NoError(r, err)
		less := told
		var opened []*facts.Leaf
		for range rapid.IntRange(1, 4).Draw(r, "opened") {
			l := rapid.SampledFrom(facts.Leaves()).Draw(r, "leaf")
			l.At(&less).Clear()
			opened = append(opened, l)
		}
		after, err := band.Quote(books, less, today)
		require.NoError(r, err)
		for _, a := range after.Assumptions {
			if a.Decides && after.Standing != quote.Halted {
				require.Equal(r, quote.Ballpark, after.Standing, a.Path)
			}
		}
		if takenAlike(&told, &less, opened) && before.Standing != quote.Halted {
			require.LessOrEqual(r, after.Standing, before.Standing, paths(opened))
		}
	})
}

// takenAlike reports whether what nobody tells is taken for what was told.
func takenAlike(told, less *facts.Facts, opened []*facts.Leaf) bool {
	b, _ := books()
	filled := *less
	b.Complete(&filled, today)
	b.Tree.Central(&filled, b.World(today))
	for _, l := range opened {
		x, numeric := l.At(told).Number()
		y, _ := l.At(&filled).Number()
		if !numeric || x != y {
			return false
		}
	}
	return true
}

func paths(all []*facts.Leaf) string {
	var out []string
	for _, l := range all {
		out = append(out, l.Path)
	}
	return strings.Join(out, " ")
}

// What is said not to matter does not: drawn at any value, the same is
// recommended at the same price.
func TestALeafThatDoesNotMatterMovesNothing(t *testing.T) {
	books := openBooks(t)
	var still []*facts.Leaf
	for _, l := range facts.Leaves() {
		if !quote.Matters(l) && l.Kind != facts.Text && l.Kind != facts.Day {
			still = append(still, l)
		}
	}
	rapid.Check(t, func(r *rapid.T) {
		known := toldSome(r, t)
		books.Complete(&known, today)
		filled := known
		books.Tree.Central(&filled, books.World(today))
		before, err := quote.Price(books, &filled, today)
		if err != nil {
			r.Skip(err)
		}
		l := rapid.SampledFrom(still).Draw(r, "leaf")
		if l.At(&known).Has() {
			r.Skip("told")
		}
		x := rapid.Float64Range(l.Low, max(l.Low, min(l.High, 1e6))).Draw(r, "value")
		l.At(&filled).DeriveNumber(x, facts.FromDraw)
		after, err := quote.Price(books, &filled, today)
		require.NoError(r, err)
		require.Equal(r, before, after, l.Path)
		moved := known
		l.At(&moved).DeriveNumber(x, facts.FromDraw)
		books.Complete(&moved, today)
		for _, other := range facts.Leaves() {
			if quote.Matters(other) {
				require.Equal(r, other.At(&known).Value(), other.At(&moved).Value(), "%s from %s", other.Path, l.Path)
			}
		}
	})
}

// The figures of a draw are those of the quote it stands for.
func TestADrawSaysWhatTheQuoteWouldSay(t *testing.T) {
	books := openBooks(t)
	rapid.Check(t, func(r *rapid.T) {
		told := toldSome(r, t)
		filled := told
		books.Complete(&filled, today)
		books.Tree.Central(&filled, books.World(today))
		q, err := quote.Compose(books, quote.Household{Told: told, Filled: filled}, today)
		if err != nil {
			r.Skip(err)
		}
		d, err := quote.Price(books, &filled, today)
		require.NoError(r, err)
		require.Equal(r, q.Outcome(), d)
	})
}
