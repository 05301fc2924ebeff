package charging

import (
	"fmt"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// Cap is one limit on the way from panel to battery: a value, nothing there to
// limit, or unknown. Its zero value is unknown, so a forgotten limit is named
// as open and never taken for no limit.
type Cap[T ~float64] struct {
	value T
	state capState
}

type capState uint8

const (
	capUnknown capState = iota
	capValue
	capNone
)

// At is a limit of a known value, which must be above zero.
func At[T ~float64](value T) Cap[T] { return Cap[T]{value, capValue} }

// None says that there is no such part, such as no receptacle when hardwired.
func None[T ~float64]() Cap[T] { return Cap[T]{state: capNone} }

// Unknown says that the part is there and its limit is not known.
func Unknown[T ~float64]() Cap[T] { return Cap[T]{} }

// Value returns the limit's value, and false when there is none to use.
func (c Cap[T]) Value() (T, bool) { return c.value, c.state == capValue }

// Limits are all the things that may hold the power down.
type Limits struct {
	Supply      unit.Volts          // 100 to 300 V; what the supply really gives: 120, 208, 240
	Breaker     Cap[unit.Amps]      // the branch circuit's device; 80 % of it counts
	Receptacle  Cap[unit.Amps]      // the outlet's rating; 80 % of it counts
	Setting     Cap[unit.Amps]      // the equipment's rating or adjusted setting
	Cable       Cap[unit.Amps]      // cable, cord or adapter
	Managed     Cap[unit.Amps]      // what energy management leaves
	OnboardKW   Cap[unit.Kilowatts] // the car's on-board charger, AC input
	OnboardAmps Cap[unit.Amps]      // the car's AC input current; unknown means on-board kW at 240 V
}

// Limit names one of the limits.
type Limit uint8

// The limits, in the order in which a tie is settled: what is upstream is
// named first, and the car's power before its current.
const (
	Circuit Limit = iota + 1
	Receptacle
	Setting
	Cable
	Managed
	OnboardPower
	OnboardCurrent
)

// Word is the limit's key in words for people.
func (l Limit) Word() string {
	switch l {
	case Circuit:
		return "circuit"
	case Receptacle:
		return "receptacle"
	case Setting:
		return "evse"
	case Cable:
		return "cable"
	case Managed:
		return "managed"
	case OnboardPower:
		return "obc_power"
	case OnboardCurrent:
		return "obc_current"
	}
	return "none"
}

// LimitSet is a set of limits.
type LimitSet uint8

// Has reports whether a limit is in the set.
func (s LimitSet) Has(l Limit) bool { return s&(1<<l) != 0 }

// List returns the limits of the set in their order.
func (s LimitSet) List() []Limit {
	var out []Limit
	for l := Circuit; l <= OnboardCurrent; l++ {
		if s.Has(l) {
			out = append(out, l)
		}
	}
	return out
}

// checked returns the cap when it is usable, and a fault for a value that no
// such part can have.
func checked[T ~float64](c Cap[T], field string, most T, what string) error {
	if c.state != capValue {
		return nil
	}
	if !unit.Finite(c.value) || c.value <= 0 || c.value > most {
		return fault.Invalid(field, float64(c.value), fmt.Sprintf("above 0 to %v %s", float64(most), what))
	}
	return nil
}

// within faults a plain number outside its range, ends included.
func within[T ~float64](field string, v, low, high T, what string) error {
	if !unit.Finite(v) || v < low || v > high {
		return fault.Invalid(field, float64(v), fmt.Sprintf("%v to %v %s", float64(low), float64(high), what))
	}
	return nil
}

// above faults a plain number that is not above low, or exceeds high.
func above[T ~float64](field string, v, low, high T, what string) error {
	if !unit.Finite(v) || v <= low || v > high {
		return fault.Invalid(field, float64(v), fmt.Sprintf("above %v to %v %s", float64(low), float64(high), what))
	}
	return nil
}
