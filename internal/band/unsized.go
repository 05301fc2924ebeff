package band

import (
	"daybreak/internal/facts"
	"daybreak/internal/quote"
	"daybreak/internal/unit"
)

// unsizedLoad is what an electric load is taken for of which nobody knows the
// plate and no table the usual one: all that a two-pole 20 A circuit carries.
//
// Source: engineering judgement; NEC 220.14 asks for the rating.
const unsizedLoad = unit.Watts(4800)

var loadKinds = facts.LoadKinds()

// sizeLoads takes the safer figure for loads without any, and lists them. They
// decide, since the load sheet rests on them.
func sizeLoads(f *facts.Facts) []quote.Assumption {
	var out []quote.Assumption
	for i := range loadKinds {
		slot := f.Panel.Loads.Of(i)
		if !slot.Fuel.Is(facts.FuelElectric) || slot.Watts.Has() {
			continue
		}
		slot.Watts = facts.Derive(unsizedLoad, facts.FromSaferReading)
		out = append(out, quote.Assumption{
			Path: "panel.loads." + loadKinds[i] + ".watts", Value: unit.Print(unsizedLoad, 0) + " W", Basis: facts.FromSaferReading, Decides: true,
		})
	}
	return out
}
