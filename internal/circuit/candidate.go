package circuit

import (
	"errors"

	"daybreak/internal/edition"
	"daybreak/internal/unit"
)

// Columns of design.sized.
const (
	cableColumn = iota
	racewayColumn
	markedColumn
)

// sizeCandidates sizes every plan and keeps what meets all limits, and beside
// it what narrowly does not.
func (d *design) sizeCandidates() (bool, error) {
	list, n := d.plans()
	d.res.Candidates = make([]Candidate, 0, n)
	for i := range n {
		var err error
		if list[i].parts[1].method == 0 {
			err = d.sizeWhole(&list[i])
		} else {
			err = d.sizeChanging(&list[i])
		}
		if err != nil {
			return false, err
		}
	}
	if n == 0 {
		why := NoMethodFits
		if d.changes {
			why = TooManyChanges
		}
		return false, d.fail(why, AllowRaceway, AskElectrician)
	}
	if len(d.res.Candidates) == 0 {
		return false, d.whyNone()
	}
	return true, d.ifMarked(list[:n])
}

// whyNone names the limit that ended the last hope, and what would do.
func (d *design) whyNone() error {
	onlyCable := d.methods&(UseEMT|UsePVC) == 0
	for i := range d.res.Losers {
		if d.res.Losers[i].Fails&FailsStock != 0 {
			return d.fail(NothingStocked, AskElectrician)
		}
	}
	for i := range d.res.Losers {
		if d.res.Losers[i].Fails&FailsDrop == 0 {
			continue
		}
		if onlyCable {
			return d.fail(DropTooHigh, AllowRaceway, LowerSetting, ShorterRoute)
		}
		return d.fail(DropTooHigh, LowerSetting, ShorterRoute)
	}
	switch {
	case onlyCable:
		return d.fail(NoConductor, AllowRaceway, LowerSetting)
	case d.job.Terminals == edition.Unmarked:
		return d.fail(NoConductor, LowerSetting, CheckMarking)
	}
	return d.fail(NoConductor, LowerSetting, AskElectrician)
}

// smallest sizes a method once for the whole job.
func (d *design) smallest(w wiring, column int) (*Sized, error) {
	if w.method.Cable() {
		column = cableColumn
	}
	if d.sized[column] != nil {
		return d.sized[column], nil
	}
	demand := Demand{Load: d.res.Load, Device: d.res.Device, Marking: d.job.Terminals,
		Surroundings: edition.Surroundings{Ambient: d.job.Ambient, CurrentCarrying: 2}}
	if !w.method.Cable() {
		demand.Surroundings.CurrentCarrying += d.job.OtherCurrentCarrying
	}
	if column == markedColumn {
		demand.Marking = edition.Marked75
	}
	s, err := SmallestConductor(d.ed, w.method, edition.Copper, demand)
	if err != nil {
		return nil, err
	}
	d.store[column] = s
	d.sized[column] = &d.store[column]
	if !s.Below.None() && column != markedColumn {
		d.lose(Candidate{Fails: s.BelowCheck.Fails, Parts: [2]Part{{Method: w.method, Raceway: w.raceway, Hot: s.Below,
			Terminals: s.BelowCheck.Terminals.Value, Ampacity: s.BelowCheck.Conditions.Value}}})
	}
	if s.Size.None() && column != markedColumn {
		d.lose(Candidate{Fails: FailsSize, Parts: [2]Part{{Method: w.method, Raceway: w.raceway}}})
	}
	return d.sized[column], nil
}

// sizeWhole keeps the smallest size that meets all limits and that the shop
// can build; a size or two above is tried where it cannot.
func (d *design) sizeWhole(p *plan) error {
	s, err := d.smallest(p.parts[0], racewayColumn)
	if err != nil || s.Size.None() {
		return err
	}
	largest := d.largest(p.parts[0].method)
	for rank, unsold := s.Size.Rank(), 0; rank <= largest && unsold <= sizesAbove; rank++ {
		c, err := d.build(p, [2]edition.Size{d.ed.Sizes()[rank-1]}, racewayColumn)
		if errors.Is(err, edition.ErrUnanswerable) {
			break
		}
		if err != nil {
			return err
		}
		fails := d.keep(c)
		if fails == 0 {
			break
		}
		if fails&FailsStock != 0 || unsold > 0 {
			unsold++
		}
	}
	return nil
}

// sizesAbove is how many sizes above an unsold one are tried.
const sizesAbove = 2

// sizeChanging keeps the pairs of sizes, cable and raceway, of which neither
// can be smaller without the other growing.
func (d *design) sizeChanging(p *plan) error {
	first, err := d.smallest(p.parts[0], racewayColumn)
	if err != nil || first.Size.None() {
		return err
	}
	second, err := d.smallest(p.parts[1], racewayColumn)
	if err != nil || second.Size.None() {
		return err
	}
	upTo := d.largest(p.parts[1].method)
	for a, unsold := first.Size.Rank(), 0; a <= d.largest(p.parts[0].method) && unsold <= sizesAbove; a++ {
		for b := second.Size.Rank(); b <= upTo; b++ {
			c, err := d.build(p, [2]edition.Size{d.ed.Sizes()[a-1], d.ed.Sizes()[b-1]}, racewayColumn)
			if errors.Is(err, edition.ErrUnanswerable) {
				break
			}
			if err != nil {
				return err
			}
			if c.Fails != 0 {
				if a == first.Size.Rank() && b == second.Size.Rank() {
					d.lose(c)
				}
				continue
			}
			if fails := d.keep(c); fails == 0 {
				upTo = b - 1
				break
			}
			if unsold++; unsold > sizesAbove {
				break
			}
		}
	}
	return nil
}

func (d *design) largest(m edition.Method) int {
	rng, err := d.ed.MethodSizes(m, edition.Copper)
	if err != nil || rng.Value.Largest.None() {
		return len(d.ed.Sizes())
	}
	return rng.Value.Largest.Rank()
}

// keep takes a candidate in when it meets all limits, and ranks it there; what
// the shop cannot build is lost with the rest. It returns the limits not met.
func (d *design) keep(c Candidate) Limit {
	if c.Fails != 0 {
		d.lose(c)
		return c.Fails
	}
	n := len(d.res.Candidates)
	d.res.Candidates = append(d.res.Candidates, c)
	if !d.ranked(&d.res.Candidates[n]) {
		c.Fails = FailsStock
		d.res.Candidates = d.res.Candidates[:n]
		d.lose(c)
	}
	return c.Fails
}

func (d *design) lose(c Candidate) {
	if d.res.Losers == nil {
		d.res.Losers = make([]Candidate, 0, 4)
	}
	d.res.Losers = append(d.res.Losers, c)
}

// ifMarked shows, among the losers, the smaller conductor that terminals
// marked for 75 °C would allow.
func (d *design) ifMarked(list []plan) error {
	if d.job.Terminals == edition.Marked75 {
		return nil
	}
	for i := range list {
		p := &list[i]
		if p.parts[0].method.Cable() || p.parts[1].method != 0 {
			continue
		}
		now, err := d.smallest(p.parts[0], racewayColumn)
		if err != nil {
			return err
		}
		s, err := d.smallest(p.parts[0], markedColumn)
		if err != nil || s.Size.None() || (!now.Size.None() && s.Size.Rank() >= now.Size.Rank()) {
			return err
		}
		c, err := d.build(p, [2]edition.Size{s.Size}, markedColumn)
		if err != nil {
			return err
		}
		c.Fails |= FailsMarking
		d.lose(c)
		d.note(NoteCheckMarking)
		return nil
	}
	return nil
}

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
