package pricing_test

import (
	"math"
	"strings"
	"testing"

	"daybreak/internal/panel"
	"daybreak/internal/pricing"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// kinds are the measures in the order of what they cost.
func kinds() (out []panel.MeasureKind) {
	for k := panel.FindPeak; k <= panel.UpgradeService; k++ {
		out = append(out, k)
	}
	return out
}

// remedy is a measure as a household of one's own would meet it.
func remedy(k panel.MeasureKind, h pricing.House) pricing.Remedy {
	m := panel.Measure{Kind: k, Setting: 24, Load: panel.Dryer, Service: 200}
	if h.Rating == 0 {
		h.Rating = 100
	}
	return pricing.FromMeasure(&m, &h)
}

// Each measure stands where its work belongs, and everything it asks for is
// priced.
func TestEveryMeasureIsPricedWhereItBelongs(t *testing.T) {
	book := demo(t)
	circuit := hardwiredAt(40, 24, "8", pricing.Segment{Kind: pricing.Open, Feet: 25})
	run := []pricing.Segment{{Kind: pricing.Fished, Feet: 20}}
	for kind, want := range map[panel.MeasureKind]pricing.Standing{
		panel.FindPeak: pricing.NoWork, panel.OtherMethod: pricing.NoWork, panel.LowerSetting: pricing.NoWork,
		panel.SharingSwitch: pricing.Instead, panel.ManageEnergy: pricing.Joined, panel.RemoveLoad: pricing.Joined,
		panel.TandemBreakers: pricing.Joined, panel.Subpanel: pricing.Joined,
		panel.NewPanelboard: pricing.Apart, panel.UpgradeService: pricing.Apart,
	} {
		t.Run(kind.String(), func(t *testing.T) {
			house := pricing.House{Surge: true, EmergencyDisconnect: true, WaterPipes: 1, Appliance: pricing.Appliance{Run: run}}
			r := remedy(kind, house)
			require.Equal(t, want, r.Standing)
			require.Empty(t, r.Unpriced)
			work := r.Work
			if want == pricing.Joined {
				work = circuit.With(r.Work)
			}
			for _, postal := range book.PostalCodes() {
				bill, err := pricing.Price(book, work, demoPlace(t, book, postal), nil)
				require.NoError(t, err)
				require.Equal(t, want == pricing.NoWork, bill.Total == pricing.Triple{})
				require.Equal(t, want == pricing.Apart, bill.Utility != nil)
			}
		})
	}
}

func TestAMeasureBringsItsLines(t *testing.T) {
	book := demo(t)
	place := demoPlace(t, book, "00010")
	circuit := hardwiredAt(40, 24, "8", pricing.Segment{Kind: pricing.Open, Feet: 25})
	for name, c := range map[string]struct {
		work  pricing.Work
		codes string // among the lines, in this order
	}{
		"subpanel": {circuit.With(remedy(panel.Subpanel, pricing.House{}).Work),
			"brk-2p-60 emt-1 thhn-6 subp-60-4-in ground-bar brk-1p-20 thhn-12 brk-2p-40 panel-directory lab.subpanel lab.move_circuit"},
		"subpanel, one space free": {circuit.With(remedy(panel.Subpanel, pricing.House{Free: 1, Outdoor: true}).Work),
			"brk-2p-60 emt-1-connector-raintight subp-70-4-ou brk-1p-20 lab.move_circuit"},
		"tandems":         {circuit.With(remedy(panel.TandemBreakers, pricing.House{}).Work), "brk-tandem-20 brk-2p-40 panel-directory lab.tandem_make_space"},
		"managed":         {circuit.With(remedy(panel.ManageEnergy, pricing.House{}).Work), "evse-40-hw-j3400-net ems-measure-kit ems-label lab.load_manage_ct"},
		"buyer's charger": {circuit.With(remedy(panel.ManageEnergy, pricing.House{Equipment: pricing.Equipment{Supply: pricing.BuyerSupplies}}).Work), "ems-shed-60 ems-label"},
		"three-wire dryer": {remedy(panel.SharingSwitch, pricing.House{Appliance: pricing.Appliance{
			Receptacle: "10-30", Run: []pricing.Segment{{Kind: pricing.Open, Feet: 20}},
		}}).Work, "brk-2p-30 nm-b-10-3 rec-14-30-res ems-switch-30 ems-label lab.demo_old_circuit lab.load_switch"},
		"four-wire dryer": {remedy(panel.SharingSwitch, pricing.House{
			Equipment: pricing.Equipment{Supply: pricing.ShopSupplies},
			Appliance: pricing.Appliance{Receptacle: "14-30", ToCharger: []pricing.Segment{{Kind: pricing.Open, Feet: 12}}},
		}).Work, "nm-b-10-2 ems-switch-30 lab.load_switch"},
		"upgrade": {remedy(panel.UpgradeService, pricing.House{Surge: true, EmergencyDisconnect: true, WaterPipes: 1, GasPipes: 1}).Work,
			"svc-100-200-oh emerg-disc-200 bare-cu-4 water-clamp gas-bond-clamp panel-directory lab.service_100_200_oh lab.disconnect lab.surge_device lab.bond_water_gas lab.utility_coordination"},
		"fuses": {remedy(panel.NewPanelboard, pricing.House{Surge: true}).Work, "panel-swap-kit-200 spd-service panel-directory lab.panel_swap_same lab.surge_device"},
	} {
		t.Run(name, func(t *testing.T) {
			bill, err := pricing.Price(book, c.work, place, nil)
			require.NoError(t, err)
			rest := codesOf(bill)
			for _, code := range strings.Fields(c.codes) {
				i := indexOf(rest, code)
				require.GreaterOrEqual(t, i, 0, "%s in %v", code, rest)
				rest = rest[i+1:]
			}
		})
	}
}

func codesOf(b pricing.Bill) (codes []string) {
	for _, l := range b.Lines {
		codes = append(codes, l.Code)
	}
	return codes
}

func indexOf(list []string, want string) int {
	for i, s := range list {
		if s == want {
			return i
		}
	}
	return -1
}

// The circuit may not stand on an appliance nobody can share, nor a service be
// sold that no kit is made for.
func TestWhatCannotBePricedIsNamed(t *testing.T) {
	old := pricing.FromMeasure(&panel.Measure{Kind: panel.NewPanelboard}, &pricing.House{Rating: 400})
	require.Equal(t, []pricing.Gap{pricing.GapRating}, old.Unpriced)
	for want, m := range map[pricing.Gap]panel.Measure{
		pricing.GapAppliance: {Kind: panel.SharingSwitch, Load: panel.Spa, Setting: 24},
		pricing.GapRun:       {Kind: panel.SharingSwitch, Load: panel.Dryer, Setting: 24},
		pricing.GapRating:    {Kind: panel.UpgradeService, Service: 800},
		pricing.GapFeeder:    {Kind: panel.Subpanel},
	} {
		h := pricing.House{Charger: pricing.Breaker{Amps: 125, Poles: 2}}
		require.Equal(t, []pricing.Gap{want}, pricing.FromMeasure(&m, &h).Unpriced)
	}
}

// A switch beside the charger carries its plug: nothing is wired on.
func TestAChargerBesideTheSwitchIsPluggedIn(t *testing.T) {
	r := pricing.FromMeasure(&panel.Measure{Kind: panel.SharingSwitch, Load: panel.Dryer, Setting: 24}, &pricing.House{
		Equipment: pricing.Equipment{Supply: pricing.ShopSupplies, Plug: "14-30"}, Appliance: pricing.Appliance{Receptacle: "14-30"},
	})
	require.Empty(t, r.Unpriced)
	require.Equal(t, pricing.MountPlug, r.Work.Design.Equipment.Mount)
	require.Empty(t, r.Work.Design.Wiring)
	bill, err := pricing.Price(demo(t), r.Work, demoPlace(t, demo(t), "00010"), nil)
	require.NoError(t, err)
	require.Equal(t, "evse-24-14-30-j1772", bill.Lines[0].Code)
}

// Whatever a house may plausibly ask for is sold by a book that is complete.
func TestWhatAMeasureAsksIsInACompleteBook(t *testing.T) {
	book := demo(t)
	amps := rapid.SampledFrom([]unit.Amps{15, 20, 30, 40, 50, 60, 80, 100})
	yes := rapid.Bool()
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.SampledFrom(kinds()).Draw(t, "kind")
		m := panel.Measure{
			Kind: kind, Load: rapid.SampledFrom([]panel.LoadKind{panel.Dryer, panel.Range, panel.Spa}).Draw(t, "load"),
			Setting: rapid.SampledFrom([]unit.Amps{16, 24, 32, 40, 48, 80}).Draw(t, "setting"),
			Service: rapid.SampledFrom([]unit.Amps{100, 125, 150, 200, 320, 400}).Draw(t, "service"),
		}
		run := []pricing.Segment{{Kind: rapid.SampledFrom(segments).Draw(t, "kind of run"), Feet: unit.Feet(rapid.IntRange(0, 90).Draw(t, "feet"))}}
		h := pricing.House{
			Charger: pricing.Breaker{Amps: amps.Draw(t, "breaker"), Poles: rapid.IntRange(1, 2).Draw(t, "poles")},
			Rating:  rapid.SampledFrom([]unit.Amps{0, 30, 60, 70, 100, 125, 150, 200}).Draw(t, "rating"),
			Feed:    rapid.SampledFrom([]string{"", "oh", "ug"}).Draw(t, "feed"), Outdoor: yes.Draw(t, "outdoor"),
			Free: rapid.IntRange(0, 4).Draw(t, "free"), Needed: rapid.IntRange(0, 2).Draw(t, "needed"),
			Surge: yes.Draw(t, "surge"), EmergencyDisconnect: yes.Draw(t, "disconnect"),
			WaterPipes: rapid.IntRange(0, 2).Draw(t, "water"), GasPipes: rapid.IntRange(0, 1).Draw(t, "gas"),
			Appliance: pricing.Appliance{Receptacle: rapid.SampledFrom([]string{"", "10-30", "14-30", "10-50", "14-50"}).Draw(t, "outlet"), Run: run},
		}
		if yes.Draw(t, "beyond the switch") {
			h.Appliance.ToCharger = run
		}
		_, err := pricing.Price(book, pricing.FromMeasure(&m, &h).Work, drawPlace(t, book), nil)
		require.NoError(t, err)
	})
}

