package tree

import (
	"cmp"
	"slices"

	"daybreak/internal/facts"
	"daybreak/internal/facts/condition"
	"daybreak/internal/working"
)

// distributions makes the steps of every question and of every leaf that
// nobody is asked for.
func (b *builder) distributions() {
	for i := range b.doc.Questions {
		d := &b.doc.Questions[i]
		q := b.tree.byID[d.ID]
		q.Verify = d.Unsure.Verify
		b.steps(source{q: q, leaf: q.Sets[0], when: q.When, doc: d.Unsure, at: []any{"questions", i, "unsure"}})
	}
	for i := range b.doc.Unasked {
		d := &b.doc.Unasked[i]
		l := b.leaf(d.Leaf, "unasked", i, "leaf")
		if l == nil || d.Unsure == nil {
			b.fault(d.Leaf, "a leaf and what is taken when nobody knows", "unasked", i)
			continue
		}
		if asked := b.tree.Setting(l.Path); len(asked) > 0 {
			b.fault(l.Path, "a leaf that no question sets; "+asked[0].ID+" does", "unasked", i, "leaf")
		}
		when := b.condition(d.When, "unasked", i, "when")
		b.steps(source{leaf: l, when: when, doc: d.Unsure, at: []any{"unasked", i, "unsure"}})
	}
}

// source is where the steps of one question, or of one leaf, come from.
type source struct {
	q    *Question // nil for a leaf that nobody is asked for
	leaf *facts.Leaf
	when *condition.Condition
	doc  *unsureDoc
	at   []any
}

func (s source) where(more ...any) []any { return append(slices.Clone(s.at), more...) }

func (b *builder) steps(s source) {
	if !working.Status(s.doc.Status).Known() || s.doc.Basis == "" {
		b.fault(s.doc.Basis+", "+s.doc.Status, "a basis, and a status such as from memory or engineering judgement", s.at...)
	}
	docs, where := []distDoc{s.doc.distDoc}, [][]any{s.at}
	if len(s.doc.By) > 0 {
		if b.plainDists(s.doc.distDoc) != 0 || len(s.doc.Each) > 0 {
			b.fault("by beside another distribution", "one of the two", s.at...)
		}
		docs, where = s.doc.By, nil
		for i := range docs {
			where = append(where, s.where("by", i))
			if (docs[i].When == "") != (i == len(docs)-1) {
				b.fault(docs[i].When, "a condition in every row but the last", s.where("by", i)...)
			}
		}
	}
	var main rows
	ticks := map[*facts.Leaf]rows{}
	var tickOrder []*facts.Leaf
	for i := range docs {
		when := b.condition(docs[i].When, append(slices.Clone(where[i]), "when")...)
		if dist := b.dist(s, &docs[i], where[i]); dist != nil {
			main = append(main, row{when, dist})
		}
		for _, p := range b.ticks(s, &docs[i], where[i]) {
			if _, seen := ticks[p.target]; !seen {
				tickOrder = append(tickOrder, p.target)
			}
			ticks[p.target] = append(ticks[p.target], row{when, p})
		}
	}
	if len(main) == 0 && len(ticks) == 0 {
		b.fault("nothing", "a distribution, or omit: true", s.at...)
		return
	}
	b.addStep(s, s.leaf, main)
	for _, l := range tickOrder {
		b.addStep(s, l, ticks[l])
	}
}

// addStep adds a step with what it reads and sets. A single row without a
// condition stands for itself.
func (b *builder) addStep(s source, target *facts.Leaf, r rows) {
	if len(r) == 0 {
		return
	}
	st := &step{
		target: target, question: s.q, when: s.when, dist: r,
		basis: s.doc.Basis, status: working.Status(s.doc.Status), verify: s.doc.Verify,
		sets: []string{target.Path},
	}
	if len(r) == 1 && r[0].when == nil {
		st.dist = r[0].dist
	}
	if s.when != nil {
		st.reads = append(st.reads, s.when.Reads()...)
	}
	for _, row := range r {
		if row.when != nil {
			st.reads = append(st.reads, row.when.Reads()...)
		}
		st.touch(row.dist)
	}
	if _, nothing := st.dist.(omitted); !nothing {
		b.tree.steps = append(b.tree.steps, st)
	}
}

// touch notes what a distribution reads and sets.
func (st *step) touch(d distribution) {
	switch d := d.(type) {
	case *pick:
		for _, o := range d.outcomes {
			for _, a := range o.set {
				st.sets = append(st.sets, a.leaf.Path)
			}
		}
		for _, t := range d.tilts {
			st.reads = append(st.reads, t.when.Reads()...)
		}
	case relative:
		st.reads = append(st.reads, d.to.Path)
	case archetypeSpread, archetypeSteps:
		st.reads = append(st.reads, "vehicle.archetype")
	case homeRegion:
		// What the postal table says of a home follows at once.
		st.sets = append(st.sets, "place.climate_zone", "place.january_mean_f", "place.coldest_night_f", "place.utility",
			"place.jurisdiction", "place.code_edition", "place.climate_station", "place.time_zone")
	}
}

