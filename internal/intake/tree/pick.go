package tree

import (
	"math"

	"daybreak/internal/facts"
	"daybreak/internal/facts/condition"
)

// pick is one of a few outcomes by their shares. A tilt multiplies the odds of
// some of them when its condition holds.
type pick struct {
	target   *facts.Leaf
	outcomes []outcome
	values   []float64 // of the target in each outcome
	shares   []float64 // sum to 1
	tilts    []tilt
}

type tilt struct {
	when *condition.Condition
	on   []bool // by outcome
	odds float64
}

// mostOutcomes bounds a pick, so that its weights lie on the stack.
const mostOutcomes = 24

type weights struct {
	w   [mostOutcomes]float64
	sum float64
}

// weigh gives each outcome its share, tilted, and only those that keep.
func (d *pick) weigh(s scene, keep func(float64) bool) (ws weights) {
	copy(ws.w[:], d.shares)
	for _, t := range d.tilts {
		if t.when.Truth(s.f) != condition.True {
			continue
		}
		for i := range d.shares {
			if t.on[i] {
				ws.w[i] *= t.odds
			}
		}
	}
	for i := range d.shares {
		if keep != nil && !keep(d.values[i]) {
			ws.w[i] = 0
		}
		ws.sum += ws.w[i]
	}
	return ws
}

// choose returns the outcome at u of weights that do not all vanish.
func (d *pick) choose(u float64, ws *weights) outcome {
	rest, last := u*ws.sum, 0
	for i := range d.shares {
		if ws.w[i] == 0 {
			continue
		}
		last = i
		if rest < ws.w[i] {
			return d.outcomes[i]
		}
		rest -= ws.w[i]
	}
	return d.outcomes[last]
}

func (d *pick) at(u float64, s scene) outcome {
	ws := d.weigh(s, nil)
	return d.choose(u, &ws)
}

func (d *pick) middle(s scene) outcome {
	ws := d.weigh(s, nil)
	return d.outcomes[d.central(&ws)]
}

// central is the outcome in the middle: the median of numbers, the most likely
// of words, the first of equals.
func (d *pick) central(ws *weights) int {
	best := 0
	if d.target.Kind == facts.Number || d.target.Kind == facts.Whole {
		least := math.Inf(1)
		for i := range d.shares {
			if off := d.off(ws, i); ws.w[i] > 0 && off < least {
				best, least = i, off
			}
		}
		return best
	}
	for i := range d.shares {
		if ws.w[i] > ws.w[best] {
			best = i
		}
	}
	return best
}

// off is how far an outcome lies from having half of the weight below it and
// half above.
func (d *pick) off(ws *weights, i int) float64 {
	under, over := 0.0, 0.0
	for j := range d.shares {
		switch {
		case d.values[j] < d.values[i]:
			under += ws.w[j]
		case d.values[j] > d.values[i]:
			over += ws.w[j]
		}
	}
	return math.Abs(under - over)
}

// among draws from the outcomes whose target is one of some candidates, and
// reports false when none of them is.
func (d *pick) among(u float64, s scene, n facts.Narrowing) (outcome, bool) {
	ws := d.weigh(s, n.Holds)
	if ws.sum == 0 {
		return outcome{}, false
	}
	return d.choose(u, &ws), true
}
