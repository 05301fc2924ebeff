package circuit

import (
	"errors"

	"daybreak/internal/edition"
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
