package main

import (
	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/panel"
	"daybreak/internal/pricing"
	"daybreak/internal/shop"
	"daybreak/internal/unit"
)

// alone measures one call of each engine, without working.
func alone(books *shop.Books, on unit.Date) ([]row, error) {
	code, err := books.Edition(2023)
	if err != nil {
		return nil, err
	}
	rules, err := books.Load.Rules(2023)
	if err != nil {
		return nil, err
	}
	job := circuit.Job{
		Setting: 48, Volts: 240, Means: edition.RatingPlate, Fastening: edition.FixedInPlace,
		Place: edition.Garage, Terminals: edition.Marked75, Ambient: 30, Methods: circuit.UseEMT,
		Route: circuit.Route{Segments: []circuit.Segment{{Kind: circuit.Surface, Feet: 30}}, PanelDrop: 5, DeviceDrop: 4},
	}
	load := panel.Input{
		Rules: rules, Volts: 240, FloorArea: 2200, SmallCirc: 2, LaundryCir: 1, Cooling: 5760,
		Loads:    []panel.Load{{Kind: panel.Dishwasher, VA: 1200, Count: 1}, {Kind: panel.FurnaceFan, VA: 800, Count: 1}},
		Supply:   panel.Rated(200),
		Chargers: []panel.Charger{{Setting: 32, Volts: 240}},
	}
	work := pricing.Work{
		Design: pricing.Design{
			Breaker: pricing.Breaker{Amps: 40, Poles: 2, Protection: pricing.Standard},
			Wiring:  []pricing.Wiring{{Method: pricing.NMB, Cable: pricing.Cable{Size: "8", Conductors: 2}}},
		},
		Route:   pricing.Route{Segments: []pricing.Segment{{Kind: pricing.Open, Feet: 15}}},
		Permits: pricing.PermitCircuit, Visits: 1,
	}
	place := books.Prices.Home(on)
	return each([]piece{
		{"circuit.Design, 48 A in EMT", true, func() error {
			_, err := circuit.Design(code, job, nil)
			return err
		}},
		{"panel.Calculate, every permitted method", true, func() error {
			_, err := panel.Calculate(load, nil)
			return err
		}},
		{"pricing.Price, a bill by lines", true, func() error {
			_, err := pricing.Price(books.Prices, work, place, nil)
			return err
		}},
		{"pricing.Estimate, its figures alone", true, func() error {
			_, err := pricing.Estimate(books.Prices, work, place)
			return err
		}},
	})
}