// sortSteps puts every step after those that give a leaf it reads.
func (b *builder) sortSteps() {
	place := func(st *step) int {
		if st.question == nil {
			return len(b.tree.questions)
		}
		return st.question.Place
	}
	slices.SortStableFunc(b.tree.steps, func(x, y *step) int { return cmp.Compare(place(x), place(y)) })
	var sorted []*step
	state := map[*step]int{} // 1: being placed, 2: placed
	var visit func(st *step)
	visit = func(st *step) {
		if state[st] == 2 {
			return
		}
		if state[st] == 1 {
			b.fault(st.target.Path, "distributions that do not rest on one another in a circle", "questions")
			return
		}
		state[st] = 1
		for _, other := range b.tree.steps {
			if other != st && other.target != st.target && rests(st, other) {
				visit(other)
			}
		}
		state[st] = 2
		sorted = append(sorted, st)
	}
	for _, st := range b.tree.steps {
		visit(st)
	}
	b.tree.steps = sorted
}

// rests reports whether a step reads a leaf, not its own, that the other gives.
func rests(st, other *step) bool {
	return slices.ContainsFunc(st.reads, func(p string) bool {
		return p != st.target.Path && slices.Contains(other.sets, p)
	})
}

// dimensions gives each step its number: those named first the lowest, where
// low-discrepancy sequences are most even.
func (b *builder) dimensions() {
	first := b.doc.Order.DrawFirst
	for i, id := range first {
		if b.tree.byID[id] == nil || slices.Contains(first[:i], id) {
			b.fault(id, "the id of a question, once", "order", "draw_first", i)
		}
	}
	rank := func(st *step) int {
		if st.question != nil {
			if i := slices.Index(first, st.question.ID); i >= 0 {
				return i
			}
		}
		return len(first)
	}
	byRank := slices.Clone(b.tree.steps)
	slices.SortStableFunc(byRank, func(x, y *step) int { return cmp.Compare(rank(x), rank(y)) })
	for i, st := range byRank {
		st.dimension = i
	}
	b.tree.dimensions = len(byRank) + facts.MostNarrowed
}

// contradictions compiles the pairs that do not fit together.
func (b *builder) contradictions() {
	for i, d := range b.doc.Contradictions {
		c := &Contradiction{ID: d.ID, Halts: d.Halts, when: b.condition(d.When, "contradictions", i, "when")}
		for j, p := range d.Between {
			if l := b.leaf(p, "contradictions", i, "between", j); l != nil {
				c.Between = append(c.Between, l)
			}
		}
		if d.ID == "" || c.when == nil || len(c.Between) == 0 {
			b.fault(d.ID, "an id, a condition and the facts it stands between", "contradictions", i)
			continue
		}
		b.tree.contradictions = append(b.tree.contradictions, c)
	}
}

// reachable shows a household for every branch, or names the branch.
func (b *builder) reachable() {
	show := func(yes *condition.Condition, no []*condition.Condition, at ...any) {
		if yes == nil {
			return
		}
		if _, ok := condition.Witness(yes, no...); !ok {
			b.fault(yes.Source(), "a condition that some household meets; this branch is never taken", at...)
		}
	}
	for i, d := range b.doc.Questions {
		show(b.tree.byID[d.ID].When, nil, "questions", i, "when")
	}
	for i := range b.doc.Unasked {
		show(b.condition(b.doc.Unasked[i].When), nil, "unasked", i, "when")
	}
	for i, c := range b.tree.contradictions {
		show(c.when, nil, "contradictions", i, "when")
	}
	for _, st := range b.tree.steps {
		r, _ := st.dist.(rows)
		var earlier []*condition.Condition
		for j := range r {
			at := []any{"questions"}
			if st.question != nil {
				at = []any{"questions", slices.IndexFunc(b.doc.Questions, func(d questionDoc) bool { return d.ID == st.question.ID }), "unsure", "by", j}
			}
			show(r[j].when, earlier, at...)
			earlier = append(earlier, r[j].when)
		}
	}
}

// plainDists counts the distributions of a row besides its ticks.
func (b *builder) plainDists(d distDoc) int {
	n := 0
	for _, there := range []bool{d.Omit, d.HomeRegion, len(d.Pick) > 0, d.Lognormal != nil, len(d.Triangle) > 0, d.Hour != nil, d.Archetype != nil, d.Relative != nil} {
		if there {
			n++
		}
	}
	return n
}
