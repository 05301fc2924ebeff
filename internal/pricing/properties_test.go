package pricing_test

import (
	"math"
	"slices"
	"testing"

	"daybreak/internal/pricing"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

var segments = []pricing.SegmentKind{pricing.Open, pricing.Fished, pricing.Attic, pricing.Crawl, pricing.Surface}

// drawWork draws a circuit as a designer might hand it over.
func drawWork(t *rapid.T) pricing.Work {
	w := garage()
	w.Conditions = pricing.Conditions{
		House:   rapid.SampledFrom([]pricing.Condition{"", "house.before_1960", "house.knob_and_tube_or_plaster"}).Draw(t, "house"),
		Attic:   rapid.SampledFrom([]pricing.Condition{"", "attic.low_or_deep_insulation"}).Draw(t, "attic"),
		Masonry: rapid.SampledFrom([]pricing.Condition{"", "masonry.poured_or_stone"}).Draw(t, "masonry"),
		Panel:   rapid.SampledFrom([]pricing.Condition{"", "panel.obsolete_type"}).Draw(t, "panel"),
	}
	n := rapid.IntRange(1, 4).Draw(t, "segments")
	w.Route.Segments = nil
	for range n {
		w.Route.Segments = append(w.Route.Segments, pricing.Segment{
			Kind: rapid.SampledFrom(segments).Draw(t, "kind"), Feet: unit.Feet(rapid.IntRange(0, 2000).Draw(t, "quarter feet")) / 4,
		})
	}
	if rapid.Bool().Draw(t, "raceway") {
		w.Design.Wiring = brick().Design.Wiring
	}
	w.Visits = rapid.IntRange(1, 3).Draw(t, "visits")
	return w
}

func drawPlace(t *rapid.T, book *pricing.Book) pricing.Place {
	on, _ := unit.ParseDate("2026-11-25")
	p, _ := book.At(rapid.SampledFrom(book.PostalCodes()).Draw(t, "postal"), on.Plus(rapid.IntRange(0, 400).Draw(t, "days")))
	return p
}

// The printed bill is added again by a reader who knows nothing of the engine.
func TestPrintedLinesAddUp(t *testing.T) {
	book := demo(t)
	rapid.Check(t, func(t *rapid.T) {
		bill, err := pricing.Price(book, drawWork(t), drawPlace(t, book), nil)
		require.NoError(t, err)
		for s := range bill.Total {
			var sum int64
			for _, l := range bill.Lines {
				sum += l.Amount[s]
			}
			require.Equal(t, sum, bill.Subtotal[s])
			require.Equal(t, bill.Total[s], bill.Subtotal[s]+bill.Permit[s]+bill.Tax[s])
		}
		cut := rapid.IntRange(0, len(bill.Lines)).Draw(t, "cut")
		parts := [2]pricing.Triple{}
		for i, l := range bill.Lines {
			half := 0
			if i >= cut {
				half = 1
			}
			parts[half] = pricing.SumOf(parts[half], l.Amount)
		}
		require.Equal(t, bill.Sum, pricing.SumOf(parts[0], parts[1]), "splitting changes no sum")
	})
}

func TestLowLikelyHighRise(t *testing.T) {
	book := demo(t)
	rapid.Check(t, func(t *rapid.T) {
		bill, err := pricing.Price(book, drawWork(t), drawPlace(t, book), nil)
		require.NoError(t, err)
		for _, l := range bill.Lines {
			if l.Code != "minimum" { // the difference falls where labour rises
				require.True(t, slices.IsSorted(l.UnitPrice[:]), l.Code)
				require.True(t, slices.IsSorted(l.Amount[:]), l.Code)
			}
		}
		for _, sums := range []pricing.Triple{bill.Subtotal, bill.Permit, bill.Tax, bill.Total} {
			require.True(t, slices.IsSorted(sums[:]))
		}
		require.LessOrEqual(t, bill.Spread.P10, bill.Spread.Mean)
		require.LessOrEqual(t, bill.Spread.Mean, bill.Spread.P90)
		require.False(t, math.IsNaN(bill.AllIn.P90))
	})
}

// For the check bills, whose lines are not much skewed, the sum of lows lies
// outside P10 and P90 of the sum. It is no theorem: a bill that rests on one
// long-tailed line may turn it round.
func TestSumsOfLowsAreNoQuantiles(t *testing.T) {
	v := readBills(t)
	for _, c := range v.Bills {
		book, place := bookOf(t, v.Books[c.Book], c.terms("p10_p90"))
		bill, err := pricing.Price(book, c.work(), place, nil)
		require.NoError(t, err)
		if slices.ContainsFunc(bill.Lines, func(l pricing.Line) bool { return l.Code == "minimum" }) {
			continue // the floor lifts the sum of lows
		}
		require.LessOrEqual(t, float64(bill.Subtotal[pricing.Low]), bill.Spread.P10, c.ID)
		require.GreaterOrEqual(t, float64(bill.Subtotal[pricing.High]), bill.Spread.P90, c.ID)
	}
}

func TestWholeRollsNeverCostLessThanCutLengths(t *testing.T) {
	v := readBills(t)
	cut, rolls := v.Bills[0], v.Bills[0]
	rolls.BillBy = "purchased"
	for feet := unit.Feet(1); feet < 200; feet += 7 {
		var totals []pricing.Triple
		for _, c := range []vectorBill{cut, rolls} {
			book, place := bookOf(t, v.Books[c.Book], c.terms("p10_p90"))
			w := c.work()
			w.Route.Segments[0].Feet = feet
			bill, err := pricing.Price(book, w, place, nil)
			require.NoError(t, err)
			totals = append(totals, bill.Total)
			p := bill.Lines[2].Purchase
			require.GreaterOrEqual(t, p.Bought, p.Used)
			require.Less(t, p.Bought-p.Used, p.Pack)
		}
		for s := range totals[0] {
			require.GreaterOrEqual(t, totals[1][s], totals[0][s])
		}
	}
}

func TestALongerRunNeverCostsLess(t *testing.T) {
	book := demo(t)
	rapid.Check(t, func(t *rapid.T) {
		w, place := drawWork(t), drawPlace(t, book)
		before, err := pricing.Estimate(book, w, place)
		require.NoError(t, err)
		longer := w
		longer.Route.Segments = slices.Clone(w.Route.Segments)
		i := rapid.IntRange(0, len(longer.Route.Segments)-1).Draw(t, "segment")
		longer.Route.Segments[i].Feet += unit.Feet(rapid.IntRange(1, 40).Draw(t, "quarter feet more")) / 4
		after, err := pricing.Estimate(book, longer, place)
		require.NoError(t, err)
		for s := range before.Total {
			require.GreaterOrEqual(t, after.Total[s], before.Total[s])
		}
	})
}

func TestAHarderHouseNeverCostsLess(t *testing.T) {
	book := demo(t)
	rapid.Check(t, func(t *rapid.T) {
		w, place := drawWork(t), drawPlace(t, book)
		w.Conditions.House = ""
		easy, err := pricing.Estimate(book, w, place)
		require.NoError(t, err)
		w.Conditions.House = "house.knob_and_tube_or_plaster"
		hard, err := pricing.Estimate(book, w, place)
		require.NoError(t, err)
		require.GreaterOrEqual(t, hard.Total[pricing.Likely], easy.Total[pricing.Likely])
	})
}

func TestNothingToDoCostsNothing(t *testing.T) {
	book := demo(t)
	for _, postal := range book.PostalCodes() {
		bill, err := pricing.Price(book, pricing.Work{}, demoPlace(t, book, postal), nil)
		require.NoError(t, err)
		require.Empty(t, bill.Lines)
		require.Equal(t, pricing.Triple{}, bill.Total)
		require.Equal(t, pricing.Spread{}, bill.AllIn)
	}
}

func TestEquipmentOfTheBuyerKeepsItsMounting(t *testing.T) {
	book := demo(t)
	place := demoPlace(t, book, "00010")
	shop, err := pricing.Price(book, garage(), place, nil)
	require.NoError(t, err)
	w := garage()
	w.Design.Equipment.Supply = pricing.BuyerSupplies
	buyer, err := pricing.Price(book, w, place, nil)
	require.NoError(t, err)
	require.Equal(t, shop.Lines[1:], buyer.Lines)
}

func TestTaxDoesNotFollowTheOrderOfLines(t *testing.T) {
	book := demo(t)
	place := demoPlace(t, book, "00010")
	w := brick()
	one, err := pricing.Estimate(book, w, place)
	require.NoError(t, err)
	c := w.Design.Wiring[0].Conductors
	w.Design.Wiring = slices.Clone(w.Design.Wiring)
	w.Design.Wiring[0].Conductors = []pricing.Conductors{c[1], c[0]}
	two, err := pricing.Estimate(book, w, place)
	require.NoError(t, err)
	require.Equal(t, one.Tax, two.Tax)
}

// Shares add to the total, lie within one unit of their exact part, and go by
// the sign of the total.
func TestAllocationProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		total := rapid.Int64Range(-1_000_000, 1_000_000).Draw(t, "total")
		weights := rapid.SliceOfN(rapid.Int64Range(0, 1_000_000), 1, 12).Draw(t, "weights")
		shares := pricing.Allocate(total, weights)
		var sum, weight int64
		for i := range shares {
			sum += shares[i]
			weight += weights[i]
		}
		require.Equal(t, total, sum)
		for i := range shares {
			require.False(t, shares[i] != 0 && (shares[i] < 0) != (total < 0))
			if weight > 0 {
				exact := float64(total) * float64(weights[i]) / float64(weight)
				require.Less(t, math.Abs(float64(shares[i])-exact), 1.0001)
				require.False(t, weights[i] == 0 && shares[i] != 0)
			}
		}
	})
}

