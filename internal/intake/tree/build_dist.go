package tree

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"daybreak/internal/facts"
)

// dist makes the distribution of one row, or returns nil when it has only
// ticks or is faulty.
func (b *builder) dist(s source, d *distDoc, at []any) distribution {
	switch n := b.plainDists(*d); {
	case n == 0:
		return nil
	case n > 1:
		b.fault(fmt.Sprintf("%d distributions", n), "one", at...)
		return nil
	}
	if !d.Omit && !d.HomeRegion && len(d.Pick) == 0 && s.leaf.Kind != facts.Number && s.leaf.Kind != facts.Whole {
		b.fault(s.leaf.Path, "a pick, for a leaf that is no number", at...)
		return nil
	}
	switch {
	case d.Omit:
		return omitted{}
	case d.HomeRegion:
		return homeRegion{}
	case len(d.Pick) > 0:
		return b.pick(s, d.Pick, at)
	case d.Lognormal != nil:
		l := d.Lognormal
		if !(0 < l.P10 && l.P10 <= l.P50 && l.P50 <= l.P90) || d.Zero < 0 || d.Zero >= 1 {
			b.fault(fmt.Sprint(*l, d.Zero), "p10 ≤ p50 ≤ p90 above 0, and zero a share below 1", at...)
		}
		return lognormal{s.leaf, l.P10, l.P50, l.P90, d.Zero}
	case len(d.Triangle) > 0:
		t := d.Triangle
		if len(t) != 3 || t[0] > t[1] || t[1] > t[2] {
			b.fault(fmt.Sprint(t), "low, mode and high in that order", at...)
			return nil
		}
		return triangle{s.leaf, t[0], t[1], t[2]}
	case d.Hour != nil:
		if d.Hour.SD <= 0 || d.Hour.Mean < 0 || d.Hour.Mean > 24 {
			b.fault(fmt.Sprint(*d.Hour), "a mean from 0 to 24 and an sd above 0", at...)
		}
		return hour{s.leaf, d.Hour.Mean, d.Hour.SD}
	case d.Archetype != nil:
		return b.archetype(s, *d.Archetype, at)
	}
	to := b.leaf(d.Relative.To, append(slices.Clone(at), "relative", "to")...)
	if to == nil || s.q == nil || math.Abs(d.Relative.Same+d.Relative.NextUp-1) > 1e-9 {
		b.fault(fmt.Sprint(*d.Relative), "another numeric leaf, and two shares that sum to 1", at...)
		return nil
	}
	return relative{s.leaf, to, s.q.numbers(), d.Relative.Same}
}

func (b *builder) archetype(s source, d archetypeDoc, at []any) distribution {
	if d.Spread > 0 && s.leaf.Path == "vehicle.usable_kwh" {
		return archetypeSpread{s.leaf, d.Spread}
	}
	if s.q != nil && s.leaf.Path == "vehicle.onboard_charger_kw" && math.Abs(d.Lower+d.Same+d.Higher-1) < 1e-9 {
		return archetypeSteps{s.leaf, s.q.numbers(), d.Lower, d.Higher}
	}
	b.fault(s.leaf.Path, "a spread for vehicle.usable_kwh, or steps that sum to 1 for vehicle.onboard_charger_kw", at...)
	return nil
}

// numbers lists the numbers that the choices give the first leaf, ascending.
func (q *Question) numbers() []float64 {
	var out []float64
	for _, c := range q.Choices {
		for _, a := range c.leaves {
			if a.leaf == q.Sets[0] {
				out = append(out, a.num)
			}
		}
	}
	slices.Sort(out)
	return out
}

// pick makes a pick over choice ids, or values of the first leaf.
func (b *builder) pick(s source, shares pairs, at []any) distribution {
	p := &pick{target: s.leaf}
	sum := 0.0
	for _, pr := range shares {
		where := append(slices.Clone(at), "pick", pr.key)
		share, ok := asShare(pr.value)
		o, num, found := s.outcome(pr.key)
		if !ok || !found {
			b.fault(fmt.Sprintf("%s: %v", pr.key, pr.value), "a choice of the question or a value of "+s.leaf.Path+", with a share from 0 to 1", where...)
			continue
		}
		sum += share
		p.outcomes, p.values, p.shares = append(p.outcomes, o), append(p.values, num), append(p.shares, share)
	}
	if math.Abs(sum-1) > 1e-6 || len(p.shares) > mostOutcomes {
		b.fault(sum, "at most 24 shares that sum to 1", append(slices.Clone(at), "pick")...)
	}
	for i, t := range s.doc.Tilt {
		b.tilt(p, t, s.where("tilt", i))
	}
	return p
}

