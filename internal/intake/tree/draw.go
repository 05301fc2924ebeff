package tree

import (
	"daybreak/internal/facts"
	"daybreak/internal/facts/condition"
	"daybreak/internal/working"
)

// step draws one leaf, and what goes with it.
type step struct {
	target    *facts.Leaf
	question  *Question // nil when nobody is asked for the leaf
	when      *condition.Condition
	dist      distribution
	dimension int
	basis     string
	status    working.Status
	verify    bool
	reads     []string // leaves it rests on
	sets      []string // leaves it may give a value
}

// applies says whether the step is taken. A question that may apply is drawn;
// a leaf that nobody is asked for is drawn only where it surely matters.
func (st *step) applies(f *facts.Facts) bool {
	if st.when == nil {
		return true
	}
	t := st.when.Truth(f)
	return t == condition.True || st.question != nil && t == condition.Unknown
}

// Draw gives every leaf without a value one, from numbers between 0 and 1: as
// many as [Tree.Dimensions]. It draws in the order in which leaves rest on one
// another, by the stated distributions, and within what is narrowed; then it
// completes the household from the tables. A told or derived leaf is never
// touched, so complete the household before. Numbers beyond the given ones are
// taken as one half.
func (t *Tree) Draw(u []float64, f *facts.Facts, w *World) {
	s := scene{f, w}
	for _, st := range t.steps {
		slot := st.target.At(f)
		if slot.Has() || !st.applies(f) {
			continue
		}
		x := numberAt(u, st.dimension)
		if n, ok := f.NarrowedTo(st.target); ok {
			s.settle(narrowedAt(x, n, st.dist, s), facts.FromDraw)
			continue
		}
		s.settle(st.dist.at(x, s), facts.FromDraw)
	}
	for i, n := range f.Narrowings() {
		x := numberAt(u, t.dimensions-facts.MostNarrowed+i)
		s.settle(narrowedAt(x, n, nil, s), facts.FromDraw)
	}
	facts.Complete(f, w.AsOf, w.Tables)
}

func numberAt(u []float64, i int) float64 {
	if i < len(u) {
		return u[i]
	}
	return 0.5
}

// settle gives the leaves of an outcome their values, where they have none.
func (s scene) settle(o outcome, basis facts.Basis) {
	switch {
	case o.none:
	case o.text != "":
		if s.f.Place.PostalCode.State() < facts.Narrowed {
			s.f.Place.PostalCode = facts.Derive(o.text, basis)
		}
		facts.Complete(s.f, s.world.AsOf, s.world.Tables)
	case o.set == nil:
		s.assign(o.one, basis)
	default:
		for _, a := range o.set {
			s.assign(a, basis)
		}
	}
}

func (s scene) assign(a assignment, basis facts.Basis) {
	if slot := a.leaf.At(s.f); !slot.Has() {
		slot.DeriveNumber(a.num, basis)
	}
}

// Central gives every leaf without a value the middle of what homes like this
// have, and lists what was assumed, in the order it was assumed. Then it
// completes the household from the tables.
func (t *Tree) Central(f *facts.Facts, w *World) []Assumption {
	s := scene{f, w}
	var assumed []Assumption
	for _, st := range t.steps {
		slot := st.target.At(f)
		if slot.Has() || !st.applies(f) {
			continue
		}
		o := st.dist.middle(s)
		if n, ok := f.NarrowedTo(st.target); ok {
			o = narrowedMiddle(n, st.dist, s)
		}
		s.settle(o, facts.FromClassPrior)
		if !slot.Has() {
			continue
		}
		a := Assumption{Leaf: st.target, Value: slot.Value(), Basis: st.basis, Status: st.status, Verify: st.verify}
		if st.question != nil {
			a.Question = st.question.ID
		}
		assumed = append(assumed, a)
	}
	for _, n := range f.Narrowings() {
		s.settle(narrowedMiddle(n, nil, s), facts.FromClassPrior)
		assumed = append(assumed, Assumption{
			Leaf: n.Leaf(), Value: n.Leaf().At(f).Value(), Basis: "the middle of what was said", Status: working.Judgement,
		})
	}
	facts.Complete(f, w.AsOf, w.Tables)
	return assumed
}