// A lateral of the owner's, with its trench, comes near what such upgrades cost.
//
// Anchor: P10, median and P90 of an upgrade with an underground lateral, USD of
// 2026, engineering judgement.
func TestAnUndergroundLateralComesNearItsAnchor(t *testing.T) {
	book := demo(t)
	bill, err := pricing.Price(book, remedy(panel.UpgradeService, pricing.House{Feed: "ug", Lateral: 60, Surge: true, EmergencyDisconnect: true}).Work,
		demoPlace(t, book, "00010"), nil)
	require.NoError(t, err)
	all := pricing.SumOf(bill.Total, bill.Asides[0].Amount, bill.Asides[1].Amount)[pricing.Likely]
	require.True(t, all >= 6000_00 && all <= 30000_00, all)
}

func TestOthersWorkIsNamedAndNotInThePrice(t *testing.T) {
	book := demo(t)
	place := demoPlace(t, book, "00010")
	r := pricing.FromMeasure(&panel.Measure{Kind: panel.RemoveLoad, Load: panel.WaterHeater}, &pricing.House{})
	circuit := hardwiredAt(40, 32, "8", pricing.Segment{Kind: pricing.Open, Feet: 25})
	bill, err := pricing.Price(book, circuit.With(r.Work), place, nil)
	require.NoError(t, err)
	require.Equal(t, []pricing.AsideNote{{Key: "pricing.aside.convert_water_heater", What: "convert_water_heater"}}, bill.Asides)
	require.Contains(t, codesOf(bill), "lab.demo_old_circuit", "its old circuit is made safe by us")

	up := remedy(panel.UpgradeService, pricing.House{Feed: "ug", Lateral: 60}).Work
	bill, err = pricing.Price(book, up, place, nil)
	require.NoError(t, err)
	require.Equal(t, "utility-fee-allowance", bill.Asides[0].Code)
	require.Equal(t, pricing.Triple{0, 35000, 210000}, bill.Asides[0].Amount)
	require.Equal(t, "utility-lateral-ft", bill.Asides[1].Code)
	require.Positive(t, bill.Asides[1].Amount[pricing.Likely])
	require.Equal(t, [3]int{4, 10, 30}, bill.Utility.Weeks)
	require.Contains(t, bill.Utility.Steps, "pricing.utility.lateral")
	up.Asides = nil
	alone, err := pricing.Estimate(book, up, place)
	require.NoError(t, err)
	require.Equal(t, alone, bill.Figures, "never in the total")
}

