package facts

import (
	"slices"

	"daybreak/internal/fault"
)

// Weight says how a leaf was narrowed, and so how a draw treats it.
type Weight uint8

const (
	// About: a value with some spread, kept as low and high.
	About Weight = iota + 1
	// Range: low and high, every value between alike.
	Range
	// OneOf: a few candidates, weighed as homes like this have them.
	OneOf
	// Maybe: candidates somebody thinks likely; anything else stays possible.
	Maybe
)

var weightWords = []string{"about", "range", "one_of", "maybe"}

// String is the word for the weight.
func (w Weight) String() string { return wordAt(weightWords, uint8(w)) }

// WeightOf returns the weight with that word, and false when there is none.
func WeightOf(word string) (Weight, bool) {
	n := ordinalOf(weightWords, word)
	return Weight(n), n > 0
}

const (
	// MostNarrowed is how many leaves of one household may be narrowed at once.
	MostNarrowed = 12
	// MostCandidates is how many candidates one leaf may be narrowed to.
	MostCandidates = 6
)

// Narrowing is what is known of a leaf that has no exact value.
type Narrowing struct {
	leaf   uint16 // place in the table, counted from one
	weight Weight
	count  uint8
	values [MostCandidates]float64
}

type narrowings [MostNarrowed]Narrowing

// Leaf is the leaf that is narrowed.
func (n Narrowing) Leaf() *Leaf { return leaves[n.leaf-1] }

// Weight says how it is narrowed.
func (n Narrowing) Weight() Weight { return n.weight }

// Numbers returns low and high of About and Range, else the candidates; a
// word is its ordinal, counted from one.
func (n Narrowing) Numbers() []float64 { return slices.Clone(n.values[:n.count]) }

// Limits returns low and high of About and Range, and false otherwise.
func (n Narrowing) Limits() (low, high float64, ok bool) {
	return n.values[0], n.values[1], n.weight == About || n.weight == Range
}

// Holds reports whether x is one of the candidates, or within the limits.
func (n Narrowing) Holds(x float64) bool {
	if low, high, ok := n.Limits(); ok {
		return low <= x && x <= high
	}
	return slices.Contains(n.values[:n.count], x)
}

// Values returns low and high, or the candidates, as [Slot.Value] would.
func (n Narrowing) Values() []any {
	l := n.Leaf()
	out := make([]any, n.count)
	for i, x := range n.values[:n.count] {
		out[i] = l.value(raw{num: x})
	}
	return out
}

// Narrow records that a leaf has no exact value but low and high (About,
// Range: two numbers) or candidates (OneOf: two to six, Maybe: one to six). A
// told or derived value gives way. It faults by path on a leaf that cannot be
// narrowed, on values the leaf would refuse, and when too many are narrowed.
func (f *Facts) Narrow(path string, w Weight, values ...any) error {
	l, ok := LeafAt(path)
	if !ok {
		return UnknownPath(path)
	}
	n, err := l.narrowing(w, values)
	if err != nil {
		return err
	}
	f.narrowed.drop(l.Index)
	if !f.narrowed.add(n) {
		return fault.Invalid(path, "one more narrowed value", "at most 12 narrowed values in one household")
	}
	l.cell(f).store(raw{}, Narrowed, 0)
	return nil
}

func (l *Leaf) narrowing(w Weight, values []any) (Narrowing, error) {
	n := Narrowing{leaf: uint16(l.Index + 1), weight: w, count: uint8(min(len(values), MostCandidates))}
	least, most := 2, 2
	switch w {
	case OneOf:
		most = MostCandidates
	case Maybe:
		least, most = 1, MostCandidates
	}
	numeric := l.Kind == Number || l.Kind == Whole || l.Kind == Money
	if w < About || w > Maybe || !(numeric || l.Kind == Choice && w >= OneOf) {
		return n, fault.Invalid(l.Path, w.String(), "about or range for a number; one_of or maybe for a number or a word")
	}
	if len(values) < least || len(values) > most {
		return n, fault.Invalid(l.Path, len(values), "two values, low then high; or 2 to 6 candidates, 1 to 6 for maybe")
	}
	for i, v := range values {
		r, ok := l.read(v)
		if !ok {
			return n, fault.Invalid(l.Path, v, l.Accepted())
		}
		if w >= OneOf && slices.Contains(n.values[:i], r.num) {
			return n, fault.Invalid(l.Path, v, "each candidate once")
		}
		n.values[i] = r.num
	}
	if low, high, ok := n.Limits(); ok && low > high {
		return n, fault.Invalid(l.Path, values[0], "the low value first, then the high one")
	}
	return n, nil
}

// NarrowedTo returns what a leaf is narrowed to, and false when it is not.
func (f *Facts) NarrowedTo(l *Leaf) (Narrowing, bool) {
	if _, state, _ := l.cell(f).load(); state != Narrowed {
		return Narrowing{}, false
	}
	for _, n := range f.narrowed {
		if int(n.leaf) == l.Index+1 {
			return n, true
		}
	}
	return Narrowing{}, false
}

// Narrowings returns every leaf that is narrowed, in the order of the table.
func (f *Facts) Narrowings() []Narrowing {
	var out []Narrowing
	for _, n := range f.narrowed {
		if n.leaf == 0 {
			break
		}
		if _, state, _ := n.Leaf().cell(f).load(); state == Narrowed {
			out = append(out, n)
		}
	}
	return out
}

// add keeps the array in the order of the table, so that equal households
// compare equal whatever the order of telling.
func (ns *narrowings) add(n Narrowing) bool {
	if ns[MostNarrowed-1].leaf != 0 {
		return false
	}
	i := 0
	for ns[i].leaf != 0 && ns[i].leaf < n.leaf {
		i++
	}
	copy(ns[i+1:], ns[i:])
	ns[i] = n
	return true
}

func (ns *narrowings) drop(index int) {
	for i := range ns {
		if int(ns[i].leaf) == index+1 {
			copy(ns[i:], ns[i+1:])
			ns[MostNarrowed-1] = Narrowing{}
			return
		}
	}
}
