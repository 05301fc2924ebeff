package intake

import (
	"slices"

	"daybreak/internal/facts"
	"daybreak/internal/facts/condition"
	"daybreak/internal/intake/tree"
)

// State is what a log comes to.
type State struct {
	Facts    facts.Facts // what is known: said, and what follows from it and from the tables
	Told     facts.Facts // what was said alone
	Open     string      // id of the question to ask now; "" when none is left
	Turns    []Turn      // every question, in scripted order
	Answered int         // questions that need no asking
	Left     int         // questions that apply, or may, and are open
	Number   int         // entries folded
	sources  []origin    // by leaf: what gave it its value
}

// Turn is where one question stands.
type Turn struct {
	Question *tree.Question
	Applies  condition.Truth // unknown: it may, so it is asked
	Entry    int             // number of the entry that counts; 0 when there is none
	Kind     Kind            // of that entry
	SetAside bool            // the entry is kept, but its branch does not apply now
	Open     bool            // to be asked
}

// origin is the latest entry that said something of a leaf.
type origin struct {
	entry    int
	question *tree.Question // nil when it was given outside a question
}

// Fold reads the whole log. The same log, tree and world give the same state.
// The archetype table of the world is not used here: what is usual for a kind
// of vehicle is no reason not to ask for this one.
func Fold(l Log, t *tree.Tree, w *tree.World) State {
	f := folding{
		log: l, tree: t, world: *w, alive: l.alive(), stale: true,
		state: State{Number: l.Len(), sources: make([]origin, len(facts.Leaves()))},
	}
	f.world.Tables.Archetype = nil
	f.given()
	latest := f.latest()
	for _, q := range t.Questions() {
		f.turn(q, latest[q.Place])
	}
	f.state.Facts = *f.seen()
	f.open()
	return f.state
}

type folding struct {
	log   Log
	tree  *tree.Tree
	world tree.World
	alive []bool
	state State
	view  facts.Facts // Told, completed; made anew when stale
	stale bool
}

// seen is what is known so far.
func (f *folding) seen() *facts.Facts {
	if f.stale {
		f.view, f.stale = f.state.Told, false
		facts.Complete(&f.view, f.world.AsOf, f.world.Tables)
	}
	return &f.view
}

// given applies the facts that were told outside questions, in order.
func (f *folding) given() {
	for i, e := range f.log.entries {
		if e.Kind != Told || !f.alive[i] {
			continue
		}
		for _, fact := range e.Facts {
			// A fact was checked before it was appended; one that a changed leaf
			// table no longer accepts is left out and asked again.
			if l, ok := facts.LeafAt(fact.Path); ok && fact.apply(&f.state.Told) == nil {
				f.state.sources[l.Index] = origin{entry: i + 1}
				f.stale = true
			}
		}
	}
}

// latest finds, for each question, the number of the entry that counts.
func (f *folding) latest() []int {
	latest := make([]int, len(f.tree.Questions()))
	for i, e := range f.log.entries {
		if e.Kind != Answered && e.Kind != Unsure && e.Kind != Skipped || !f.alive[i] {
			continue
		}
		if q, ok := f.tree.Question(e.Question); ok {
			latest[q.Place] = i + 1
		}
	}
	return latest
}

// turn decides whether a question applies, by what the questions before it and
// the given facts say, and then lets its entry count.
func (f *folding) turn(q *tree.Question, number int) {
	turn := Turn{Question: q, Applies: condition.True, Entry: number}
	if q.When != nil {
		turn.Applies = q.When.Truth(f.seen())
	}
	if e, ok := f.log.Entry(number); ok {
		turn.Kind = e.Kind
		turn.SetAside = turn.Applies == condition.False
		if !turn.SetAside {
			f.count(q, number, e)
		}
	}
	f.state.Turns = append(f.state.Turns, turn)
}

