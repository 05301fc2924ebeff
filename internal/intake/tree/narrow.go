package tree

import "daybreak/internal/facts"

// shareOfMaybe is the weight on what somebody thinks likely; the rest follows
// the plain distribution.
//
// Source: engineering judgement.
const shareOfMaybe = 0.6

// narrowedAt draws a leaf that is narrowed. dist may be nil when nobody is
// asked for the leaf.
func narrowedAt(u float64, n facts.Narrowing, dist distribution, s scene) outcome {
	l := n.Leaf()
	low, high, limited := n.Limits()
	switch {
	case limited && n.Weight() == facts.About:
		return number(l, triangleAt(u, low, (low+high)/2, high))
	case limited:
		return number(l, low+u*(high-low))
	case n.Weight() == facts.Maybe && u >= shareOfMaybe && dist != nil:
		return dist.at((u-shareOfMaybe)/(1-shareOfMaybe), s)
	case n.Weight() == facts.Maybe && dist != nil:
		u /= shareOfMaybe
	}
	if p, ok := plainPick(dist, s); ok {
		if o, ok := p.among(u, s, n); ok {
			return o
		}
	}
	candidates := n.Numbers()
	return number(l, candidates[min(int(u*float64(len(candidates))), len(candidates)-1)])
}

// narrowedMiddle is the middle of the limits, or the likeliest candidate.
func narrowedMiddle(n facts.Narrowing, dist distribution, s scene) outcome {
	l := n.Leaf()
	if low, high, ok := n.Limits(); ok {
		return number(l, (low+high)/2)
	}
	if p, ok := plainPick(dist, s); ok {
		ws := p.weigh(s, n.Holds)
		if ws.sum > 0 {
			return p.outcomes[p.central(&ws)]
		}
	}
	return number(l, n.Numbers()[0])
}

// plainPick finds the pick behind a distribution, when it is one.
func plainPick(d distribution, s scene) (*pick, bool) {
	if r, ok := d.(rows); ok {
		d = r.choose(s)
	}
	p, ok := d.(*pick)
	return p, ok
}
