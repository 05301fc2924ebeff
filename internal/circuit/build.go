package circuit

import (
	"errors"

	"daybreak/internal/edition"
	"daybreak/internal/unit"
)

// build makes a candidate of a plan with its hots chosen, one for each wiring:
// drop, grounding conductor and raceway follow.
func (d *design) build(p *plan, hot [2]edition.Size, column int) (Candidate, error) {
	c := d.blank(p, column)
	for i := range p.n {
		w, at := &p.wirings[p.spans[i].use], p.spans[i]
		part := &c.Parts[i]
		part.Method, part.Metal, part.Raceway, part.Riser = w.method, w.metal, w.raceway, w.riser
		part.Hot, part.Neutral = hot[at.use], d.neutral || d.res.Receptacle.Neutral
		for j := at.a; j < at.z; j++ {
			part.Feet += d.route[j].Feet
			part.Wet = part.Wet || d.route[j].Kind.outdoors()
		}
		drop, err := d.partDrop(w, part.Hot, part.Feet)
		if err != nil {
			return c, err
		}
		c.DropVolts += drop
	}
	c.DropPercent = 100 * float64(c.DropVolts) / float64(d.job.Volts)
	if c.DropPercent > d.limit+hair {
		c.Fails |= FailsDrop
	}
	for i := range p.n {
		if err := d.groundAndFill(&c, p, i, column); err != nil {
			return c, err
		}
	}
	return c, d.whip(&c)
}

// blank carries what every candidate of the job has in common.
func (d *design) blank(p *plan, column int) Candidate {
	c := Candidate{Device: d.res.Device, Poles: d.res.Poles, GFCI: d.res.GFCI, Hardwired: d.res.Hardwired,
		Receptacle: d.res.Receptacle, Disconnect: d.res.Disconnect, StructureDisconnect: d.res.StructureDisconnect,
		Labels: d.res.Labels, Place: d.job.Place, Separations: d.job.Separations, fed: d.fed,
		Box: p.n > 1, route: d.route, spans: p.spans, Column: SixtyColumn}
	switch {
	case column == ifMarked:
		c.Column = AssumesMarked
	case d.job.Terminals == edition.Marked75 && (!p.wirings[0].method.Cable() || c.Box):
		c.Column = MarkedColumn
	}
	return c
}

// partDrop is at the current really drawn.
func (d *design) partDrop(w *wiring, hot edition.Size, feet unit.Feet) (unit.Volts, error) {
	z, err := chargerImpedance(d.ed, edition.Wire{Method: w.method, Size: hot, Material: w.metal}, w.raceway)
	if err != nil {
		return 0, err
	}
	return unit.Volts(2 * float64(d.res.Load+d.other) * float64(z.Value) * float64(feet) / 1000), nil
}

// groundAndFill sizes the grounding conductor, raised with the hots when they
// are larger than the tests asked for, and the raceway that holds them all.
func (d *design) groundAndFill(c *Candidate, p *plan, i, column int) error {
	part, w := &c.Parts[i], &p.wirings[p.spans[i].use]
	s, err := d.smallest(w, column)
	if err != nil {
		return err
	}
	part.minimum = s.Size
	part.Terminals, part.Ampacity = s.Check.Terminals.Value, s.Check.Conditions.Value
	if part.Hot != s.Size {
		c.raised = true
		if err := d.ampacities(w, part, column); err != nil {
			return err
		}
	}
	if part.Method.Cable() {
		return d.cableGround(c, part)
	}
	if err := d.whicheverMark(c, p, i, column); err != nil {
		return err
	}
	need, err := d.ed.GroundingIncreased(d.res.Device, edition.Copper, part.minimum, part.Hot)
	if err != nil {
		return err
	}
	part.Ground = need.Value.Size
	tightest := part.Raceway
	if part.Riser != edition.NoRaceway {
		tightest = part.Riser
	}
	full, err := d.ed.RacewayFor(tightest, d.contents(part))
	if errors.Is(err, edition.ErrUnanswerable) {
		c.Fails |= FailsFill
		return nil
	}
	part.Trade, part.FillPercent = full.Value.Trade, full.Value.FillPercent
	return err
}

