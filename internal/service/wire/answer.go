package wire

import (
	"math"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/facts"
	"daybreak/internal/fault"
	"daybreak/internal/intake"
	"daybreak/internal/intake/tree"
)

// Given is what was said to one question, in the core's words.
type Given struct {
	Question string
	Kind     intake.Kind // Answered, Unsure or Skipped
	Answer   tree.Answer
	// Rough is set when a number was given as a range or as "about": the leaf
	// is narrowed and the question passed over.
	Rough *intake.Fact
}

// aboutShare is how far either way "about" reaches.
const aboutShare = 0.15

// GivenTo reads what was said to a question of a tree. Units are converted here.
func GivenTo(field string, m *daybreakv1.Answer, t *tree.Tree) (Given, error) {
	g := Given{Question: m.GetQuestion(), Kind: intake.Answered}
	q, ok := t.Question(g.Question)
	if !ok {
		return g, fault.Invalid(field+".question", g.Question, "the id of a question, such as "+t.Questions()[0].ID)
	}
	switch given := m.GetGiven().(type) {
	case *daybreakv1.Answer_Choice:
		g.Answer.Choices = []string{given.Choice}
	case *daybreakv1.Answer_Choices:
		g.Answer.Choices = given.Choices.GetIds()
		if len(g.Answer.Choices) == 0 {
			g.Answer.Choices = noneOf(q)
		}
	case *daybreakv1.Answer_Hour:
		g.Answer.Number, g.Answer.HasNumber = given.Hour, true
	case *daybreakv1.Answer_Text:
		g.Answer.Text = given.Text
	case *daybreakv1.Answer_Unsure:
		g.Kind = intake.Unsure
	case *daybreakv1.Answer_Skip:
		g.Kind = intake.Skipped
	case *daybreakv1.Answer_Number:
		return number(field+".number", g, q, given.Number)
	}
	return g, nil
}

// noneOf is the choice that stands for no tick at all.
func noneOf(q *tree.Question) []string {
	for i := range q.Choices {
		if len(q.Choices[i].Tells) == 0 {
			return []string{q.Choices[i].ID}
		}
	}
	return nil
}

func number(field string, g Given, q *tree.Question, m *daybreakv1.NumberAnswer) (Given, error) {
	ratio, ok := perUnit(m.GetUnit(), enteredIn(q))
	if !ok {
		return g, fault.Invalid(field+".unit", m.GetUnit(), "a unit the question offers: "+offered(q))
	}
	low := m.GetValue() * ratio
	if q.Kind == tree.One {
		for i := range q.Choices {
			if q.Choices[i].Enter != nil {
				g.Answer.Choices = []string{q.Choices[i].ID}
			}
		}
	}
	high := low
	if m.High != nil {
		high = m.GetHigh() * ratio
	}
	weight := facts.Range
	if m.GetAbout() && m.High == nil {
		weight, low, high = facts.About, low*(1-aboutShare), high*(1+aboutShare)
	}
	if low > high {
		return g, fault.Invalid(field+".high", m.GetHigh(), "a number not below value")
	}
	if low == high || len(g.Answer.Choices) > 0 {
		g.Answer.Number, g.Answer.HasNumber = tidy(low, ratio), true
		return g, nil
	}
	leaf := q.Sets[0]
	g.Kind = intake.Skipped
	g.Rough = &intake.Fact{
		Path: leaf.Path, Op: intake.OpNarrow, Weight: weight,
		Values: []any{leaf.Nearest(tidy(low, ratio)), leaf.Nearest(tidy(high, ratio))},
	}
	return g, nil
}

// enteredIn is the unit a typed number is taken in: the question's, or that of
// the leaf a choice opens a box for.
func enteredIn(q *tree.Question) string {
	for i := range q.Choices {
		if leaf := q.Choices[i].Enter; leaf != nil {
			return leaf.Unit
		}
	}
	return q.Unit
}

// tidy drops what a conversion of units leaves beyond a hundredth.
func tidy(x, ratio float64) float64 {
	if ratio == 1 {
		return x
	}
	return math.Round(x*100) / 100
}

func offered(q *tree.Question) string {
	text := enteredIn(q)
	for _, other := range q.Accepts {
		text += ", " + other
	}
	if text == "" {
		return "none"
	}
	return text
}
