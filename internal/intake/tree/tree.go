package tree

import (
	"slices"

	"daybreak/internal/facts"
	"daybreak/internal/facts/condition"
	"daybreak/internal/working"
)

// Tree is a checked set of questions with its words. It is read-only after
// loading and safe for concurrent use.
type Tree struct {
	questions      []*Question // in scripted order
	byID           map[string]*Question
	contradictions []*Contradiction
	words          map[string]*Words
	locales        []string
	steps          []*step
	dimensions     int
	revision       string
}

// Kind is how a question is answered.
type Kind string

const (
	// One: exactly one choice.
	One Kind = "one"
	// Picture: exactly one choice, shown as drawings.
	Picture Kind = "picture"
	// Several: any number of choices, or the one that says none.
	Several Kind = "several"
	// Number: a number within limits.
	Number Kind = "number"
	// Hour: a time of day in hours, to the half hour.
	Hour Kind = "hour"
	// Postal: a postal code.
	Postal Kind = "postal"
	// Vehicle: a row of the vehicle table.
	Vehicle Kind = "vehicle"
)

// Question is one turn of the conversation.
type Question struct {
	ID         string
	Sets       []*facts.Leaf        // the first is told even when nothing is ticked
	When       *condition.Condition // nil when it always applies
	Kind       Kind
	Choices    []Choice
	AlsoNumber bool     // a number may stand for a choice
	Unit       string   // of the number, as leaves spell it
	Accepts    []string // other units a person may type; converted at the edge
	Limits     Limits   // of the number
	Block      string   // questions of a block are asked together; "" when alone
	Raises     []Raise
	Effort     Effort
	Verify     bool // an assumed value stays on the list to check on site
	Place      int  // in the scripted order, from 0
	AmongFirst int  // it must be asked among the first so many; 0 when there is no such gate
}

// Limits bound a typed number; Step is the size of a stepper's step.
type Limits struct{ Low, High, Step float64 }

// Choice is one answer that can be picked.
type Choice struct {
	ID      string
	Tells   []Tell
	Narrows []Tell       // leaf and candidates, a []any
	Enter   *facts.Leaf  // the leaf a typed number goes to
	leaves  []assignment // Tells in the form of the draws
}

// Tell is a leaf and the value an answer gives it.
type Tell struct {
	Leaf  *facts.Leaf
	Value any
}

// Raise is a caution that an answer can raise.
type Raise struct {
	Code    string   // of the safety findings, such as D-101
	Level   string   // halts, adds or says
	Choices []string // that raise it; empty when it depends on a number
}

// Effort is what a question costs to answer: a first guess, to be replaced by
// measured medians.
type Effort struct {
	ChairSeconds float64 // answering from the chair
	WalkSeconds  float64 // to walk and look
	FromChair    float64 // share who need no walk
	Willing      float64 // share who give an answer
}

// Contradiction is a pair of answers that do not fit together.
type Contradiction struct {
	ID      string
	Between []*facts.Leaf
	Halts   bool // the outlet is not used until it is settled
	when    *condition.Condition
}

// Assumption is a value taken because nobody knew.
type Assumption struct {
	Leaf     *facts.Leaf
	Value    any
	Question string // id of the question that would settle it; "" when nobody is asked
	Basis    string // what the value rests on
	Status   working.Status
	Verify   bool // to be checked on site
}

// Questions returns every question in scripted order. Callers must not change
// them.
func (t *Tree) Questions() []*Question { return t.questions }

// Question returns the question with that id, and false when there is none.
func (t *Tree) Question(id string) (*Question, bool) {
	q, ok := t.byID[id]
	return q, ok
}

// Setting returns the questions that may set a leaf, in scripted order.
func (t *Tree) Setting(path string) []*Question {
	var out []*Question
	for _, q := range t.questions {
		if slices.ContainsFunc(q.Sets, func(l *facts.Leaf) bool { return l.Path == path }) {
			out = append(out, q)
		}
	}
	return out
}

// Locales lists the locales offered, the first the default.
func (t *Tree) Locales() []string { return t.locales }

// Words returns the words of a locale, and false when it is not offered.
func (t *Tree) Words(locale string) (*Words, bool) {
	w, ok := t.words[locale]
	return w, ok
}

// Revision is a digest of the files the tree was loaded from.
func (t *Tree) Revision() string { return t.revision }

// Dimensions is how many numbers [Tree.Draw] takes.
func (t *Tree) Dimensions() int { return t.dimensions }

// Applies says whether a question applies to a household. Unknown means that
// it may, and so it is asked.
func (q *Question) Applies(f *facts.Facts) condition.Result {
	if q.When == nil {
		return condition.Result{Value: condition.True}
	}
	return q.When.Eval(f)
}

// Choice returns the choice with that id, and false when there is none.
func (q *Question) Choice(id string) (*Choice, bool) {
	for i := range q.Choices {
		if q.Choices[i].ID == id {
			return &q.Choices[i], true
		}
	}
	return nil, false
}

// Contradictions returns the pairs of answers of a household that do not fit
// together, in the order of the file. Some need what follows from tables, so
// give a household that has been completed.
func (t *Tree) Contradictions(f *facts.Facts) []*Contradiction {
	var out []*Contradiction
	for _, c := range t.contradictions {
		if c.when.Truth(f) == condition.True {
			out = append(out, c)
		}
	}
	return out
}

// World is what a household is filled from besides its own answers.
type World struct {
	Tables     facts.Tables
	HomePostal string // the shop's own region, for a postal code nobody knows
	AsOf       facts.Date
}
