package facts

import (
	"math"
	"slices"

	"daybreak/internal/fault"
)

// Slot is a leaf of one household without its Go type, for those who walk all
// of them: the fold, conditions, the wire, the fingerprint.
type Slot struct {
	leaf  *Leaf
	facts *Facts
	cell  cell
}

// Leaf describes the slot.
func (s Slot) Leaf() *Leaf { return s.leaf }

// State says how we came by the leaf.
func (s Slot) State() State {
	_, state, _ := s.cell.load()
	return state
}

// Basis says what a derived leaf rests on.
func (s Slot) Basis() Basis {
	_, _, basis := s.cell.load()
	return basis
}

// Has reports whether there is a value to use.
func (s Slot) Has() bool { return s.State() >= Told }

// Tell sets a told value. It takes what [Slot.Value] returns, and any Go
// number for a Number, Whole or Money. It faults by path, with what would be
// accepted: a value of another kind, NaN, an infinity, minus zero, a value
// outside the limits, a word that is not on the list, a word given twice.
func (s Slot) Tell(v any) error { return s.put(v, Told, 0) }

// Derive sets a looked-up or inferred value; it faults as [Slot.Tell] does.
func (s Slot) Derive(v any, basis Basis) error { return s.put(v, Derived, basis) }

func (s Slot) put(v any, state State, basis Basis) error {
	r, ok := s.leaf.read(v)
	if !ok {
		return fault.Invalid(s.leaf.Path, v, s.leaf.Accepted())
	}
	s.write(r, state, basis)
	return nil
}

// DeriveNumber sets a derived value in the form [Slot.Number] gives it, moved
// to the nearest the leaf accepts: a Choice by its ordinal counted from one, a
// Set by its bits. It allocates nothing: the path of the draws. A Text or Day
// has no such form and is left alone.
func (s Slot) DeriveNumber(x float64, basis Basis) {
	if s.leaf.Kind == Text || s.leaf.Kind == Day {
		return
	}
	s.write(raw{num: s.leaf.Nearest(x)}, Derived, basis)
}

// Unsure marks the leaf as asked for and not known.
func (s Slot) Unsure() { s.write(raw{}, Unsure, 0) }

// Clear makes the leaf unknown again.
func (s Slot) Clear() { s.write(raw{}, Unknown, 0) }

func (s Slot) write(r raw, state State, basis Basis) {
	if s.State() == Narrowed {
		s.facts.narrowed.drop(s.leaf.Index)
	}
	s.cell.store(r, state, basis)
}

// Value returns the value, or nil when there is none to use: float64 for a
// Number, int for a Whole, int64 for Money, bool, string for a Choice or Text,
// []string for a Set (never nil), [Date].
func (s Slot) Value() any {
	r, state, _ := s.cell.load()
	if state < Told {
		return nil
	}
	return s.leaf.value(r)
}

func (l *Leaf) value(r raw) any {
	switch l.Kind {
	case Number:
		return r.num
	case Whole:
		return int(r.num)
	case Money:
		return int64(r.num)
	case Flag:
		return r.num == 1
	case Choice:
		return wordAt(l.Words, uint8(r.num))
	case Set:
		return append([]string{}, wordsOf(l.Words, uint32(r.num))...)
	case Day:
		return unpacked(r.num)
	}
	return r.text
}

// Number returns the value as a number: a Number, Whole or Money itself, the
// ordinal of a Choice counted from one, the bits of a Set, one or zero for a
// Flag; and false when there is no value to use.
func (s Slot) Number() (float64, bool) {
	r, state, _ := s.cell.load()
	return r.num, state >= Told
}

// Text returns the text of a Text leaf, or the word of a Choice, and false
// when there is none to use.
func (s Slot) Text() (string, bool) {
	r, state, _ := s.cell.load()
	if s.leaf.Kind == Choice {
		return wordAt(s.leaf.Words, uint8(r.num)), state >= Told
	}
	return r.text, state >= Told
}

// Nearest moves a number to the nearest one the leaf accepts. NaN becomes the
// least.
func (l *Leaf) Nearest(x float64) float64 {
	if len(l.OneOf) > 0 {
		best := l.OneOf[0]
		for _, c := range l.OneOf[1:] {
			if math.Abs(c-x) < math.Abs(best-x) {
				best = c
			}
		}
		return best
	}
	if math.IsNaN(x) {
		return l.Low
	}
	x = min(max(x, l.Low), l.High)
	switch {
	case l.Step != 0:
		x = math.Round(x/l.Step) * l.Step
	case l.Kind != Number:
		x = math.Round(x)
	}
	return x + 0 // minus zero becomes zero
}

// read turns a Go value into the leaf's raw form, and false when it is not
// accepted.
func (l *Leaf) read(v any) (raw, bool) {
	switch l.Kind {
	case Number, Whole, Money:
		x, ok := asNumber(v)
		return raw{num: x}, ok && l.accepts(x)
	case Flag:
		b, ok := v.(bool)
		if b {
			return raw{num: 1}, ok
		}
		return raw{}, ok
	case Choice:
		word, _ := v.(string)
		n := ordinalOf(l.Words, word)
		return raw{num: float64(n)}, n > 0
	case Set:
		return l.readSet(v)
	case Day:
		d, ok := v.(Date)
		if s, isText := v.(string); isText {
			d, ok = ParseDate(s)
		}
		return raw{num: packed(d)}, ok && int(d.Year) >= int(l.Low)
	}
	s, ok := v.(string)
	return raw{text: s}, ok && l.form.ok(s)
}

// accepts reports whether a number lies within the leaf's limits.
func (l *Leaf) accepts(x float64) bool {
	if math.IsNaN(x) || x < l.Low || x > l.High || (x == 0 && math.Signbit(x)) {
		return false
	}
	if l.Kind != Number && x != math.Trunc(x) {
		return false
	}
	if l.Step != 0 && math.Abs(x/l.Step-math.Round(x/l.Step)) > 1e-9 {
		return false
	}
	return len(l.OneOf) == 0 || slices.Contains(l.OneOf, x)
}

func (l *Leaf) readSet(v any) (raw, bool) {
	words, ok := v.([]string)
	if !ok {
		return raw{}, false
	}
	bits := uint32(0)
	for _, w := range words {
		n := ordinalOf(l.Words, w)
		if n == 0 || bits&(1<<(n-1)) != 0 {
			return raw{}, false
		}
		bits |= 1 << (n - 1)
	}
	return raw{num: float64(bits)}, true
}

func asNumber(v any) (float64, bool) {
	switch n := v.(type) {
	case float64:
		return n, true
	case float32:
		return float64(n), true
	case int:
		return float64(n), true
	case int32:
		return float64(n), true
	case int64:
		return float64(n), true
	case uint32:
		return float64(n), true
	}
	return 0, false
}
