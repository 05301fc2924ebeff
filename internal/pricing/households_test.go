package pricing_test

import (
	"testing"

	"daybreak/internal/panel"
	"daybreak/internal/pricing"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

// hardwiredAt is a circuit in cable along one open run, with its equipment.
func hardwiredAt(breaker, setting unit.Amps, size string, segments ...pricing.Segment) pricing.Work {
	w := job(pricing.Breaker{Amps: breaker, Poles: 2, Protection: pricing.Standard}, nm(size, 2), segments...)
	w.Design.Wiring[0].Connectors = 2
	w.Design.Equipment = pricing.Equipment{Supply: pricing.ShopSupplies, Mount: pricing.MountHardwired, Setting: setting, Connector: "J3400"}
	return w
}

// dryerShared is the third household: a three-wire dryer circuit run anew, a
// listed switch on it, 24 A for the car from the same outlet.
func dryerShared(t testing.TB) pricing.Work {
	r := pricing.FromMeasure(&panel.Measure{Kind: panel.SharingSwitch, Load: panel.Dryer, Setting: 24}, &pricing.House{
		Conditions: pricing.Conditions{House: "house.1960_1990"},
		Appliance: pricing.Appliance{
			Receptacle: "10-30", Run: []pricing.Segment{{Kind: pricing.Open, Feet: 15}}, PanelDrop: 5, DeviceDrop: 4,
		},
	})
	require.Equal(t, pricing.Instead, r.Standing)
	require.Empty(t, r.Unpriced)
	return r.Work
}

// detachedGarage is the seventh household: the old two-wire run taken out, a 60
// A feeder of 85 ft, a garage panel with two rods, old light and receptacle fed
// anew, and 24 A eight feet from that panel.
func detachedGarage() pricing.Work {
	w := hardwiredAt(30, 24, "10", pricing.Segment{Kind: pricing.Open, Feet: 8})
	w.Route.PanelDrop, w.Route.DeviceDrop = 0, 0
	w.Route.WoodWalls, w.Route.Entries = 2, 2
	w.Conditions = pricing.Conditions{House: "house.before_1960"}
	w.Visits = 2
	return w.With(pricing.Work{
		Design: pricing.Design{
			Feeder: pricing.Feeder{
				Breaker: pricing.Breaker{Amps: 60, Poles: 2, Protection: pricing.Standard},
				Wiring: []pricing.Wiring{{
					Method: pricing.PVC40, Exposed: pricing.PVC80, TradeSize: "1", QuarterBends: 4, Expansions: 2,
					Conductors: []pricing.Conductors{{Size: "6", Count: 3}, {Size: "10", Count: 1}},
				}},
				Segments:  []pricing.Segment{{Kind: pricing.Open, Feet: 20}, {Kind: pricing.TrenchLawn, Feet: 55}},
				BoardDrop: 10,
				Board:     pricing.Panelboard{Amps: 60, Spaces: 6, Main: true},
				Refed:     []pricing.Breaker{gfci(15, 1), gfci(20, 1)},
				Electrodes: pricing.Electrodes{
					Rods: 2, Size: "6", Feet: 20,
				},
			},
			OldCircuits: 1,
			Labels:      pricing.LabelDirectory | pricing.LabelUnderground,
		},
		Permits: pricing.PermitSubpanel, Visits: 2,
	})
}

// fullPanel is the tenth household: 32 A from a 60 A subpanel beside a full
// panel.
func fullPanel(t testing.TB) pricing.Work {
	r := pricing.FromMeasure(&panel.Measure{Kind: panel.Subpanel}, &pricing.House{
		Charger: pricing.Breaker{Amps: 40, Poles: 2, Protection: pricing.Standard}, Conditions: pricing.Conditions{Panel: "panel.crowded"},
	})
	require.Equal(t, pricing.Joined, r.Standing)
	return hardwiredAt(40, 32, "8", pricing.Segment{Kind: pricing.Open, Feet: 15}).With(r.Work)
}

// carport is the twelfth household: 48 A at the end of 150 ft of trench.
func carport() pricing.Work {
	w := detachedJob()
	w.Design.Equipment = pricing.Equipment{Supply: pricing.ShopSupplies, Mount: pricing.MountHardwired, Setting: 48, Connector: "J3400"}
	w.Design.Wiring = []pricing.Wiring{{
		Method: pricing.PVC40, Exposed: pricing.PVC80, TradeSize: "1", QuarterBends: 2, Expansions: 2, Bushings: 2,
		Conductors: []pricing.Conductors{{Size: "4", Count: 2}, {Size: "8", Count: 1}},
	}}
	w.Route.Segments = []pricing.Segment{{Kind: pricing.TrenchLawn, Feet: 150}}
	w.Route.PanelDrop, w.Route.DeviceDrop = 8, 12
	w.Route.WoodWalls = 0
	return w
}

// managed is a circuit whose charger is held to the service by measuring it.
func managed(w pricing.Work, setting unit.Amps) pricing.Work {
	r := pricing.FromMeasure(&panel.Measure{Kind: panel.ManageEnergy, Setting: setting}, &pricing.House{Charger: w.Design.Breaker})
	return w.With(r.Work)
}

// inTubing is 48 A on 60 A in 35 ft of tubing.
func inTubing() pricing.Work {
	w := hardwiredAt(60, 48, "6", pricing.Segment{Kind: pricing.Open, Feet: 35})
	w.Design.Wiring = []pricing.Wiring{{Method: pricing.EMT, TradeSize: "3/4", QuarterBends: 3, Conductors: sixAndTen()}}
	return w
}

func serviceUpgrade(t testing.TB, from, to unit.Amps, house pricing.House) pricing.Work {
	house.Rating = from
	r := pricing.FromMeasure(&panel.Measure{Kind: panel.UpgradeService, Service: to}, &house)
	require.Equal(t, pricing.Apart, r.Standing)
	require.Empty(t, r.Unpriced)
	return r.Work
}

// What an expert expects of such work, before tax: status engineering
// judgement, anchored to published means. The invented book must come near.
func TestHouseholdPrices(t *testing.T) {
	book := demo(t)
	asked := pricing.House{Surge: true, EmergencyDisconnect: true}
	for _, c := range []struct {
		name, postal string
		work         pricing.Work
		low, high    float64
		over         float64 // share above high that is let pass, and why
	}{
		// The demo book's switch alone is a third of the sum.
		{"V03 sharing unit on a new 14-30", "00010", dryerShared(t), 900, 1700, 0.03},
		{"V06 upgrade 60 to 100 A", "00010", serviceUpgrade(t, 60, 100, asked), 2800, 6500, 0},
		{"V06 upgrade 60 to 200 A", "00010", serviceUpgrade(t, 60, 200, asked), 2800, 6500, 0},
		{"V07 detached garage", "00020", detachedGarage(), 3400, 6400, 0},
		{"V09 upgrade 100 to 200 A", "00020", serviceUpgrade(t, 100, 200, asked), 3000, 7500, 0},
		{"V09 managed 40 A", "00020", managed(hardwiredAt(50, 40, "6", pricing.Segment{Kind: pricing.Open, Feet: 20}), 40), 1700, 3000, 0},
		{"V16 managed 48 A", "00020", managed(inTubing(), 48), 2000, 3300, 0},
		{"V10 circuit and subpanel", "00010", fullPanel(t), 1900, 3300, 0},
		{"V12 carport", "00021", carport(), 3900, 7200, 0},
		{"V16 upgrade 200 to 400 A", "00020", serviceUpgrade(t, 200, 400, asked), 7000, 15000, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, err := pricing.Estimate(book, c.work, demoPlace(t, book, c.postal))
			require.NoError(t, err)
			likely := float64(f.Subtotal[pricing.Likely]+f.Permit[pricing.Likely]) / 100
			require.GreaterOrEqual(t, likely, c.low)
			require.LessOrEqual(t, likely, c.high*(1+c.over))
			fee := float64(f.Permit[pricing.Likely])
			require.LessOrEqual(t, (f.Spread.P10+fee)/100, c.high, "the ranges meet")
			require.GreaterOrEqual(t, (f.Spread.P90+fee)/100, c.low, "the ranges meet")
		})
	}
}

// A subpanel alone, beside the circuit it serves, is what the expert adds.
func TestASubpanelAddsWhatAnExpertExpects(t *testing.T) {
	book := demo(t)
	place := demoPlace(t, book, "00010")
	alone, err := pricing.Estimate(book, hardwiredAt(40, 32, "8", pricing.Segment{Kind: pricing.Open, Feet: 15}), place)
	require.NoError(t, err)
	both, err := pricing.Estimate(book, fullPanel(t), place)
	require.NoError(t, err)
	circuit := float64(alone.Subtotal[1]+alone.Permit[1]) / 100
	added := float64(both.Subtotal[1]+both.Permit[1])/100 - circuit
	require.True(t, circuit >= 1100 && circuit <= 1800, circuit)
	require.True(t, added >= 700 && added <= 1500, added)
}
