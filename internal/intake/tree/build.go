package tree

import (
	"fmt"
	"slices"

	"daybreak/internal/facts"
)

var kinds = []Kind{One, Picture, Several, Number, Hour, Postal, Vehicle}

var raiseLevels = []string{"halts", "adds", "says"}

func (b *builder) question(i int, d *questionDoc) {
	at := func(more ...any) []any { return append([]any{"questions", i}, more...) }
	q := &Question{
		ID: d.ID, Kind: Kind(d.Kind), AlsoNumber: d.AlsoNumber, Unit: d.Unit, Accepts: d.Accepts,
		Effort: Effort{d.Effort.Chair, d.Effort.Walk, d.Effort.FromChair, d.Effort.Willing},
		When:   b.condition(d.When, at("when")...),
	}
	if _, twice := b.tree.byID[d.ID]; twice || d.ID == "" {
		b.fault(d.ID, "an id of its own", at("id")...)
		return
	}
	b.tree.byID[d.ID] = q
	if !slices.Contains(kinds, q.Kind) {
		b.fault(d.Kind, "one of one, picture, several, number, hour, postal, vehicle", at("kind")...)
	}
	for j, p := range d.Sets {
		if l := b.leaf(p, at("sets", j)...); l != nil {
			q.Sets = append(q.Sets, l)
		}
	}
	if len(q.Sets) == 0 {
		b.fault("nothing", "at least one path", at("sets")...)
		return
	}
	if d.Limits != nil {
		q.Limits = Limits(*d.Limits)
	}
	for j := range d.Choices {
		b.choice(q, &d.Choices[j], at("choices", j))
	}
	for j, r := range d.Raises {
		b.raise(q, r, at("raises", j))
	}
	b.fits(q, at)
	e := q.Effort
	if e.ChairSeconds <= 0 || e.WalkSeconds < 0 || e.FromChair < 0 || e.FromChair > 1 || e.Willing <= 0 || e.Willing > 1 {
		b.fault(fmt.Sprint(d.Effort), "seconds above 0 in the chair, and shares from 0 to 1", at("effort")...)
	}
	if d.Unsure == nil {
		b.fault("nothing", "what is taken when nobody knows; omit: true when nothing is", at("unsure")...)
	}
}

func (b *builder) choice(q *Question, d *choiceDoc, at []any) {
	if _, twice := q.Choice(d.ID); twice || d.ID == "" {
		b.fault(d.ID, "an id of its own", append(at, "id")...)
		return
	}
	c := Choice{ID: d.ID}
	for _, p := range d.Tells {
		where := append(slices.Clone(at), "tells", p.key)
		l := b.leaf(p.key, where...)
		if l == nil || !b.setsLeaf(q, l, where) {
			continue
		}
		v := p.value
		if word, ok := v.(string); ok && l.Kind == facts.Set {
			v = []string{word}
		}
		b.tells(&c, q, l, v, where)
	}
	for _, p := range d.Narrows {
		where := append(slices.Clone(at), "narrows", p.key)
		l := b.leaf(p.key, where...)
		candidates, _ := p.value.([]any)
		var scratch facts.Facts
		if l == nil || !b.setsLeaf(q, l, where) {
			continue
		}
		if err := scratch.Narrow(p.key, facts.OneOf, candidates...); err != nil {
			b.fault(fmt.Sprint(p.value), "candidates the leaf accepts: "+err.Error(), where...)
			continue
		}
		c.Narrows = append(c.Narrows, Tell{l, candidates})
	}
	if d.Enter != "" {
		where := append(slices.Clone(at), "enter")
		if l := b.leaf(d.Enter, where...); l != nil && b.setsLeaf(q, l, where) {
			c.Enter = l
		}
	}
	q.Choices = append(q.Choices, c)
}

// tells adds a leaf and value to a choice, checked by telling it.
func (b *builder) tells(c *Choice, q *Question, l *facts.Leaf, v any, where []any) {
	var scratch facts.Facts
	if err := l.At(&scratch).Tell(v); err != nil {
		b.fault(fmt.Sprint(v), l.Accepted(), where...)
		return
	}
	num, _ := l.At(&scratch).Number()
	c.Tells = append(c.Tells, Tell{l, v})
	c.leaves = append(c.leaves, assignment{l, num})
}

func (b *builder) setsLeaf(q *Question, l *facts.Leaf, where []any) bool {
	if slices.Contains(q.Sets, l) {
		return true
	}
	b.fault(l.Path, "a path that the question sets", where...)
	return false
}

func (b *builder) raise(q *Question, d raiseDoc, at []any) {
	if !slices.Contains(raiseLevels, d.Level) || d.Code == "" {
		b.fault(d.Code+" "+d.Level, "a code, and one of halts, adds, says", at...)
	}
	for _, id := range d.Choices {
		if _, ok := q.Choice(id); !ok {
			b.fault(id, "a choice of the question", append(at, "choices")...)
		}
	}
	q.Raises = append(q.Raises, Raise(d))
}

// fits checks that kind, leaves, choices and limits belong together.
func (b *builder) fits(q *Question, at func(...any) []any) {
	first := q.Sets[0]
	numeric := first.Kind == facts.Number || first.Kind == facts.Whole || first.Kind == facts.Money
	switch q.Kind {
	case Number, Hour:
		if !numeric || len(q.Choices) > 0 || len(q.Sets) != 1 {
			b.fault(first.Path, "one numeric leaf and no choices", at("kind")...)
		}
	case Postal, Vehicle:
		if first.Kind != facts.Text || len(q.Choices) > 0 {
			b.fault(first.Path, "a text leaf and no choices", at("kind")...)
		}
		return
	case One, Picture, Several:
		if len(q.Choices) < 2 {
			b.fault(len(q.Choices), "at least two choices", at("choices")...)
		}
	}
	b.eachLeafIsSet(q, at)
	typed := q.Kind == Number || q.Kind == Hour || q.AlsoNumber
	if !typed {
		return
	}
	lim := q.Limits
	if lim.Step <= 0 || lim.Low >= lim.High || !accepts(first, lim.Low) || !accepts(first, lim.High) {
		b.fault(fmt.Sprint(lim), "low, high and step within "+first.Accepted(), at("limits")...)
	}
	if q.Unit != "" && first.Unit != q.Unit && first.Unit != "d" {
		b.fault(q.Unit, "the unit of the leaf: "+first.Unit, at("unit")...)
	}
}

// eachLeafIsSet refuses a path that no answer can give a value, and a choice
// that says nothing, except the one that says none of the others.
func (b *builder) eachLeafIsSet(q *Question, at func(...any) []any) {
	if len(q.Choices) == 0 {
		return
	}
	for j, l := range q.Sets {
		some := slices.ContainsFunc(q.Choices, func(c Choice) bool {
			return c.Enter == l || slices.ContainsFunc(append(slices.Clone(c.Tells), c.Narrows...), func(t Tell) bool { return t.Leaf == l })
		})
		if !some {
			b.fault(l.Path, "a path that some choice tells", at("sets", j)...)
		}
	}
	silent := 0
	for _, c := range q.Choices {
		if len(c.Tells)+len(c.Narrows) == 0 && c.Enter == nil {
			silent++
		}
	}
	if silent > 0 && (q.Kind != Several || silent > 1) {
		b.fault(silent, "choices that each tell something; one of several may say none", at("choices")...)
	}
}