// Charger and upgrade are two bills: their totals add exactly, and each has its
// own band, permit and tax.
func TestChargerAndUpgradeAddExactly(t *testing.T) {
	book := demo(t)
	rapid.Check(t, func(t *rapid.T) {
		place := drawPlace(t, book)
		house := pricing.House{
			Rating: rapid.SampledFrom([]unit.Amps{60, 100, 125, 150, 175, 200}).Draw(t, "from"),
			Feed:   rapid.SampledFrom([]string{"", "oh", "ug"}).Draw(t, "feed"), Surge: rapid.Bool().Draw(t, "surge"),
		}
		to := rapid.SampledFrom([]unit.Amps{200, 400}).Draw(t, "to")
		r := pricing.FromMeasure(&panel.Measure{Kind: panel.UpgradeService, Service: to}, &house)
		charger, err := pricing.Price(book, drawWork(t), place, nil)
		require.NoError(t, err)
		upgrade, err := pricing.Price(book, r.Work, place, nil)
		require.NoError(t, err)
		sum := pricing.SumOf(charger.Total, upgrade.Total)
		for s := range sum {
			require.Equal(t, charger.Total[s]+upgrade.Total[s], sum[s])
		}
		for _, b := range []pricing.Bill{charger, upgrade} {
			require.Positive(t, b.Permit[pricing.Likely])
			require.Less(t, b.AllIn.P10, b.AllIn.P90)
		}
		require.Equal(t, r.Work.Visits, 2)
	})
}

