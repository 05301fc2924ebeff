package quote

import (
	"daybreak/internal/charging"
	"daybreak/internal/circuit/outlet"
	"daybreak/internal/facts"
)

// care says how an outlet that stays is used safely, from the first day. A
// shopper can feel a warm plug; nobody asks them to measure one.
//
// Source: NEC 625.17(C) for cords, 625.40 for the circuit, 406.9(B) for the
// cover; warmth is common practice.
func (w *weighing) care(o *Option, about *facts.Outlet) []Sentence {
	if o.OutletWay.Kind == outlet.WiredIn {
		return w.appliance(about, nil)
	}
	out := []Sentence{Said("quote.care.warm")}
	if o.Level == charging.Level1 {
		out = append(out, Said("quote.care.alone"))
	}
	out = append(out, Said("quote.care.no_extension"))
	if w.outletLocation(about) == "outdoor" {
		out = append(out, Said("quote.care.cover"), Said("quote.care.walkway"))
	}
	return w.appliance(about, out)
}

// appliance reminds that a circuit given to the car is the car's alone.
func (w *weighing) appliance(about *facts.Outlet, out []Sentence) []Sentence {
	if about.SharedWith.Is(facts.SharingWelderBuilt) {
		return append(out, Said("quote.care.welder"))
	}
	return out
}
