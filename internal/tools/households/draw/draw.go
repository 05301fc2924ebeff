// Package draw makes random households, seeded, and puts each through a quote
// and the inspector.
//
// It answers: over all the homes somebody might tell us of, is there one whose
// quote breaks a rule? A household comes from a seed and its number alone, so
// any can be made again. It walks the question tree as a shopper would, with
// some questions left open, after values that matter for the rules have been set
// so that they meet each other often: every kind of dwelling, services of 60 to
// 400 A, every way a wire may go, every edition, every face of an outlet in every
// condition; and now and then hostile values at the ends of what a leaf accepts.
//
// Read [Household], then [Run].
package draw

import (
	"math/rand/v2"

	"daybreak/internal/facts"
	"daybreak/internal/facts/condition"
	"daybreak/internal/intake/tree"
	"daybreak/internal/shop"
	"daybreak/internal/unit"
)

// AsOf is the day every quote is made as of, so that a seed means the same
// household and the same quote on any day.
func AsOf() unit.Date {
	d, _ := unit.ParseDate("2026-11-25")
	return d
}

// dealer tells a household's leaves at random. What was told stays.
type dealer struct {
	*rand.Rand
	books *shop.Books
	facts *facts.Facts
}

// Household is the household of a seed and a number, as told.
func Household(books *shop.Books, seed, number uint64) facts.Facts {
	var f facts.Facts
	d := &dealer{Rand: rand.New(rand.NewPCG(seed, 2*number)), books: books, facts: &f}
	d.house()
	d.panel()
	d.route()
	d.outlet("outlet", 0.6)
	d.outlet("other_outlet", 0.2)
	d.owned()
	if d.Float64() < 0.15 {
		d.hostile()
	}
	d.walk([]float64{0.05, 0.3, 0.95}[d.IntN(3)])
	return f
}

// Filled is a household with every open leaf filled from the tables and then,
// by turns, from the middle of what homes like it have or at random.
func Filled(books *shop.Books, told facts.Facts, seed, number uint64) facts.Facts {
	f, asOf := told, AsOf()
	r := rand.New(rand.NewPCG(seed, 2*number+1))
	books.Complete(&f, asOf)
	world := books.World(asOf)
	if r.IntN(2) == 0 {
		books.Tree.Central(&f, world)
	} else {
		u := make([]float64, books.Tree.Dimensions())
		for i := range u {
			u[i] = r.Float64()
		}
		books.Tree.Draw(u, &f, world)
	}
	books.Complete(&f, asOf)
	return f
}

// tell sets a leaf that has no value yet; a value the leaf refuses is left out.
func (d *dealer) tell(path string, v any) {
	leaf, ok := facts.LeafAt(path)
	if !ok {
		panic("draw: no leaf " + path)
	}
	if slot := leaf.At(d.facts); slot.State() != facts.Told {
		_ = slot.Tell(v)
	}
}

// often tells a leaf in a share of households.
func (d *dealer) often(share float64, path string, v any) {
	if d.Float64() < share {
		d.tell(path, v)
	}
}

func pick[T any](d *dealer, of ...T) T { return of[d.IntN(len(of))] }

// word is a random word of a leaf's list.
func (d *dealer) word(path string) any {
	leaf, _ := facts.LeafAt(path)
	return leaf.Words[d.IntN(len(leaf.Words))]
}

// some are a few random words of a leaf's list, often none.
func (d *dealer) some(path string, none float64) []string {
	leaf, _ := facts.LeafAt(path)
	out := []string{}
	if d.Float64() < none {
		return out
	}
	for i := 1 + d.IntN(2); i > 0; i-- {
		w := leaf.Words[d.IntN(len(leaf.Words))]
		if len(out) == 0 || out[0] != w {
			out = append(out, w)
		}
	}
	return out
}

// between is a whole number from low to high.
func (d *dealer) between(low, high int) float64 { return float64(low + d.IntN(high-low+1)) }

// walk answers the questions that apply, each in a share of households.
func (d *dealer) walk(share float64) {
	for _, q := range d.books.Tree.Questions() {
		if d.Float64() > share || q.Applies(d.facts).Value == condition.False {
			continue
		}
		effects, err := q.Read(d.answer(q))
		if err != nil {
			continue
		}
		for _, t := range effects.Tells {
			d.tell(t.Leaf.Path, t.Value)
		}
		for _, n := range effects.Narrows {
			if slot := n.Leaf.At(d.facts); slot.State() < facts.Narrowed {
				values, _ := n.Value.([]any)
				_ = d.facts.Narrow(n.Leaf.Path, facts.OneOf, values...)
			}
		}
	}
}

// answer is a random answer to a question; where "none" can be ticked it is
// ticked mostly.
func (d *dealer) answer(q *tree.Question) tree.Answer {
	switch {
	case q.Kind == tree.Postal:
		return tree.Answer{Text: pick(d, d.books.Jurisdictions.PostalCodes()...)}
	case len(q.Choices) == 0 || q.AlsoNumber && d.IntN(2) == 0:
		span := q.Limits.High - q.Limits.Low
		return tree.Answer{Number: q.Limits.Low + float64(int(span*d.Float64()*d.Float64())), HasNumber: true}
	case q.Kind == tree.Several:
		if _, ok := q.Choice("none"); ok && d.Float64() < 0.85 {
			return tree.Answer{Choices: []string{"none"}}
		}
	}
	return tree.Answer{Choices: []string{q.Choices[d.IntN(len(q.Choices))].ID}}
}
