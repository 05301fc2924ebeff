package pricing_test

import (
	"testing"

	"daybreak/internal/panel"
	"daybreak/internal/pricing"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

func TestEveryRuleHasWords(t *testing.T) {
	w, err := working.LoadWords(working.Embedded(), "en")
	require.NoError(t, err)
	for _, key := range pricing.Rules() {
		require.True(t, w.Has(key), key)
	}
	bill, err := pricing.Price(demo(t), trench(), demoPlace(t, demo(t), "00010"), nil)
	require.NoError(t, err)
	for _, l := range bill.Lines {
		require.True(t, w.Has(l.Why), l.Code)
		require.True(t, l.From == "" || w.Has(l.From), "the design step %s of %s", l.From, l.Code)
	}
	for _, feed := range []string{"oh", "ug"} {
		for _, key := range utilityKeys(t, feed) {
			require.True(t, w.Has(key), key)
		}
	}
	for _, gap := range []pricing.Gap{pricing.GapRun, pricing.GapAppliance, pricing.GapRating, pricing.GapFeeder} {
		require.True(t, w.Has("pricing.gap."+string(gap)), gap)
	}
	for _, key := range []string{"pricing.book_expired", "pricing.book_not_yet", "pricing.tax_row_not_in_force"} {
		require.True(t, w.Has(key), key)
	}
}

// Every step of a real bill fills its formula: no name is left in braces.
func TestEveryStepFillsItsFormula(t *testing.T) {
	w, err := working.LoadWords(working.Embedded(), "en")
	require.NoError(t, err)
	book := demo(t)
	for _, postal := range book.PostalCodes() {
		for _, work := range stepWorks(t) {
			var sheet working.Sheet
			_, err := pricing.Price(book, work, demoPlace(t, book, postal), &sheet)
			require.NoError(t, err)
			for _, s := range sheet.Steps {
				require.NotContains(t, w.Formula(s), "{", s.Rule)
				require.NotContains(t, w.Sentence(s), "{", s.Rule)
				require.NotNil(t, s.Source)
				require.True(t, s.Source.Status.Known(), s.Rule)
			}
		}
	}
}

// utilityKeys are the words beside an upgrade, and beside every load a measure
// may take out.
func utilityKeys(t *testing.T, feed string) []string {
	up := remedy(panel.UpgradeService, pricing.House{Feed: feed, Lateral: 20}).Work
	for _, load := range []panel.LoadKind{panel.Spa, panel.PoolHeater, panel.Sauna, panel.Kiln, panel.Welder, panel.Dryer, panel.WaterHeater, panel.Range} {
		up.Asides = append(up.Asides[:len(up.Asides):len(up.Asides)],
			pricing.FromMeasure(&panel.Measure{Kind: panel.RemoveLoad, Load: load}, &pricing.House{}).Work.Asides...)
		if len(up.Asides) == 8 {
			break
		}
	}
	bill, err := pricing.Price(demo(t), up, demoPlace(t, demo(t), "00010"), nil)
	require.NoError(t, err)
	keys := bill.Utility.Steps
	for _, a := range bill.Asides {
		keys = append(keys, a.Key)
	}
	for _, load := range []panel.LoadKind{panel.Range, panel.WaterHeater, panel.ExistingCharger} {
		keys = append(keys, "pricing.aside.convert_"+load.String())
	}
	return keys
}

// stepWorks together put every rule into a working.
func stepWorks(t *testing.T) []pricing.Work {
	works := []pricing.Work{
		garage(), brick(), trench(), upgrade(), {}, detachedGarage(), fullPanel(t), dryerShared(t),
		garage().With(remedy(panel.TandemBreakers, pricing.House{}).Work), remedy(panel.NewPanelboard, pricing.House{Surge: true}).Work,
		serviceUpgrade(t, 100, 200, pricing.House{Surge: true, EmergencyDisconnect: true, WaterPipes: 1}),
	}
	for _, w := range append(feederWirings[:len(feederWirings):len(feederWirings)], pricing.Wiring{
		Method: pricing.LFMC, TradeSize: "3/4", Conductors: sixAndTen(),
	}) {
		works = append(works, job(standard60(), w, pricing.Segment{Kind: pricing.Surface, Feet: 6}))
	}
	return works
}

// Between them they leave out only what depends on the place and the house.
func TestStepWorksPutEveryRuleIntoAWorking(t *testing.T) {
	book := demo(t)
	seen := map[string]bool{}
	works := append(stepWorks(t), plasterJob(), trench())
	pedestal := garage()
	pedestal.Design.Equipment.Mount = pricing.MountPedestal
	outdoor := outletJob("14-50", gfci(50, 2), nm("6", 3), pricing.SurfaceWork, pricing.Segment{Kind: pricing.Open, Feet: 20})
	outdoor.Design.Junctions = []pricing.Junction{{}}
	outdoor.Design.Splices, outdoor.Design.Wiring[0].NailPlates = 2, 2
	outdoor.Discount = pricing.Discount{Minor: 100, Over: pricing.Classes(pricing.ClassLabour)}
	swap := pricing.Work{Design: pricing.Design{Termination: pricing.Termination{Receptacle: "14-50", Extent: pricing.NewReceptacle}}, Visits: 1}
	for _, postal := range book.PostalCodes() {
		for _, work := range append(works, pedestal, outdoor, swap, remedy(panel.UpgradeService, pricing.House{}).Work) {
			var sheet working.Sheet
			_, err := pricing.Price(book, work, demoPlace(t, book, postal), &sheet)
			require.NoError(t, err)
			for _, s := range sheet.Steps {
				seen[s.Rule] = true
			}
		}
	}
	for _, rule := range pricing.Rules() {
		switch rule {
		case "pricing.permit_per_amp", "pricing.tax_none":
			continue // no place of the demo shop has them; the check bills do
		}
		require.True(t, seen[rule], rule)
	}
}