func (f *folding) count(q *tree.Question, number int, e Entry) {
	o := origin{number, q}
	switch e.Kind {
	case Answered:
		effects, err := q.Read(e.Answer)
		if err != nil {
			return // the tree changed since; the question is asked again
		}
		for _, t := range effects.Tells {
			f.tell(t.Leaf, t.Value, o)
		}
		for _, n := range effects.Narrows {
			if f.newer(n.Leaf, o) {
				candidates, _ := n.Value.([]any)
				_ = f.state.Told.Narrow(n.Leaf.Path, facts.OneOf, candidates...) // checked when the tree was loaded
			}
		}
	case Unsure:
		for i, l := range q.Sets {
			if (i == 0 || l.Kind != facts.Set) && f.newer(l, o) {
				l.At(&f.state.Told).Unsure()
			}
		}
	}
	f.stale = true
}

// newer reports whether an entry may say something of a leaf, and notes it as
// the leaf's origin: the latest word counts.
func (f *folding) newer(l *facts.Leaf, o origin) bool {
	if f.state.sources[l.Index].entry > o.entry {
		return false
	}
	f.state.sources[l.Index] = o
	return true
}

// tell gives a leaf its value. The words that several questions add to one set
// are united. A set given outside a question replaces what was said before it,
// and gives way to a later answer of the question that is about it.
func (f *folding) tell(l *facts.Leaf, v any, o origin) {
	before := f.state.sources[l.Index]
	words, isSet := v.([]string)
	if !isSet {
		if f.newer(l, o) {
			_ = l.At(&f.state.Told).Tell(v) // read from the answer a moment ago
		}
		return
	}
	if before.question == nil && before.entry > o.entry {
		return
	}
	slot := l.At(&f.state.Told)
	if before.question == nil && l == o.question.Sets[0] {
		slot.Clear()
	}
	if have, ok := slot.Value().([]string); ok {
		words = united(have, words)
	}
	_ = slot.Tell(words)
	if o.entry > before.entry {
		f.state.sources[l.Index] = o
	}
}

func united(have, more []string) []string {
	for _, w := range more {
		if !slices.Contains(have, w) {
			have = append(have, w)
		}
	}
	return have
}

// open marks the questions that are left and names the one to ask: the first
// in scripted order, unless a gate has its last chance now.
func (f *folding) open() {
	s := &f.state
	asked := 0
	for i := range s.Turns {
		turn := &s.Turns[i]
		if turn.Entry > 0 {
			asked++
		}
		counted := turn.Entry > 0 && !turn.SetAside && (turn.Kind != Answered || readable(f.log, turn))
		turn.Open = turn.Applies != condition.False && !counted && !settled(turn.Question, &s.Facts)
		switch {
		case turn.Open:
			s.Left++
			if s.Open == "" {
				s.Open = turn.Question.ID
			}
		case turn.Applies != condition.False:
			s.Answered++
		}
	}
	for i := range s.Turns {
		turn := &s.Turns[i]
		if first := turn.Question.AmongFirst; first > 0 && turn.Open && asked >= first-1 {
			s.Open = turn.Question.ID
			return
		}
	}
}

// readable reports whether the entry of a turn still answers its question.
func readable(l Log, turn *Turn) bool {
	e, _ := l.Entry(turn.Entry)
	_, err := turn.Question.Read(e.Answer)
	return err == nil
}

// settled reports whether a question has nothing left to ask: its first leaf
// is known from elsewhere, and so is every fuel it asks for.
func settled(q *tree.Question, f *facts.Facts) bool {
	for i, l := range q.Sets {
		if (i == 0 || l.List == "Fuel") && !l.At(f).Has() {
			return false
		}
	}
	return true
}

// Next returns the open question, or the first after it in scripted order that
// skip does not pass over; nil when none is left. After a halt it serves to ask
// only what still changes what can be done.
func (s *State) Next(skip func(*tree.Question) bool) *tree.Question {
	if t, ok := s.Turn(s.Open); ok && !skip(t.Question) {
		return t.Question
	}
	for i := range s.Turns {
		if t := &s.Turns[i]; t.Open && !skip(t.Question) {
			return t.Question
		}
	}
	return nil
}

// Turn returns where a question stands, and false when there is none.
func (s *State) Turn(id string) (Turn, bool) {
	for _, t := range s.Turns {
		if t.Question.ID == id {
			return t, true
		}
	}
	return Turn{}, false
}
