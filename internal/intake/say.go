package intake

import (
	"fmt"

	"daybreak/internal/facts"
	"daybreak/internal/facts/condition"
	"daybreak/internal/fault"
	"daybreak/internal/intake/tree"
)

// Head is the base of a writer who looked at nothing in particular: the entry
// is added to whatever stands.
const Head = -1

// Meta is what every entry carries.
type Meta struct {
	Channel string
	By      string
	At      int64 // milliseconds since 1970-01-01 UTC
	Base    int   // number of the last entry the writer had seen; Head when none is named
}

// Reply is what an entry does: the entry to append, and the state with it.
type Reply struct {
	Entry   Entry
	State   State
	Rebased bool // the log had moved on since the writer's base, without conflict
}

// Answer checks an answer to a question against the log. Faults: an unknown
// question, a question that does not apply now (Precondition), an answer the
// question does not take, and a conflict with what changed since the base.
func Answer(l Log, t *tree.Tree, w *tree.World, question string, a tree.Answer, m Meta) (Reply, error) {
	q, err := asked(l, t, w, question)
	if err != nil {
		return Reply{}, err
	}
	effects, err := q.Read(a)
	if err != nil {
		return Reply{}, err
	}
	if q.Kind == tree.Vehicle && w.Tables.Model != nil {
		if _, ok := w.Tables.Model(a.Text); !ok {
			return Reply{}, fault.Invalid("answer.text", a.Text, "the id of a vehicle of the catalogue")
		}
	}
	var writes []*facts.Leaf
	for _, said := range append(append([]tree.Tell{}, effects.Tells...), effects.Narrows...) {
		writes = append(writes, said.Leaf)
	}
	return add(l, t, w, Entry{Kind: Answered, Question: question, Answer: a}, m, writes, q)
}

// DontKnow checks an "I don't know" to a question; its facts become unsure.
func DontKnow(l Log, t *tree.Tree, w *tree.World, question string, m Meta) (Reply, error) {
	q, err := asked(l, t, w, question)
	if err != nil {
		return Reply{}, err
	}
	return add(l, t, w, Entry{Kind: Unsure, Question: question}, m, q.Sets, q)
}

// Skip checks the passing over of a question; its facts stay unknown.
func Skip(l Log, t *tree.Tree, w *tree.World, question string, m Meta) (Reply, error) {
	q, err := asked(l, t, w, question)
	if err != nil {
		return Reply{}, err
	}
	return add(l, t, w, Entry{Kind: Skipped, Question: question}, m, q.Sets, q)
}

// Tell checks facts given outside a question: all of them, or none.
func Tell(l Log, t *tree.Tree, w *tree.World, given []Fact, m Meta) (Reply, error) {
	if len(given) == 0 {
		return Reply{}, fault.Invalid("facts", "nothing", "at least one fact")
	}
	var writes []*facts.Leaf
	seen := map[string]bool{}
	scratch := Fold(l, t, w).Told
	said := make([]Fact, len(given))
	for i, f := range given {
		leaf, ok := facts.LeafAt(f.Path)
		if !ok {
			return Reply{}, facts.UnknownPath(f.Path)
		}
		if seen[f.Path] {
			return Reply{}, fault.Invalid(f.Path, "the same fact twice", "each fact once")
		}
		if err := f.apply(&scratch); err != nil {
			return Reply{}, err
		}
		seen[f.Path] = true
		writes = append(writes, leaf)
		said[i] = f.settled(leaf, &scratch)
	}
	return add(l, t, w, Entry{Kind: Told, Facts: said}, m, writes, nil)
}

// Undo checks the taking back of an entry: the one with that number, or for 0
// the last of the writer's own that still counts. Undoing an undo brings back
// what it took.
func Undo(l Log, t *tree.Tree, w *tree.World, number int, m Meta) (Reply, error) {
	alive := l.alive()
	if number == 0 {
		for i := l.Len() - 1; i >= 0 && number == 0; i-- {
			e := &l.entries[i]
			if alive[i] && e.Kind != Undone && e.By == m.By && e.Channel == m.Channel {
				number = i + 1
			}
		}
		if number == 0 {
			return Reply{}, &fault.Fault{
				Kind: fault.KindPrecondition, Reason: "NOTHING_TO_UNDO", Field: "entry",
				Accepted: "undo after something was said here",
			}
		}
	}
	if number < 1 || number > l.Len() || !alive[number-1] {
		return Reply{}, fault.Invalid("entry", number, "the number of an entry that still counts")
	}
	return add(l, t, w, Entry{Kind: Undone, Undoes: number}, m, nil, nil)
}

// asked finds a question and refuses one that does not apply now.
func asked(l Log, t *tree.Tree, w *tree.World, id string) (*tree.Question, error) {
	q, ok := t.Question(id)
	if !ok {
		return nil, fault.Invalid("question", id, "the id of a question, such as "+t.Questions()[0].ID)
	}
	if q.When == nil {
		return q, nil
	}
	now := Fold(l, t, w)
	if now.Turns[q.Place].Applies == condition.False {
		open := "; none is open now"
		if now.Open != "" {
			open = ", such as " + now.Open
		}
		return nil, &fault.Fault{
			Kind: fault.KindPrecondition, Reason: "DOES_NOT_APPLY", Field: "question", Got: fmt.Sprintf("%q", id),
			Accepted: "a question that applies" + open, Detail: "it is asked only when " + q.When.Source(),
		}
	}
	return q, nil
}

// add appends the entry if its writer is not stale.
func add(l Log, t *tree.Tree, w *tree.World, e Entry, m Meta, writes []*facts.Leaf, q *tree.Question) (Reply, error) {
	if l.Len() >= MostEntries {
		return Reply{}, &fault.Fault{
			Kind: fault.KindExhausted, Reason: "LOG_FULL", Field: "session",
			Accepted: fmt.Sprintf("at most %d entries; start again with the facts as they stand", MostEntries),
		}
	}
	e.Channel, e.By, e.At = m.Channel, m.By, m.At
	with := l.With(e)
	r := Reply{Entry: e, State: Fold(with, t, w)}
	if m.Base == Head || m.Base == l.Len() {
		return r, nil
	}
	if m.Base < 0 || m.Base > l.Len() {
		return Reply{}, fault.Invalid("base_revision", m.Base, "a revision of this session")
	}
	r.Rebased = true
	return r, conflict(l, t, w, &r.State, m.Base, writes, q)
}