// Joining work to a circuit costs more than the circuit and less than two jobs.
func TestJoinedWorkSharesTheVisit(t *testing.T) {
	book := demo(t)
	rapid.Check(t, func(t *rapid.T) {
		w, place := drawWork(t), drawPlace(t, book)
		k := rapid.SampledFrom([]panel.MeasureKind{panel.Subpanel, panel.TandemBreakers, panel.RemoveLoad}).Draw(t, "measure")
		more := remedy(k, pricing.House{Free: rapid.IntRange(0, 2).Draw(t, "free"), Conditions: w.Conditions}).Work
		alone, err := pricing.Estimate(book, w, place)
		require.NoError(t, err)
		apart, err := pricing.Estimate(book, more, place)
		require.NoError(t, err)
		joined, err := pricing.Estimate(book, w.With(more), place)
		require.NoError(t, err)
		for s := range joined.Total {
			require.GreaterOrEqual(t, joined.Total[s], alone.Total[s])
			require.LessOrEqual(t, joined.Total[s], alone.Total[s]+apart.Total[s]+5, "but for rounding")
		}
	})
}

func TestALargerSubpanelNeverCostsLess(t *testing.T) {
	book := demo(t)
	rapid.Check(t, func(t *rapid.T) {
		place := drawPlace(t, book)
		b := pricing.Panelboard{
			Amps: unit.Amps(rapid.IntRange(30, 100).Draw(t, "amps")), Spaces: rapid.IntRange(2, 12).Draw(t, "spaces"),
			Outdoor: rapid.Bool().Draw(t, "outdoor"), Main: rapid.Bool().Draw(t, "main"),
		}
		more := b
		more.Amps += unit.Amps(rapid.IntRange(0, 100-int(b.Amps)).Draw(t, "more amps"))
		more.Spaces += rapid.IntRange(0, 20-b.Spaces).Draw(t, "more spaces")
		price := func(b pricing.Panelboard) int64 {
			f, err := pricing.Estimate(book, pricing.Work{Design: pricing.Design{Feeder: pricing.Feeder{Board: b}}, Visits: 1}, place)
			require.NoError(t, err)
			return f.Total[pricing.Likely]
		}
		require.GreaterOrEqual(t, price(more), price(b))
	})
}

