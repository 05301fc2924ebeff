package wire

import (
	"math"
	"strings"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/facts"
	"daybreak/internal/intake/tree"
	"daybreak/internal/unit"
)

// Tree is every question of a tree, in scripted order.
func (w *Words) Tree(t *tree.Tree) *daybreakv1.QuestionTree {
	out := &daybreakv1.QuestionTree{Revision: t.Revision(), Locale: w.Locale}
	for _, q := range t.Questions() {
		out.Questions = append(out.Questions, w.Question(t, q))
	}
	return out
}

// treeWords are a tree's words in this locale.
func (w *Words) treeWords(t *tree.Tree) *tree.Words {
	language, _, _ := strings.Cut(w.Locale, "-")
	if words, ok := t.Words(language); ok {
		return words
	}
	words, _ := t.Words(t.Locales()[0])
	return words
}

// Question is one question as people read it.
func (w *Words) Question(t *tree.Tree, q *tree.Question) *daybreakv1.Question {
	all := w.treeWords(t)
	words := all.Questions[q.ID]
	out := &daybreakv1.Question{
		Id: q.ID, Kind: questionKind(q.Kind), Text: words.Words, Spoken: words.Agent, Why: words.Why, Find: words.Find, Block: q.Block,
	}
	for _, l := range q.Sets {
		out.Sets = append(out.Sets, l.Path)
	}
	for i := range q.Choices {
		out.Choices = append(out.Choices, choice(q, &q.Choices[i], words.Choices[q.Choices[i].ID], all))
	}
	if q.Limits != (tree.Limits{}) {
		out.Limits = limitsOf(q, all)
	}
	return out
}

func questionKind(k tree.Kind) daybreakv1.QuestionKind {
	return map[tree.Kind]daybreakv1.QuestionKind{
		tree.One:     daybreakv1.QuestionKind_QUESTION_KIND_ONE,
		tree.Several: daybreakv1.QuestionKind_QUESTION_KIND_SEVERAL,
		tree.Number:  daybreakv1.QuestionKind_QUESTION_KIND_NUMBER,
		tree.Hour:    daybreakv1.QuestionKind_QUESTION_KIND_HOUR,
		tree.Postal:  daybreakv1.QuestionKind_QUESTION_KIND_POSTAL,
		tree.Vehicle: daybreakv1.QuestionKind_QUESTION_KIND_VEHICLE,
		tree.Picture: daybreakv1.QuestionKind_QUESTION_KIND_PICTURE,
	}[k]
}

func choice(q *tree.Question, c *tree.Choice, text string, all *tree.Words) *daybreakv1.Choice {
	out := &daybreakv1.Choice{Id: c.ID, Text: text}
	for _, tell := range c.Tells {
		if word, ok := tell.Value.(string); ok && tell.Leaf.List == "Configuration" {
			out.Face = configuration(word)
		}
	}
	if q.Kind == tree.Picture && out.Face == nil {
		out.Picture = c.ID
	}
	if c.Enter != nil {
		step := max(c.Enter.Step, 1)
		out.Enter = &daybreakv1.NumberLimits{Unit: c.Enter.Unit, Low: c.Enter.Low, High: c.Enter.High, Step: step, UnitText: unitText(all, c.Enter.Unit)}
	}
	return out
}

// limitsOf is what a number may be, in each unit a person may type.
func limitsOf(q *tree.Question, words *tree.Words) []*daybreakv1.NumberLimits {
	out := []*daybreakv1.NumberLimits{{
		Unit: q.Unit, Low: q.Limits.Low, High: q.Limits.High, Step: q.Limits.Step, UnitText: unitText(words, q.Unit),
	}}
	for _, other := range q.Accepts {
		ratio, ok := perUnit(other, q.Unit)
		if !ok {
			continue
		}
		out = append(out, &daybreakv1.NumberLimits{
			Unit: other, Low: math.Ceil(q.Limits.Low / ratio), High: math.Floor(q.Limits.High / ratio), Step: q.Limits.Step, UnitText: unitText(words, other),
		})
	}
	return out
}

// unitText is a unit as people read it, without a number.
func unitText(words *tree.Words, name string) string {
	text, _, _ := strings.Cut(strings.Replace(words.Units[name], "{n}", "", 1), "{")
	return strings.TrimSpace(text)
}

// perUnit is how many of one unit another is: a kilometre in miles.
func perUnit(of, in string) (float64, bool) {
	switch {
	case of == in || of == "":
		return 1, true
	case of == "km" && in == "mi":
		return 1 / unit.KilometresPerMile, true
	case of == "m" && in == "ft":
		return 1 / unit.MetresPerFoot, true
	case of == "m²" && in == "ft²":
		return 1 / (unit.MetresPerFoot * unit.MetresPerFoot), true
	}
	return 0, false
}

// valueText is a leaf's value as people read it.
func valueText(words *tree.Words, l *facts.Leaf, v any) string {
	switch v := v.(type) {
	case nil:
		return ""
	case bool:
		if v {
			return words.Help["true"]
		}
		return words.Help["false"]
	case string:
		if text := words.Values[l.List][v]; text != "" {
			return text
		}
		return v
	case []string:
		if len(v) == 0 {
			return noneText(words)
		}
		texts := make([]string, len(v))
		for i, one := range v {
			texts[i] = valueText(words, l, one)
		}
		return strings.Join(texts, ", ")
	case facts.Date:
		return v.String()
	case float64:
		return numberText(words, l, v)
	case int:
		return numberText(words, l, float64(v))
	case int64:
		return unit.Print(float64(v)/100, 2)
	}
	return ""
}

// noneText is the empty set as people read it: the words of the choice that
// says none, without its first capital.
func noneText(words *tree.Words) string {
	return strings.ToLower(words.Questions["place.signs"].Choices["none"])
}

func numberText(words *tree.Words, l *facts.Leaf, x float64) string {
	n := unit.Print(x, max(l.Decimals, 1))
	if l.Unit == "h" {
		return clock(x)
	}
	if text := words.Units[l.Unit]; text != "" {
		return strings.Replace(text, "{n}", n, 1)
	}
	return n
}

// clock is an hour of the day, "7:30 PM".
func clock(hours float64) string {
	minutes := int(math.Round(hours*60)) % (24 * 60)
	h, m, half := minutes/60, minutes%60, "AM"
	if h >= 12 {
		half = "PM"
	}
	if h %= 12; h == 0 {
		h = 12
	}
	return unit.Print(float64(h), 0) + ":" + twoDigits(m) + " " + half
}

func twoDigits(n int) string { return string([]byte{byte('0' + n/10), byte('0' + n%10)}) }
