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

// One feeder in place of the old run to a detached garage, and the circuit
// from the panel it feeds.
func ExampleDesignFeeder() {
	book, err := nec.Open(nec.Embedded(), 2020)
	if err != nil {
		fmt.Println(err)
		return
	}
	f, err := circuit.DesignFeeder(book, circuit.FeederJob{
		Charger: 24, Other: 12.5, Volts: 240, Detached: true, OldRuns: 1, Place: edition.Garage,
		Terminals: edition.Unmarked, Ambient: 30,
		Route: circuit.Route{Segments: []circuit.Segment{{Kind: circuit.OpenFraming, Feet: 20},
			{Kind: circuit.Trench, Feet: 55, Over: edition.GeneralBurial}, {Kind: circuit.Surface, Feet: 10}}},
	}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%v A: %s, %d rods, drop %.1f %%\n", f.Device, f.Chosen.Wiring(), f.Panel.Rods, f.Chosen.DropPercent)
	r, err := circuit.Design(book, circuit.Job{
		Setting: 24, Volts: 240, Means: edition.RatingPlate, Fastening: edition.FixedInPlace, Place: edition.Garage,
		Terminals: edition.Unmarked, Ambient: 30, FeederPercent: f.Chosen.DropPercent,
		Route: circuit.Route{Segments: []circuit.Segment{{Kind: circuit.Surface, Feet: 8}}},
	}, nil)
	fmt.Printf("%v A: %s, %v\n", r.Device, r.Chosen.Wiring(), err)
	// Output:
	// 60 A: THWN-2 in PVC 40 1: 3 × 6 AWG, ground 10 AWG, 2 rods, drop 1.3 %
	// 30 A: THWN-2 in EMT 1/2: 2 × 10 AWG, ground 10 AWG, <nil>
}
