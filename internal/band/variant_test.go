package band_test

import (
	"testing"

	"daybreak/internal/band"
	"daybreak/internal/charging"
	"daybreak/internal/facts"
	"daybreak/internal/panel"
	"daybreak/internal/quote"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

func quoteOf(t *testing.T, id string, change func(*facts.Facts)) quote.Quote {
	t.Helper()
	for _, h := range households(t) {
		if h.id == id {
			change(&h.told)
			q, err := band.Quote(openBooks(t), h.told, h.asOf)
			require.NoError(t, err)
			return q
		}
	}
	t.Fatalf("no household %s", id)
	return quote.Quote{}
}

func best(t *testing.T, q *quote.Quote) *quote.Option {
	t.Helper()
	for i := range q.Options {
		if q.Options[i].Role&quote.BestFit != 0 {
			return &q.Options[i]
		}
	}
	t.Fatal("no best fit")
	return nil
}

// The edition changes the answer: under the 7 200 VA floor of 2023 no setting
// to 24 A fits the 60 A cottage, and energy management is the offer.
// Source: NEC 220.57 (2023), from memory; V06.
func TestTheEditionChangesTheAnswer(t *testing.T) {
	q := quoteOf(t, "V06", func(f *facts.Facts) { f.Place.CodeEdition = facts.Tell(facts.CodeEdition2023) })
	require.True(t, best(t, &q).Managed)
	judged := 0
	for _, o := range q.Others {
		if o.Way == quote.Hardwired && !o.Managed && o.Setting <= 24 {
			judged++
			require.Equal(t, panel.AskTheAHJ, o.Panel.Verdict)
			require.InDelta(t, 65.0, float64(o.Panel.Methods[panel.ExistingDwelling].Amps[panel.Continuous]), 0.05)
		}
	}
	require.Equal(t, 2, judged)
}

// A renter without leave whose miles outgrow the outlet hears where it stops
// being enough, and is not offered wire.
// Source: V14; 22.7 short days at 40 miles.
func TestARenterHearsWhereTheOutletStopsBeingEnough(t *testing.T) {
	q := quoteOf(t, "V14", func(f *facts.Facts) { f.Driving.WeekdayMiles = facts.Tell(unit.Miles(60)) })
	b := best(t, &q)
	require.Equal(t, quote.ExistingOutlet, b.Way)
	require.False(t, b.RefillsWorst)
	require.Equal(t, "quote.why.most_there_is", b.Why.Key)
	require.NotEqual(t, quote.ReadyToBook, q.Standing)
}

// A breaker handle alone is never trusted on a welder's circuit.
// Source: NEC 630.11, 630.12; V05.
func TestAWelderCircuitIsNotOfferedUntilItsWireIsSeen(t *testing.T) {
	q := quoteOf(t, "V05", func(f *facts.Facts) { f.Outlet.WireAWG = facts.DontKnow[facts.WireSize]() })
	for i := range q.Options {
		require.NotEqual(t, quote.ExistingOutlet, q.Options[i].Way)
	}
}

// A hybrid is told the outlet is enough; the same home with a car that needs
// more is not.
func TestTheNeedChoosesTheLevel(t *testing.T) {
	q := quoteOf(t, "V02", func(f *facts.Facts) {
		f.Vehicle.Model = facts.Tell("mid-sedan-long")
		f.Driving.WeekdayMiles = facts.Tell(unit.Miles(90))
	})
	require.Equal(t, charging.Level2, best(t, &q).Level)
	require.Equal(t, panel.Fits, best(t, &q).Panel.Verdict)
}

// A wish for less is kept to; a wish for more than the house carries is not.
func TestAWishIsKeptWithinWhatFits(t *testing.T) {
	q := quoteOf(t, "V01", func(f *facts.Facts) { f.Wishes.OutputAmps = facts.Tell(unit.Amps(24)) })
	require.Equal(t, unit.Amps(24), best(t, &q).Setting)
	q = quoteOf(t, "V01", func(f *facts.Facts) { f.Wishes.OutputAmps = facts.Tell(unit.Amps(48)) })
	require.Equal(t, unit.Amps(48), best(t, &q).Setting)
	q = quoteOf(t, "V16", func(f *facts.Facts) { f.Wishes.OutputAmps = facts.Tell(unit.Amps(80)) })
	require.Equal(t, unit.Amps(32), best(t, &q).Setting)
}

// A leaf that decides and is open makes a ballpark, with its name first.
func TestAnOpenLeafThatDecidesMakesABallpark(t *testing.T) {
	q := quoteOf(t, "V01", func(f *facts.Facts) {
		f.Route.PanelToChargerFeet = facts.DontKnow[unit.Feet]()
		f.Route.OpenFeet, f.Route.FishFeet = facts.DontKnow[unit.Feet](), facts.DontKnow[unit.Feet]()
	})
	require.Equal(t, quote.Ballpark, q.Standing)
	require.Equal(t, "quote.standing.open_leaf", q.Reasons[0].Key)
	require.Greater(t, q.Band.Draws, 1)
	require.Less(t, q.Band.P10, q.Band.P50)
	require.Less(t, q.Band.P50, q.Band.P90)
}
