package facts

import "slices"

// State says how we came by a leaf. From Told on there is a value to use.
type State uint8

const (
	// Unknown: never asked, skipped, or taken back.
	Unknown State = iota
	// Unsure: asked, and not known.
	Unsure
	// Narrowed: no exact value, but a range or a few candidates; see [Narrowing].
	Narrowed
	// Told: said by a person or a partner.
	Told
	// Derived: looked up or inferred; a told value replaces it.
	Derived
)

var stateWords = []string{"unknown", "unsure", "narrowed", "told", "derived"}

// String is the word for the state.
func (s State) String() string {
	if int(s) < len(stateWords) {
		return stateWords[s]
	}
	return "unknown"
}

// Known is one leaf of the household: a value and how we came by it. Its zero
// value is unknown.
type Known[T comparable] struct {
	value T
	basis Basis
	state State
}

// Tell is a leaf that a person or partner told.
func Tell[T comparable](v T) Known[T] { return Known[T]{value: v, state: Told} }

// Derive is a leaf that was looked up or inferred, and on what basis.
func Derive[T comparable](v T, b Basis) Known[T] {
	return Known[T]{value: v, basis: b, state: Derived}
}

// DontKnow is a leaf that was asked for and not known.
func DontKnow[T comparable]() Known[T] { return Known[T]{state: Unsure} }

// Get returns the value, and false when there is none to use.
func (k Known[T]) Get() (T, bool) { return k.value, k.state >= Told }

// Is reports whether the leaf has a value and it is v.
func (k Known[T]) Is(v T) bool { return k.state >= Told && k.value == v }

// Has reports whether there is a value to use.
func (k Known[T]) Has() bool { return k.state >= Told }

// State says how we came by the leaf.
func (k Known[T]) State() State { return k.state }

// Basis says what a derived leaf rests on; it is empty for any other.
func (k Known[T]) Basis() Basis { return k.basis }

// Basis says what a derived value rests on: a closed list.
type Basis uint8

const (
	// FromPostalTable: the postal code decided it.
	FromPostalTable Basis = iota + 1
	// FromVehicleTable: the model's row.
	FromVehicleTable
	// FromArchetypeTable: the row of the kind of vehicle.
	FromArchetypeTable
	// FromApplianceTable: the usual nameplate of an appliance.
	FromApplianceTable
	// FromAnotherAnswer: it follows from other leaves.
	FromAnotherAnswer
	// FromCodeRule: the electrical code says what to take.
	FromCodeRule
	// FromSaferReading: nobody knows; the safer of the readings.
	FromSaferReading
	// FromUsualPractice: the usual way, stated as an assumption.
	FromUsualPractice
	// FromClassPrior: the middle of what homes like this have.
	FromClassPrior
	// FromDraw: one draw of many, never shown.
	FromDraw
)

var basisWords = []string{
	"", "postal_table", "vehicle_table", "archetype_table", "appliance_table", "another_answer",
	"code_rule", "safer_reading", "usual_practice", "class_prior", "draw",
}

// String is the word for the basis.
func (b Basis) String() string {
	if int(b) < len(basisWords) {
		return basisWords[b]
	}
	return ""
}

// BasisWords lists the words of every basis.
func BasisWords() []string { return slices.Clone(basisWords[1:]) }

// BasisOf returns the basis with that word, and false when there is none.
func BasisOf(word string) (Basis, bool) {
	for i, w := range basisWords {
		if i > 0 && w == word {
			return Basis(i), true
		}
	}
	return 0, false
}