func TestBadWorkIsRefusedByField(t *testing.T) {
	book := demo(t)
	place := demoPlace(t, book, "00010")
	for field, change := range map[string]func(*pricing.Work){
		"route.segments[0].ft":                 func(w *pricing.Work) { w.Route.Segments[0].Feet = unit.Feet(math.Inf(1)) },
		"route.segments[0].kind":               func(w *pricing.Work) { w.Route.Segments[0].Kind = 99 },
		"route.segments[0].wiring":             func(w *pricing.Work) { w.Route.Segments[0].Wiring = 3 },
		"route.segments":                       func(w *pricing.Work) { w.Route.Segments = make([]pricing.Segment, 40) },
		"route.panel_drop_ft":                  func(w *pricing.Work) { w.Route.PanelDrop = -1 },
		"route.device_drop_ft":                 func(w *pricing.Work) { w.Route.DeviceDrop = unit.Feet(math.NaN()) },
		"route.firestops":                      func(w *pricing.Work) { w.Route.Firestops = -1 },
		"route.surface":                        func(w *pricing.Work) { w.Route.Patches, w.Route.Surface = 1, "marble" },
		"visits":                               func(w *pricing.Work) { w.Visits = 1000 },
		"permits":                              func(w *pricing.Work) { w.Permits = 200 },
		"discount.amount":                      func(w *pricing.Work) { w.Discount.Minor = -1 },
		"design.breaker":                       func(w *pricing.Work) { w.Design.Breaker.Amps = 41 },
		"design.disconnect":                    func(w *pricing.Work) { w.Design.Disconnect.Amps = unit.Amps(math.NaN()) },
		"design.management":                    func(w *pricing.Work) { w.Design.Management = pricing.Management{Method: "hope"} },
		"design.service":                       func(w *pricing.Work) { w.Design.Service.To = 201 },
		"design.equipment":                     func(w *pricing.Work) { w.Design.Equipment.Output = 33 },
		"design.equipment.setting_amps":        func(w *pricing.Work) { w.Design.Equipment.Setting = -1 },
		"design.wiring":                        func(w *pricing.Work) { w.Design.Wiring = make([]pricing.Wiring, 5) },
		"design.wiring[0].quarter_bends":       func(w *pricing.Work) { w.Design.Wiring[0].QuarterBends = 1e6 },
		"design.wiring[0].conductors[0].count": func(w *pricing.Work) { w.Design.Wiring[0].Conductors = []pricing.Conductors{{Size: "6", Count: -2}} },
		"design.termination.receptacle": func(w *pricing.Work) {
			w.Design.Termination = pricing.Termination{Receptacle: "10-50", Extent: pricing.NewReceptacle}
		},
		"design.tandems":                      func(w *pricing.Work) { w.Design.Tandems.Count = -1 },
		"design.old_circuits":                 func(w *pricing.Work) { w.Design.OldCircuits = 99 },
		"design.feeder.wiring":                func(w *pricing.Work) { w.Design.Feeder.Wiring = make([]pricing.Wiring, 5) },
		"design.feeder.wiring[0].bodies":      func(w *pricing.Work) { w.Design.Feeder.Wiring = []pricing.Wiring{{Bodies: -1}} },
		"design.feeder.segments[0].wiring":    func(w *pricing.Work) { w.Design.Feeder.Segments = []pricing.Segment{{}} },
		"design.feeder.moved":                 func(w *pricing.Work) { w.Design.Feeder.Moved = make([]pricing.Breaker, 13) },
		"design.feeder.moved[0]":              func(w *pricing.Work) { w.Design.Feeder.Moved = make([]pricing.Breaker, 1) },
		"design.feeder.refed":                 func(w *pricing.Work) { w.Design.Feeder.Refed = make([]pricing.Breaker, 13) },
		"design.feeder.board":                 func(w *pricing.Work) { w.Design.Feeder.Board.Amps = 1000 },
		"design.feeder.board.spaces":          func(w *pricing.Work) { w.Design.Feeder.Board.Spaces = -1 },
		"design.feeder.panel_drop_ft":         func(w *pricing.Work) { w.Design.Feeder.PanelDrop = unit.Feet(math.NaN()) },
		"design.feeder.board_drop_ft":         func(w *pricing.Work) { w.Design.Feeder.BoardDrop = -1 },
		"design.feeder.breaker":               func(w *pricing.Work) { w.Design.Feeder.Breaker.Amps = unit.Amps(math.Inf(1)) },
		"design.feeder.electrodes.ft":         func(w *pricing.Work) { w.Design.Feeder.Electrodes.Feet = unit.Feet(math.NaN()) },
		"design.feeder.electrodes":            func(w *pricing.Work) { w.Design.Feeder.Electrodes = pricing.Electrodes{Size: "12", Feet: 10} },
		"design.service.electrodes.gas_pipes": func(w *pricing.Work) { w.Design.Service.Electrodes.GasPipes = -1 },
		"design.service.from":                 func(w *pricing.Work) { w.Design.Service.From = unit.Amps(math.NaN()) },
		"asides":                              func(w *pricing.Work) { w.Asides = make([]pricing.Aside, 9) },
		"asides.ft":                           func(w *pricing.Work) { w.Asides = []pricing.Aside{{What: "utility_lateral", Feet: -1}} },
		"design.junctions":                    func(w *pricing.Work) { w.Design.Junctions = []pricing.Junction{{Size: "1x1x1"}} },
		"conditions.house":                    func(w *pricing.Work) { w.Conditions.House = "house.haunted" },
		"conditions.panel":                    func(w *pricing.Work) { w.Conditions.Panel = "soil.loam" },
	} {
		w := garage()
		change(&w)
		_, err := pricing.Price(book, w, place, nil)
		f := requireFault(t, err)
		require.Equal(t, field, f.Field)
		require.NotEmpty(t, f.Accepted)
	}
	w := garage()
	w.Design.Feeder.Board = pricing.Panelboard{Amps: 200, Spaces: 40, Outdoor: true, Main: true}
	_, err := pricing.Price(book, w, place, nil)
	require.Contains(t, requireFault(t, err).Got, "200 A, 40 spaces, outdoor, main breaker")
	_, err = book.At("99999", date(t, "2026-11-25"))
	require.Equal(t, "place.postal_code", requireFault(t, err).Field)
}
