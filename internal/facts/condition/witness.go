package condition

import (
	"slices"

	"daybreak/internal/facts"

	celast "cel.dev/cel-go/common/ast"
	"cel.dev/cel-go/common/types"
)

// mostTries bounds the search for a witness; a tree's own conditions need a
// few thousand at most.
const mostTries = 200_000

// Witness finds a household for which yes is true and every condition of no
// is false, and reports whether there is one among the values that matter:
// every word, both ends of every number and both sides of every number the
// conditions mention. So a branch chosen by "the first that holds" is shown
// to be reachable, or is named by its loader.
func Witness(yes *Condition, no ...*Condition) (facts.Facts, bool) {
	s := search{yes: yes, no: no}
	for _, c := range append([]*Condition{yes}, no...) {
		s.reads = append(s.reads, c.reads...)
		s.collect(c.root)
	}
	slices.SortFunc(s.reads, func(a, b *facts.Leaf) int { return a.Index - b.Index })
	s.reads = slices.Compact(s.reads)
	var f facts.Facts
	found := s.try(&f, 0)
	return f, found
}

type search struct {
	yes     *Condition
	no      []*Condition
	reads   []*facts.Leaf
	numbers []float64
	words   []string
	tries   int
}

// collect gathers the literals of an expression.
func (s *search) collect(e celast.Expr) {
	switch e.Kind() {
	case celast.LiteralKind:
		switch v := e.AsLiteral().(type) {
		case types.Double:
			s.numbers = append(s.numbers, float64(v))
		case types.String:
			s.words = append(s.words, string(v))
		}
	case celast.ListKind:
		for _, item := range e.AsList().Elements() {
			s.collect(item)
		}
	case celast.CallKind:
		for _, a := range e.AsCall().Args() {
			s.collect(a)
		}
	}
}

func (s *search) try(f *facts.Facts, i int) bool {
	if s.tries >= mostTries {
		return false
	}
	if i == len(s.reads) {
		s.tries++
		return s.holds(f)
	}
	slot := s.reads[i].At(f)
	for _, v := range s.values(s.reads[i]) {
		if slot.Tell(v) == nil && s.try(f, i+1) {
			return true
		}
	}
	slot.Unsure()
	if s.try(f, i+1) {
		return true
	}
	slot.Clear()
	return s.try(f, i+1)
}

func (s *search) holds(f *facts.Facts) bool {
	if s.yes.Truth(f) != True {
		return false
	}
	for _, c := range s.no {
		if c.Truth(f) != False {
			return false
		}
	}
	return true
}

// values lists the values of a leaf that can make a difference.
func (s *search) values(l *facts.Leaf) []any {
	switch l.Kind {
	case facts.Flag:
		return []any{true, false}
	case facts.Choice:
		return anys(l.Words)
	case facts.Set:
		sets := []any{[]string{}, l.Words}
		for _, w := range l.Words {
			sets = append(sets, []string{w})
		}
		return sets
	case facts.Text, facts.Day:
		return append(anys(s.words), "00000", "2026-01-01")
	}
	var numbers []any
	for _, n := range append([]float64{l.Low, l.High}, s.numbers...) {
		for _, x := range []float64{n, n - 1, n + 1} {
			numbers = append(numbers, l.Nearest(x))
		}
	}
	return numbers
}

func anys(words []string) []any {
	out := make([]any, len(words))
	for i, w := range words {
		out[i] = w
	}
	return out
}
