package pricing_test

import (
	"io/fs"
	"testing"

	"daybreak/internal/pricing"
	"daybreak/internal/shop/alderbay"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

// demo loads the demo shop's price book.
func demo(t testing.TB) *pricing.Book {
	t.Helper()
	folder, err := fs.Sub(alderbay.Files(), "prices")
	require.NoError(t, err)
	book, err := pricing.LoadBook(folder)
	require.NoError(t, err)
	return book
}

func date(t testing.TB, s string) unit.Date {
	t.Helper()
	d, ok := unit.ParseDate(s)
	require.True(t, ok)
	return d
}

func demoPlace(t testing.TB, book *pricing.Book, postal string) pricing.Place {
	t.Helper()
	place, err := book.At(postal, date(t, "2026-11-25"))
	require.NoError(t, err)
	return place
}

// garage is an easy job: 32 A hardwired at the end of 25 ft of cable.
func garage() pricing.Work {
	return pricing.Work{
		Design: pricing.Design{
			Equipment: pricing.Equipment{Supply: pricing.ShopSupplies, Mount: pricing.MountHardwired, Output: 32, Setting: 32, Connector: "J3400"},
			Breaker:   pricing.Breaker{Amps: 40, Poles: 2, Protection: pricing.GroundFault},
			Wiring:    []pricing.Wiring{{Method: pricing.NMB, Cable: pricing.Cable{Size: "8", Conductors: 2}, Connectors: 2}},
			Labels:    pricing.LabelCircuit | pricing.LabelSetting,
		},
		Route: pricing.Route{
			Segments:  []pricing.Segment{{Kind: pricing.Open, Feet: 25}},
			PanelDrop: 5, DeviceDrop: 4,
		},
		Conditions: pricing.Conditions{House: "house.after_1990", Panel: "panel.tidy"},
		Permits:    pricing.PermitCircuit,
		Visits:     1,
	}
}

// brick is a longer one: 48 A in 40 ft of tubing on a brick wall.
func brick() pricing.Work {
	w := garage()
	w.Design.Equipment.Output, w.Design.Equipment.Setting = 48, 48
	w.Design.Breaker = pricing.Breaker{Amps: 60, Poles: 2, Protection: pricing.Standard}
	w.Design.Wiring = []pricing.Wiring{{
		Method: pricing.EMT, TradeSize: "3/4", Wet: true, QuarterBends: 3, Bodies: 1,
		Conductors: []pricing.Conductors{{Size: "6", Count: 2}, {Size: "10", Count: 1}},
	}}
	w.Route.Segments = []pricing.Segment{{Kind: pricing.Surface, Feet: 40}}
	w.Route.Masonry, w.Route.Entries = 1, 2
	w.Conditions.Masonry = "masonry.block_or_brick"
	return w
}

// trench is a detached garage: 100 ft of trench, energy management, a switch.
func trench() pricing.Work {
	w := brick()
	w.Design.Wiring = []pricing.Wiring{{
		Method: pricing.PVC40, Exposed: pricing.PVC80, TradeSize: "1", QuarterBends: 2, Expansions: 2, Bushings: 2,
		Conductors: []pricing.Conductors{{Size: "6", Count: 2}, {Size: "10", Count: 1}},
	}}
	w.Design.Disconnect.Amps = 60
	w.Design.Management = pricing.Management{Method: "measured_limit", Amps: 48}
	w.Design.Labels |= pricing.LabelDisconnect | pricing.LabelManagement | pricing.LabelUnderground
	w.Route = pricing.Route{
		Segments:  []pricing.Segment{{Kind: pricing.TrenchLawn, Feet: 90}, {Kind: pricing.TrenchConcrete, Feet: 10}},
		PanelDrop: 6, DeviceDrop: 5, Firestops: 1, WoodWalls: 2, Entries: 2, AccessHoles: 1, Patches: 1, Surface: "stucco",
	}
	w.Conditions.Soil = "soil.clay_or_roots"
	w.Visits = 2
	return w
}

// upgrade is a service upgrade, a bill of its own.
func upgrade() pricing.Work {
	return pricing.Work{
		Design:  pricing.Design{Service: pricing.Service{From: 100, To: 200, Feed: "oh"}},
		Permits: pricing.PermitService, Visits: 2,
	}
}
