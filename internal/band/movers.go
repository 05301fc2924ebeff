package band

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"daybreak/internal/facts"
	"daybreak/internal/intake/tree"
	"daybreak/internal/quote"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// tries are the places at which one open leaf is tried with the others held in
// the middle: the tails and the shoulders of its distribution.
var tries = [...]float64{0.05, 0.3, 0.7, 0.95}

// moveShare is the part of the price that makes a leaf a deciding one.
const moveShare = 0.05

// list turns the tree's assumptions into the quote's, in its order.
func (e *estimator) list(assumed []tree.Assumption, filled *facts.Facts) []quote.Assumption {
	out := make([]quote.Assumption, 0, len(assumed))
	for _, a := range assumed {
		if !quote.Assumed(a.Leaf.Path) {
			continue
		}
		slot := a.Leaf.At(filled)
		out = append(out, quote.Assumption{Path: a.Leaf.Path, Value: printed(slot), Basis: slot.Basis(), Question: a.Question})
	}
	return out
}

// probe tries every open dimension alone, the others held in the middle, and
// notes on the quote's assumptions what each moves and whether it decides.
func (e *estimator) probe(q *quote.Quote) error {
	if !slices.Contains(e.open, true) {
		return nil
	}
	u := make([]float64, len(e.open))
	for d := range u {
		u[d] = 0.5
	}
	e.fill(u)
	e.middle = e.drawn
	var err error
	if e.usual, err = e.price(); err != nil {
		return err
	}
	for d := range u {
		if !e.open[d] {
			continue
		}
		low, high, decides := float64(e.outcome.Likely), float64(e.outcome.Likely), false
		for _, at := range tries {
			u[d] = at
			e.fill(u)
			if e.drawn == e.middle {
				continue
			}
			got, err := e.price()
			if err != nil {
				return err
			}
			low, high = min(low, float64(got.Likely)), max(high, float64(got.Likely))
			decides = decides || differs(got, e.outcome)
		}
		u[d] = 0.5
		decides = decides || high-low >= moveShare*math.Max(float64(e.outcome.Likely), 1)
		note(q.Assumptions, e.drawnBy(d), int64(high-low), decides)
	}
	sortBySwing(q.Assumptions)
	return nil
}

// drawnBy lists the leaves that a dimension draws; the last dimensions belong to
// what is narrowed.
func (e *estimator) drawnBy(d int) []*facts.Leaf {
	if d < len(e.open)-facts.MostNarrowed {
		return e.books.Tree.Sets(d)
	}
	var out []*facts.Leaf
	for _, n := range e.known.Narrowings() {
		out = append(out, n.Leaf())
	}
	return out
}

// printed is a leaf's value as text; "" when it has none.
func printed(s facts.Slot) string {
	switch v := s.Value().(type) {
	case nil:
		return ""
	case float64:
		return strings.TrimSpace(unit.Print(v, s.Leaf().Decimals) + " " + s.Leaf().Unit)
	case []string:
		return strings.Join(v, ", ")
	default:
		return fmt.Sprint(v)
	}
}

// note credits a swing to the leaves drawn, not to those that follow from them:
// they have a dimension of their own.
func note(all []quote.Assumption, drawn []*facts.Leaf, swing int64, decides bool) {
	for i := range all {
		if leaf, ok := facts.LeafAt(all[i].Path); ok && slices.Contains(drawn, leaf) {
			all[i].Swing = max(all[i].Swing, swing)
			all[i].Decides = all[i].Decides || decides
		}
	}
}

// differs reports whether two draws would be wired, placed or judged differently.
func differs(a, b quote.Draw) bool {
	return a.Level != b.Level || a.Setting != b.Setting || a.Breaker != b.Breaker || a.Verdict != b.Verdict ||
		a.Managed != b.Managed || a.Wire != b.Wire || a.Partly != b.Partly || (a.Option == "") != (b.Option == "")
}

func sortBySwing(all []quote.Assumption) {
	sort.SliceStable(all, func(i, j int) bool {
		if all[i].Decides != all[j].Decides {
			return all[i].Decides
		}
		return all[i].Swing > all[j].Swing
	})
}

// lower makes a quote a ballpark while a leaf that decides is open. A leaf
// that decides only together with others shows in the draws.
func (e *estimator) lower(q *quote.Quote) {
	if q.Standing == quote.Halted {
		return
	}
	var open []string
	for _, a := range q.Assumptions {
		if a.Decides {
			open = append(open, a.Path)
		}
	}
	if len(open) == 0 && !e.varies {
		return
	}
	q.Standing = quote.Ballpark
	// A leaf still guessed at is named once; the list of assumptions has the rest.
	q.Reasons = slices.DeleteFunc(q.Reasons, func(s quote.Sentence) bool { return s.Key == "quote.standing.leaf" })
	var reasons []quote.Sentence
	for i, path := range open {
		if i == mostReasons {
			break
		}
		reasons = append(reasons, quote.Said("quote.standing.open_leaf", working.Word("leaf", path)))
	}
	q.Reasons = append(reasons, q.Reasons...)
}

// mostReasons is how many open leaves the standing names; the list of
// assumptions has them all.
const mostReasons = 4