// A longer feeder, more circuits that go over and more rods never cost less.
func TestMoreFeederNeverCostsLess(t *testing.T) {
	book := demo(t)
	rapid.Check(t, func(t *rapid.T) {
		w, place := detachedGarage(), drawPlace(t, book)
		f := w.Design.Feeder
		f.Wiring = []pricing.Wiring{rapid.SampledFrom(feederWirings).Draw(t, "wiring")}
		f.Segments = []pricing.Segment{{Kind: pricing.Open, Feet: unit.Feet(rapid.IntRange(0, 200).Draw(t, "feet"))}}
		w.Design.Feeder = f
		before, err := pricing.Estimate(book, w, place)
		require.NoError(t, err)
		switch rapid.IntRange(0, 3).Draw(t, "more of") {
		case 0:
			f.Segments = []pricing.Segment{{Kind: pricing.Open, Feet: f.Segments[0].Feet + unit.Feet(rapid.IntRange(1, 60).Draw(t, "more"))}}
		case 1:
			f.Moved = append(f.Moved, pricing.Breaker{Amps: 20, Poles: 1, Protection: pricing.Standard})
		case 2:
			f.Electrodes.Rods++
		case 3:
			f.BoardDrop += 3
		}
		w.Design.Feeder = f
		after, err := pricing.Estimate(book, w, place)
		require.NoError(t, err)
		for s := range before.Total {
			require.GreaterOrEqual(t, after.Total[s], before.Total[s])
		}
	})
}

func FuzzFromMeasure(f *testing.F) {
	for _, k := range kinds() {
		f.Add(uint8(k), uint8(panel.Dryer), 24.0, 200.0, 100.0, 40.0, 20.0, 0, "14-30")
	}
	f.Add(uint8(panel.SharingSwitch), uint8(panel.Range), math.NaN(), math.Inf(1), -1.0, math.NaN(), math.Inf(-1), -1<<60, "")
	book := demo(f)
	place := book.Home(book.From)
	f.Fuzz(func(t *testing.T, kind, load uint8, setting, service, rating, breaker, feet float64, free int, outlet string) {
		m := panel.Measure{Kind: panel.MeasureKind(kind), Load: panel.LoadKind(load), Setting: unit.Amps(setting), Service: unit.Amps(service)}
		h := pricing.House{
			Rating: unit.Amps(rating), Charger: pricing.Breaker{Amps: unit.Amps(breaker)}, Free: free, Lateral: unit.Feet(feet),
			Appliance: pricing.Appliance{Receptacle: outlet, Run: []pricing.Segment{{Kind: pricing.Fished, Feet: unit.Feet(feet)}}},
		}
		r := pricing.FromMeasure(&m, &h)
		var sheet working.Sheet
		bill, err := pricing.Price(book, r.Work, place, &sheet)
		if err != nil {
			require.NotEmpty(t, requireFault(t, err).Field)
			return
		}
		for s := range bill.Total {
			require.GreaterOrEqual(t, bill.Total[s], int64(0))
		}
		require.False(t, math.IsNaN(bill.AllIn.P90))
	})
}
