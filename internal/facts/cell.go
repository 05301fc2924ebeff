package facts

import "strings"

// raw is a value without its Go type: the number, the ordinal of a word, the
// bits of a set, one or zero for a flag, a packed date; or the text.
type raw struct {
	num  float64
	text string
}

// cell is a *Known[T] seen without T. Each kind below is one pointer, so it
// lies in the interface without an allocation.
type cell interface {
	load() (raw, State, Basis)
	store(raw, State, Basis)
}

type numberCell[T ~float64] struct{ k *Known[T] }

func (c numberCell[T]) load() (raw, State, Basis) {
	return raw{num: float64(c.k.value)}, c.k.state, c.k.basis
}
func (c numberCell[T]) store(r raw, s State, b Basis) { *c.k = Known[T]{T(r.num), b, s} }

type wholeCell[T int | int64] struct{ k *Known[T] }

func (c wholeCell[T]) load() (raw, State, Basis) {
	return raw{num: float64(c.k.value)}, c.k.state, c.k.basis
}
func (c wholeCell[T]) store(r raw, s State, b Basis) { *c.k = Known[T]{T(r.num), b, s} }

type wordCell[T ~uint8 | ~uint32] struct{ k *Known[T] }

func (c wordCell[T]) load() (raw, State, Basis) {
	return raw{num: float64(c.k.value)}, c.k.state, c.k.basis
}
func (c wordCell[T]) store(r raw, s State, b Basis) { *c.k = Known[T]{T(r.num), b, s} }

type flagCell struct{ k *Known[bool] }

func (c flagCell) load() (raw, State, Basis) {
	r := raw{}
	if c.k.value {
		r.num = 1
	}
	return r, c.k.state, c.k.basis
}
func (c flagCell) store(r raw, s State, b Basis) { *c.k = Known[bool]{r.num == 1, b, s} }

type textCell struct{ k *Known[string] }

func (c textCell) load() (raw, State, Basis)     { return raw{text: c.k.value}, c.k.state, c.k.basis }
func (c textCell) store(r raw, s State, b Basis) { *c.k = Known[string]{r.text, b, s} }

type dayCell struct{ k *Known[Date] }

func (c dayCell) load() (raw, State, Basis) {
	return raw{num: packed(c.k.value)}, c.k.state, c.k.basis
}
func (c dayCell) store(r raw, s State, b Basis) { *c.k = Known[Date]{unpacked(r.num), b, s} }

// wordAt returns the word of an ordinal that counts from one, or "".
func wordAt(words []string, ordinal uint8) string {
	if ordinal == 0 || int(ordinal) > len(words) {
		return ""
	}
	return words[ordinal-1]
}

// joinWords lists the words of a set in the order of their list.
func joinWords(words []string, bits uint32) string {
	return strings.Join(wordsOf(words, bits), ",")
}

func wordsOf(words []string, bits uint32) []string {
	var out []string
	for i, w := range words {
		if bits&(1<<i) != 0 {
			out = append(out, w)
		}
	}
	return out
}

// ordinalOf returns the place of a word, counted from one, or zero.
func ordinalOf(words []string, word string) int {
	for i, w := range words {
		if w == word {
			return i + 1
		}
	}
	return 0
}
