package pricing_test

import (
	"fmt"
	"io/fs"

	"daybreak/internal/panel"
	"daybreak/internal/pricing"
	"daybreak/internal/shop/alderbay"
	"daybreak/internal/unit"
)

func Example() {
	folder, _ := fs.Sub(alderbay.Files(), "prices")
	book, err := pricing.LoadBook(folder)
	if err != nil {
		fmt.Println(err)
		return
	}
	on, _ := unit.ParseDate("2026-11-25")
	place, _ := book.At("00010", on)
	bill, _ := pricing.Price(book, pricing.Work{
		Design: pricing.Design{
			Equipment:   pricing.Equipment{Supply: pricing.BuyerSupplies, Mount: pricing.MountPlug},
			Termination: pricing.Termination{Receptacle: "14-50", Extent: pricing.NewReceptacle},
		},
		Visits: 1,
	}, place, nil)
	for _, l := range bill.Lines {
		fmt.Println(l.Quantity, l.Unit, l.Code, bill.Money(l.Amount[pricing.Likely]))
	}
	fmt.Println("tax", bill.Money(bill.Tax[pricing.Likely]))
	fmt.Println("total", bill.Money(bill.Total[pricing.Likely]))
	// Output:
	// 1 each rec-14-50-ind 100.00 USD
	// 1 visit lab.mobilise 76.80 USD
	// 1 each lab.replace_receptacle 76.80 USD
	// 1 each lab.evse_plugin 76.80 USD
	// 1 each lab.commission 64.00 USD
	// 1 visit trip 85.00 USD
	// 1 job minimum 0.00 USD
	// tax 8.25 USD
	// total 487.65 USD
}

// A full panel: a small one beside it gives the spaces, in the circuit's bill.
func ExampleFromMeasure() {
	folder, _ := fs.Sub(alderbay.Files(), "prices")
	book, err := pricing.LoadBook(folder)
	if err != nil {
		fmt.Println(err)
		return
	}
	on, _ := unit.ParseDate("2026-11-25")
	place, _ := book.At("00010", on)
	charger := pricing.Breaker{Amps: 40, Poles: 2, Protection: pricing.Standard}
	circuit := pricing.Work{
		Design: pricing.Design{
			Breaker: charger,
			Wiring:  []pricing.Wiring{{Method: pricing.NMB, Cable: pricing.Cable{Size: "8", Conductors: 2}}},
		},
		Route:   pricing.Route{Segments: []pricing.Segment{{Kind: pricing.Open, Feet: 15}}},
		Permits: pricing.PermitCircuit, Visits: 1,
	}
	subpanel := pricing.FromMeasure(&panel.Measure{Kind: panel.Subpanel}, &pricing.House{Charger: charger})
	upgrade := pricing.FromMeasure(&panel.Measure{Kind: panel.UpgradeService, Service: 200}, &pricing.House{Rating: 100})

	joined, _ := pricing.Price(book, circuit.With(subpanel.Work), place, nil)
	apart, _ := pricing.Price(book, upgrade.Work, place, nil)
	fmt.Println("circuit and subpanel", joined.Money(joined.Total[pricing.Likely]))
	fmt.Println("upgrade, its own bill", apart.Money(apart.Total[pricing.Likely]))
	fmt.Println("both", apart.Money(pricing.SumOf(joined.Total, apart.Total)[pricing.Likely]))
	// Output:
	// circuit and subpanel 1613.97 USD
	// upgrade, its own bill 4517.11 USD
	// both 6131.08 USD
}
