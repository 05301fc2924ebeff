package tree

import (
	"daybreak/internal/facts"
	"daybreak/internal/facts/condition"
)

// Moves tells of each number of [Tree.Draw] whether it may move a leaf that
// matters in this household: the leaf it draws has no value and may apply, and
// it matters or another one that matters rests on it. A number that cannot
// need not be varied.
func (t *Tree) Moves(f *facts.Facts, matters func(*facts.Leaf) bool) []bool {
	out := make([]bool, t.dimensions)
	needed := map[string]bool{}
	// Backwards, since every step stands after those whose leaves it reads.
	for i := len(t.steps) - 1; i >= 0; i-- {
		st := t.steps[i]
		if st.target.At(f).Has() || st.never(f) {
			continue
		}
		for _, path := range st.sets {
			leaf, ok := facts.LeafAt(path)
			if needed[path] || ok && matters(leaf) {
				out[st.dimension] = true
			}
		}
		if out[st.dimension] {
			for _, path := range st.reads {
				needed[path] = true
			}
		}
	}
	for i := range f.Narrowings() {
		out[t.dimensions-facts.MostNarrowed+i] = true
	}
	return out
}

// never reports whether the step surely does not apply, now and after anything
// else is drawn: what is not known yet may be known then.
func (st *step) never(f *facts.Facts) bool {
	if st.when == nil || st.when.Truth(f) != condition.False {
		return false
	}
	for _, path := range st.when.Reads() {
		if leaf, ok := facts.LeafAt(path); ok && !leaf.At(f).Has() {
			return false
		}
	}
	return true
}

// Sets lists the leaves that a number of [Tree.Draw] gives a value by itself,
// the one it draws first. What follows from them elsewhere is not among them.
func (t *Tree) Sets(dimension int) []*facts.Leaf {
	for _, st := range t.steps {
		if st.dimension != dimension {
			continue
		}
		out := []*facts.Leaf{st.target}
		for _, path := range st.sets {
			if leaf, ok := facts.LeafAt(path); ok && leaf != st.target {
				out = append(out, leaf)
			}
		}
		return out
	}
	return nil
}
