package circuit_test

import (
	"fmt"

	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/edition/nec"
)

// A 48 A charger in a garage, 30 ft from a panel whose terminals and the
// charger's are marked for 75 °C, in tubing.
func Example() {
	book, err := nec.Open(nec.Embedded(), 2023)
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := circuit.Design(book, circuit.Job{
		Setting: 48, Volts: 240, Means: edition.RatingPlate, Fastening: edition.FixedInPlace,
		Place: edition.Garage, Terminals: edition.Marked75, Ambient: 30, Methods: circuit.UseEMT,
		Route: circuit.Route{Segments: []circuit.Segment{{Kind: circuit.Surface, Feet: 30}}, PanelDrop: 5, DeviceDrop: 4},
	}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%v A on %v A: %s, drop %.1f %%\n", r.Load, r.Device, r.Chosen.Wiring(), r.Chosen.DropPercent)
	// Output: 48 A on 60 A: THWN-2 in EMT 3/4: 2 × 6 AWG, ground 10 AWG, drop 0.8 %
}

// What may be set on an old range circuit: 50 A on 6 AWG cable.
func ExampleAllowed() {
	book, err := nec.Open(nec.Embedded(), 2023)
	if err != nil {
		fmt.Println(err)
		return
	}
	six, err := book.SizeNamed("6 AWG")
	if err != nil {
		fmt.Println(err)
		return
	}
	a, err := circuit.Allowed(book, circuit.Existing{
		Device: 50, Receptacle: "14-50", Ambient: 30,
		Wire: edition.Wire{Method: edition.NMB, Size: six, Material: edition.Copper},
	}, nil)
	fmt.Println(a.Setting, a.Binding, err)
	// Output: 40 device <nil>
}
