package tree

import (
	"slices"
	"strings"

	"daybreak/internal/facts"
	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// Answer is what a person gave to a question, in the leaf's own unit.
type Answer struct {
	Choices   []string
	Number    float64
	HasNumber bool
	Text      string
}

// Effects is what an answer says about the household. A told Set holds only
// the words this answer adds.
type Effects struct {
	Tells   []Tell
	Narrows []Tell // leaf and candidates, a []any
}

// Read checks an answer against the question and returns what it says. It
// faults by the field of the answer and names what is accepted.
func (q *Question) Read(a Answer) (Effects, error) {
	switch q.Kind {
	case Number, Hour:
		return q.readNumber(a)
	case Postal, Vehicle:
		return q.readText(a)
	case Several:
		return q.readSeveral(a)
	}
	return q.readOne(a)
}

func (q *Question) readNumber(a Answer) (Effects, error) {
	if len(a.Choices) > 0 || a.Text != "" || !a.HasNumber {
		return Effects{}, fault.Invalid("answer.number", "no number", q.acceptedNumber())
	}
	return q.enter(q.Sets[0], a.Number)
}

// enter takes a typed number for a leaf, within the question's limits.
func (q *Question) enter(l *facts.Leaf, x float64) (Effects, error) {
	limited := q.Limits != (Limits{})
	if !unit.Finite(x) || limited && (x < q.Limits.Low || x > q.Limits.High) || !accepts(l, x) {
		if limited {
			return Effects{}, fault.Invalid("answer.number", x, q.acceptedNumber())
		}
		return Effects{}, fault.Invalid("answer.number", x, l.Accepted())
	}
	return Effects{Tells: []Tell{{l, x}}}, nil
}

func accepts(l *facts.Leaf, v any) bool {
	var scratch facts.Facts
	return l.At(&scratch).Tell(v) == nil
}

func (q *Question) acceptedNumber() string {
	s := "a number from " + unit.Print(q.Limits.Low, 2) + " to " + unit.Print(q.Limits.High, 2)
	if q.Unit != "" {
		s += " " + q.Unit
	}
	return s
}

func (q *Question) readText(a Answer) (Effects, error) {
	l := q.Sets[0]
	if len(a.Choices) > 0 || a.HasNumber || !accepts(l, a.Text) {
		return Effects{}, fault.Invalid("answer.text", a.Text, l.Accepted())
	}
	return Effects{Tells: []Tell{{l, a.Text}}}, nil
}

func (q *Question) readOne(a Answer) (Effects, error) {
	if a.Text != "" {
		return Effects{}, fault.Invalid("answer.text", a.Text, "nothing; this question takes a choice")
	}
	if len(a.Choices) == 0 && a.HasNumber && q.AlsoNumber {
		return q.enter(q.Sets[0], a.Number)
	}
	if len(a.Choices) != 1 {
		return Effects{}, fault.Invalid("answer.choices", len(a.Choices), "exactly one of "+q.choiceIDs())
	}
	c, ok := q.Choice(a.Choices[0])
	if !ok {
		return Effects{}, fault.Invalid("answer.choices", a.Choices[0], "one of "+q.choiceIDs())
	}
	if c.Enter != nil {
		if !a.HasNumber {
			return Effects{}, fault.Invalid("answer.number", "no number", c.Enter.Accepted())
		}
		return q.enter(c.Enter, a.Number)
	}
	if a.HasNumber {
		return Effects{}, fault.Invalid("answer.number", a.Number, "no number beside this choice")
	}
	return Effects{Tells: c.Tells, Narrows: c.Narrows}, nil
}

// readSeveral unites the words of the ticks. A fuel left unticked is told as
// none: the person saw the box and left it.
func (q *Question) readSeveral(a Answer) (Effects, error) {
	if len(a.Choices) == 0 || a.HasNumber || a.Text != "" {
		return Effects{}, fault.Invalid("answer.choices", "none", "at least one of "+q.choiceIDs())
	}
	words := map[*facts.Leaf][]string{}
	values := map[*facts.Leaf]any{}
	for i, id := range a.Choices {
		c, ok := q.Choice(id)
		if !ok || slices.Contains(a.Choices[:i], id) {
			return Effects{}, fault.Invalid("answer.choices", id, "each once, of "+q.choiceIDs())
		}
		if len(c.Tells) == 0 && len(a.Choices) > 1 {
			return Effects{}, fault.Invalid("answer.choices", id, "this choice alone, or the others without it")
		}
		for _, t := range c.Tells {
			if word, isWord := t.Value.([]string); isWord {
				words[t.Leaf] = append(words[t.Leaf], word...)
			} else {
				values[t.Leaf] = t.Value
			}
		}
	}
	return q.unite(words, values), nil
}

func (q *Question) unite(words map[*facts.Leaf][]string, values map[*facts.Leaf]any) Effects {
	var e Effects
	for i, l := range q.Sets {
		v, told := values[l]
		w, ticked := words[l]
		switch {
		case told:
			e.Tells = append(e.Tells, Tell{l, v})
		case ticked:
			e.Tells = append(e.Tells, Tell{l, w})
		case l.List == "Fuel":
			e.Tells = append(e.Tells, Tell{l, "none"})
		case i == 0 && l.Kind == facts.Set:
			e.Tells = append(e.Tells, Tell{l, []string{}})
		}
	}
	return e
}

func (q *Question) choiceIDs() string {
	ids := make([]string, len(q.Choices))
	for i, c := range q.Choices {
		ids[i] = c.ID
	}
	return strings.Join(ids, ", ")
}