// cableGround takes the grounding conductor the cable comes with.
func (d *design) cableGround(c *Candidate, part *Part) error {
	need, err := d.ed.GroundingIncreased(d.res.Device, part.Metal, part.minimum, part.Hot)
	if err != nil {
		return err
	}
	has, err := d.ed.CableGround(part.Method, part.Hot)
	if err != nil {
		return err
	}
	if has.Value.Rank() < need.Value.Size.Rank() {
		c.Fails |= FailsGround
	}
	part.Ground = has.Value
	if part.Riser == edition.NoRaceway {
		return nil
	}
	sleeve, err := d.ed.SleeveFor(part.Method, part.Hot, part.Conductors())
	if errors.Is(err, edition.ErrUnanswerable) {
		c.Fails |= FailsFill
		return nil
	}
	part.Trade = sleeve.Value
	return err
}

// contents is what a part's raceway holds.
func (d *design) contents(part *Part) edition.Contents {
	return edition.Contents{Pulls: [4]edition.Pull{
		{Count: part.Conductors(), Size: part.Hot, Method: part.Method},
		{Count: 1, Size: part.Ground, Method: d.single},
		{Count: d.job.OtherCurrentCarrying, Size: part.Hot, Method: part.Method},
	}}
}

// whicheverMark lowers the minimum the grounding conductor is reckoned from to
// what marked terminals would ask for, where that size would fail on voltage
// drop alone: the ground is then right whichever marks are found on site.
//
// Source: NEC 250.122(B), the safer of two readings.
func (d *design) whicheverMark(c *Candidate, p *plan, i, column int) error {
	// The next sizes below have less than twice the resistance.
	if column == ifMarked || d.job.Terminals == edition.Marked75 || 2*c.DropPercent <= d.limit {
		return nil
	}
	use := p.spans[i].use
	s, err := d.smallest(&p.wirings[use], ifMarked)
	if err != nil || s.Size.None() || s.Size.Rank() >= c.Parts[i].minimum.Rank() {
		return err
	}
	drop := unit.Volts(0)
	for j := range p.n {
		hot := c.Parts[j].Hot
		if p.spans[j].use == use {
			hot = s.Size
		}
		v, err := d.partDrop(&p.wirings[p.spans[j].use], hot, c.Parts[j].Feet)
		if err != nil {
			return err
		}
		drop += v
	}
	if 100*float64(drop)/float64(d.job.Volts) > d.limit+hair {
		c.Parts[i].minimum, c.raised, c.anyMark = s.Size, true, true
	}
	return nil
}

// ampacities of a size above the smallest.
func (d *design) ampacities(w *wiring, part *Part, column int) error {
	demand := d.demand(w)
	if column == ifMarked {
		demand.Marking = edition.Marked75
	}
	u, err := Usable(d.ed, edition.Wire{Method: w.method, Size: part.Hot, Material: w.metal}, demand.Surroundings, demand.Marking, d.res.Device)
	part.Terminals, part.Ampacity = u.Terminals, u.Corrected
	return err
}

// whip ends a raceway at a hardwired charger in flexible conduit that holds
// the same wires: liquidtight where it may get wet.
//
// Source: NEC 348.12, 350.10; the length is common practice.
func (d *design) whip(c *Candidate) error {
	part := c.lastPart()
	if d.job.Whip == 0 || !c.Hardwired || part.Method.Cable() || c.Fails != 0 {
		return nil
	}
	full, err := d.ed.RacewayFor(whipRaceway(d.job.Place), d.contents(part))
	if errors.Is(err, edition.ErrUnanswerable) {
		return nil
	}
	c.Whip, c.WhipTrade = min(d.job.Whip, d.route[len(d.route)-1].Feet), full.Value.Trade
	return err
}

func whipRaceway(p edition.Place) edition.Raceway {
	if p == edition.Indoor {
		return edition.FMC
	}
	return edition.LFMC
}