func (b *builder) tilt(p *pick, d tiltDoc, at []any) {
	t := tilt{when: b.condition(d.When, append(slices.Clone(at), "when")...), odds: d.Odds, on: make([]bool, len(p.values))}
	for _, v := range d.Values {
		var scratch facts.Facts
		if err := p.target.At(&scratch).Tell(v); err != nil {
			b.fault(fmt.Sprint(v), p.target.Accepted(), at...)
			continue
		}
		num, _ := p.target.At(&scratch).Number()
		for i, x := range p.values {
			t.on[i] = t.on[i] || x == num
		}
	}
	if t.when == nil || d.Odds <= 0 || len(d.Values) == 0 {
		b.fault(fmt.Sprint(d), "a condition, values, and odds above 0", at...)
		return
	}
	p.tilts = append(p.tilts, t)
}

// outcome is what a key of a pick stands for: a choice of the question with
// all it tells, or a bare value of the leaf.
func (s source) outcome(key string) (outcome, float64, bool) {
	if s.q != nil {
		if c, ok := s.q.Choice(key); ok {
			return s.chosen(c)
		}
	}
	v, ok := valueOf(s.leaf, key)
	return outcome{set: []assignment{{s.leaf, v}}}, v, ok
}

// chosen is the outcome of a choice; one that says none tells the empty set,
// and one that tells other leaves only leaves this one open.
func (s source) chosen(c *Choice) (outcome, float64, bool) {
	for _, a := range c.leaves {
		if a.leaf == s.leaf {
			return outcome{set: c.leaves}, a.num, true
		}
	}
	if s.leaf.Kind == facts.Set && len(c.Narrows) == 0 && c.Enter == nil {
		return outcome{set: append([]assignment{{s.leaf, 0}}, c.leaves...)}, 0, true
	}
	return outcome{set: c.leaves}, math.NaN(), len(c.leaves) > 0
}

// valueOf reads a key as a value of the leaf, in the form of a draw.
func valueOf(l *facts.Leaf, key string) (float64, bool) {
	var v any = key
	switch l.Kind {
	case facts.Number, facts.Whole, facts.Money:
		x, err := strconv.ParseFloat(key, 64)
		if err != nil {
			return 0, false
		}
		v = x
	case facts.Flag:
		v = key == "true"
		if key != "true" && key != "false" {
			return 0, false
		}
	case facts.Set:
		v = []string{key}
	}
	var scratch facts.Facts
	if l.At(&scratch).Tell(v) != nil {
		return 0, false
	}
	return l.At(&scratch).Number()
}

// ticks makes, for each leaf that some ticks set, a pick among those ticks and
// none of them.
func (b *builder) ticks(s source, d *distDoc, at []any) []*pick {
	var picks []*pick
	for _, pr := range d.Each {
		where := append(slices.Clone(at), "each", pr.key)
		share, ok := asShare(pr.value)
		c, found := (*Choice)(nil), false
		if s.q != nil {
			c, found = s.q.Choice(pr.key)
		}
		if !ok || !found || len(c.leaves) == 0 {
			b.fault(fmt.Sprintf("%s: %v", pr.key, pr.value), "a choice that tells something, with a share from 0 to 1", where...)
			continue
		}
		p := pickFor(&picks, c.leaves[0].leaf)
		p.outcomes = append(p.outcomes, outcome{set: c.leaves})
		p.values = append(p.values, c.leaves[0].num)
		p.shares = append(p.shares, share)
		p.shares[0] -= share
		if p.shares[0] < 0 {
			b.fault(pr.key, "shares of one fact that sum to at most 1", where...)
		}
	}
	return picks
}

// pickFor finds the pick of a leaf, or starts one with everything unticked.
func pickFor(picks *[]*pick, l *facts.Leaf) *pick {
	for _, p := range *picks {
		if p.target == l {
			return p
		}
	}
	unticked := 0.0 // false, or the empty set
	if l.List == "Fuel" {
		unticked = float64(facts.FuelNone)
	}
	p := &pick{target: l, outcomes: []outcome{{set: []assignment{{l, unticked}}}}, values: []float64{unticked}, shares: []float64{1}}
	*picks = append(*picks, p)
	return p
}

func asShare(v any) (float64, bool) {
	switch x := v.(type) {
	case float64:
		return x, x >= 0 && x <= 1
	case int:
		return float64(x), x == 0 || x == 1
	}
	return 0, false
}
