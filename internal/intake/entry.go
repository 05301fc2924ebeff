package intake

import (
	"daybreak/internal/facts"
	"daybreak/internal/fault"
	"daybreak/internal/intake/tree"
)

// Kind is what sort of thing was said.
type Kind uint8

const (
	// Answered: an answer to a question.
	Answered Kind = iota + 1
	// Unsure: "I don't know" to a question.
	Unsure
	// Skipped: a question passed over; its facts stay unknown.
	Skipped
	// Told: facts given outside a question.
	Told
	// Undone: an earlier entry taken back, an undo among them.
	Undone
)

var kindWords = []string{"", "answered", "unsure", "skipped", "told", "undone"}

// String is the word for the kind.
func (k Kind) String() string {
	if int(k) < len(kindWords) {
		return kindWords[k]
	}
	return "unknown"
}

// Entry is one thing that was said. Its number is its place in the log,
// counted from one.
type Entry struct {
	Kind     Kind
	Question string      // of Answered, Unsure and Skipped
	Answer   tree.Answer // of Answered
	Facts    []Fact      // of Told
	Undoes   int         // of Undone: the number of the entry taken back
	Channel  string      // where it was said: "web", "desk", "terminal", "partner"
	By       string      // who said it, opaque; undo takes back one's own last
	At       int64       // when, in milliseconds since 1970-01-01 UTC
	extra    []byte      // fields of a newer version, kept as they came
}

// Op is what a fact given outside a question does to its leaf.
type Op uint8

const (
	// OpTell gives it a value.
	OpTell Op = iota + 1
	// OpUnsure says that it is not known.
	OpUnsure
	// OpClear makes it unknown again.
	OpClear
	// OpNarrow gives it a range or candidates.
	OpNarrow
)

// Fact is a leaf given outside a question.
type Fact struct {
	Path   string
	Op     Op
	Values []any // of OpTell: one, in the form of [facts.Slot.Value]; of OpNarrow: as [facts.Facts.Narrow] takes them
	Weight facts.Weight
	extra  []byte
}

// apply does to a household what the fact says. A path that this version does
// not know is passed over: a newer one wrote it.
func (f Fact) apply(into *facts.Facts) error {
	l, ok := facts.LeafAt(f.Path)
	if !ok {
		return nil
	}
	switch f.Op {
	case OpTell:
		if len(f.Values) == 1 {
			return l.At(into).Tell(f.Values[0])
		}
	case OpUnsure:
		l.At(into).Unsure()
		return nil
	case OpClear:
		l.At(into).Clear()
		return nil
	case OpNarrow:
		return into.Narrow(f.Path, f.Weight, f.Values...)
	}
	return fault.Invalid(f.Path, f.Op, "a value, unsure, clear or narrowed values")
}

// settled is the fact with its values as the household keeps them, once it was
// applied there: the form that records hold.
func (f Fact) settled(l *facts.Leaf, in *facts.Facts) Fact {
	switch f.Op {
	case OpTell:
		f.Values = []any{l.At(in).Value()}
	case OpNarrow:
		if n, ok := in.NarrowedTo(l); ok {
			f.Values = n.Values()
		}
	}
	return f
}
