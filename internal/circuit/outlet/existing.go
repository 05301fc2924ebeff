package outlet

import (
	"daybreak/internal/edition"
	"daybreak/internal/unit"
)

// Reading is a value somebody read off the thing itself. Its zero value is
// "not read", so no zero amperes can pass for a breaker.
type Reading[T comparable] struct {
	value T
	read  bool
}

// Read is a value that was read.
func Read[T comparable](v T) Reading[T] { return Reading[T]{value: v, read: true} }

// Get returns the value, and false when nobody read it.
func (r Reading[T]) Get() (T, bool) { return r.value, r.read }

// Words of the input. Each list is closed; "" is refused, [Unknown] is not.
const (
	Unknown = "unknown"
	Yes     = "yes"
	No      = "no"
)

// Conductor is the wire behind the receptacle. Each part may be [Unknown].
type Conductor struct {
	Size     string // AWG: "14", "12", "10", "8", "6", "4", "3", "2"
	Material string // "cu", "al"
	Method   string // "nm" (cable, 60 °C column), "raceway" (75 °C); unknown counts as nm
}

// Existing is the outlet as it was described. It is comparable, so callers may
// remember a verdict by it.
type Existing struct {
	Book       edition.Edition       // what the code book in force says of wires and breakers
	Year       int                   // the book's year, 2017 to 2100; decides which rules hold
	Receptacle string                // id of a [Receptacle]
	Breaker    Reading[unit.Amps]    // the number on the handle
	Conductor  Conductor             //
	Sharing    string                // individual, dryer, range, appliance, welder_built, general_idle, general_loaded, garage_loads, unknown
	Condition  Reading[ConditionSet] // not read: nobody has looked
	Grade      string                // ev_listed, industrial, residential, unknown
	Location   string                // indoor, garage, outdoor, unknown
	InUseCover string                // yes, no, unknown
	ReachShort Reading[unit.Feet]    // feet missing along the cable's path; 0 when it reaches
	GFCI       string                // yes, no, unknown: ground-fault protection at the outlet or its breaker
	Equipment  Equipment             //
	Adapter    string                // yes, no, unknown: a plug adapter between equipment and outlet
	Supply     unit.Volts            // 120, 208 or 240
	Chargers   int                   // pieces of charging equipment meant for this circuit, 1 or more
}

// Equipment is the charging equipment meant for the outlet, as far as it is
// chosen.
type Equipment struct {
	Max     Reading[unit.Amps] // the largest output it can be set to
	Setting string             // locked (restricted access and label), open, unknown; an app's slider is open
	Kind    string             // portable, fastened, unknown
}
