package circuit

import (
	"errors"

	"daybreak/internal/edition"
	"daybreak/internal/unit"
)

// build makes a candidate of a plan with its hots chosen: drop, grounding
// conductor and raceway follow.
func (d *design) build(p *plan, hot [2]edition.Size, column int) (Candidate, error) {
	c := d.blank(p, column)
	for i := range p.parts {
		w := p.parts[i]
		if w.method == 0 {
			break
		}
		part := &c.Parts[i]
		part.Method, part.Raceway, part.Hot = w.method, w.raceway, hot[i]
		part.Neutral = d.res.Receptacle.Neutral
		a, z := 0, len(d.route)
		if p.parts[1].method != 0 {
			if i == 0 {
				z = p.split
			} else {
				a = p.split
			}
		}
		for _, s := range d.route[a:z] {
			part.Feet += s.Feet
			part.Wet = part.Wet || s.Kind == Outside
		}
		drop, err := d.partDrop(part)
		if err != nil {
			return c, err
		}
		c.DropVolts += drop
		if err := d.groundAndFill(&c, part, column); err != nil {
			return c, err
		}
	}
	c.DropPercent = 100 * float64(c.DropVolts) / float64(d.job.Volts)
	if c.DropPercent > d.limit+hair {
		c.Fails |= FailsDrop
	}
	return c, nil
}

// blank carries what every candidate of the job has in common.
func (d *design) blank(p *plan, column int) Candidate {
	c := Candidate{Device: d.res.Device, Poles: d.res.Poles, GFCI: d.res.GFCI, Hardwired: d.res.Hardwired,
		Receptacle: d.res.Receptacle, Disconnect: d.res.Disconnect, Labels: d.res.Labels, Place: d.job.Place,
		Box: p.parts[1].method != 0, route: d.route, split: p.split, Column: SixtyColumn}
	if !c.Box {
		c.split = len(d.route)
	}
	switch {
	case column == markedColumn:
		c.Column = AssumesMarked
	case d.job.Terminals == edition.Marked75 && (!p.parts[0].method.Cable() || c.Box):
		c.Column = MarkedColumn
	}
	return c
}

func (d *design) partDrop(part *Part) (unit.Volts, error) {
	w := edition.Wire{Method: part.Method, Size: part.Hot, Material: edition.Copper}
	z, err := chargerImpedance(d.ed, w, part.Raceway)
	if err != nil {
		return 0, err
	}
	return unit.Volts(2 * float64(d.res.Load) * float64(z.Value) * float64(part.Feet) / 1000), nil
}

// groundAndFill sizes the grounding conductor, raised with the hots when they
// are larger than the tests asked for, and the raceway that holds them all.
func (d *design) groundAndFill(c *Candidate, part *Part, column int) error {
	s, err := d.smallest(wiring{part.Method, part.Raceway}, column)
	if err != nil {
		return err
	}
	part.Terminals, part.Ampacity = s.Check.Terminals.Value, s.Check.Conditions.Value
	if part.Hot != s.Size {
		c.raised = true
		if err := d.ampacities(part, column); err != nil {
			return err
		}
	}
	need, err := d.ed.GroundingIncreased(d.res.Device, edition.Copper, s.Size, part.Hot)
	if err != nil {
		return err
	}
	part.Ground = need.Value.Size
	if part.Method.Cable() {
		has, err := d.ed.CableGround(part.Method, part.Hot)
		if err != nil {
			return err
		}
		if has.Value.Rank() < part.Ground.Rank() {
			c.Fails |= FailsGround
		}
		part.Ground = has.Value
		return nil
	}
	pulls := [4]edition.Pull{
		{Count: part.Conductors(), Size: part.Hot, Method: part.Method},
		{Count: 1, Size: part.Ground, Method: part.Method},
		{Count: d.job.OtherCurrentCarrying, Size: part.Hot, Method: part.Method},
	}
	full, err := d.ed.RacewayFor(part.Raceway, edition.Contents{Pulls: pulls})
	if errors.Is(err, edition.ErrUnanswerable) {
		c.Fails |= FailsFill
		return nil
	}
	part.Trade, part.FillPercent = full.Value.Trade, full.Value.FillPercent
	return err
}

// ampacities of a size above the smallest.
func (d *design) ampacities(part *Part, column int) error {
	marking := d.job.Terminals
	if column == markedColumn {
		marking = edition.Marked75
	}
	s := edition.Surroundings{Ambient: d.job.Ambient, CurrentCarrying: 2}
	if !part.Method.Cable() {
		s.CurrentCarrying += d.job.OtherCurrentCarrying
	}
	u, err := Usable(d.ed, edition.Wire{Method: part.Method, Size: part.Hot, Material: edition.Copper}, s, marking, d.res.Device)
	part.Terminals, part.Ampacity = u.Terminals, u.Corrected
	return err
}
