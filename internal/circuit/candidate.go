package circuit

import (
	"errors"

	"daybreak/internal/edition"
)

// Columns a wiring is sized at: as the terminals are marked, or as if they were.
const (
	asMarked = iota
	ifMarked
)

// sizeCandidates sizes every plan and keeps what meets all limits, and beside
// it what narrowly does not.
func (d *design) sizeCandidates() (bool, error) {
	list, n := d.plans()
	d.res.Candidates = make([]Candidate, 0, n)
	for i := range n {
		var err error
		if list[i].wirings[1].method == 0 {
			err = d.sizeWhole(&list[i])
		} else {
			err = d.sizeChanging(&list[i])
		}
		if err != nil {
			return false, err
		}
	}
	if n == 0 {
		switch {
		case d.changes:
			return false, d.fail(TooManyChanges, AllowRaceway, AskElectrician)
		case d.job.Route.shallow():
			return false, d.fail(TooShallow, DigDeeper, AskElectrician)
		}
		return false, d.fail(NoMethodFits, AllowRaceway, AskElectrician)
	}
	if len(d.res.Candidates) == 0 {
		return false, d.whyNone()
	}
	return true, d.ifMarked(list[:n])
}

// whyNone names the limit that ended the last hope, and what would do.
func (d *design) whyNone() error {
	onlyCable := d.methods&(UseEMT|UsePVC|UseRMC) == 0
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
	case !d.job.Hot.None():
		return d.fail(NoConductor, LargerConductor, LowerSetting)
	case onlyCable:
		return d.fail(NoConductor, AllowRaceway, LowerSetting)
	case d.job.Terminals == edition.Unmarked:
		return d.fail(NoConductor, LowerSetting, CheckMarking)
	}
	return d.fail(NoConductor, LowerSetting, AskElectrician)
}

// smallest sizes a wiring once for the whole job.
func (d *design) smallest(w *wiring, column int) (*Sized, error) {
	if d.job.Terminals == edition.Marked75 {
		column = asMarked
	}
	for i := range d.sized[:d.nSized] {
		if k := &d.sized[i]; k.method == w.method && k.metal == w.metal && k.column == column {
			return &k.Sized, nil
		}
	}
	demand := d.demand(w)
	if column == ifMarked {
		demand.Marking = edition.Marked75
	}
	s, err := SmallestConductor(d.ed, w.method, w.metal, demand)
	if err != nil {
		return nil, err
	}
	if want := d.job.Hot; !want.None() && want.Rank() < s.Size.Rank() {
		// Too small for the job: told with the limits it fails, and not sized on.
		s.Below, s.Size = want, edition.Size{}
		w := edition.Wire{Method: w.method, Size: want, Material: w.metal}
		if s.BelowCheck, err = CheckConductor(d.ed, w, demand); err != nil {
			return nil, err
		}
	}
	kept := &d.sized[d.nSized]
	d.nSized++
	*kept = sizedWire{w.method, w.metal, column, s}
	if column == ifMarked {
		return &kept.Sized, nil
	}
	part := Part{Method: w.method, Raceway: w.raceway, Metal: w.metal}
	if !s.Below.None() {
		part.Hot, part.Terminals, part.Ampacity = s.Below, s.BelowCheck.Terminals.Value, s.BelowCheck.Conditions.Value
		d.lose(Candidate{Fails: s.BelowCheck.Fails, Parts: [mostParts]Part{part}})
	}
	if s.Size.None() && d.job.Hot.None() {
		d.lose(Candidate{Fails: FailsSize, Parts: [mostParts]Part{{Method: w.method, Raceway: w.raceway, Metal: w.metal}}})
	}
	return &kept.Sized, nil
}

// demand is what a wiring's conductors are tested against.
func (d *design) demand(w *wiring) Demand {
	out := Demand{Load: d.res.Load, Other: d.other, Device: d.res.Device, Marking: d.job.Terminals,
		Surroundings: edition.Surroundings{Ambient: d.ambient, CurrentCarrying: 2}}
	if !w.method.Cable() {
		out.Surroundings.CurrentCarrying += d.job.OtherCurrentCarrying
	}
	return out
}

// sizeWhole keeps the smallest size that meets all limits and that the shop
// can build; a size or two above is tried where it cannot.
func (d *design) sizeWhole(p *plan) error {
	s, err := d.smallest(&p.wirings[0], asMarked)
	if err != nil || s.Size.None() {
		return err
	}
	least, largest := d.between(&p.wirings[0], s.Size)
	for rank, unsold := least, 0; rank <= largest && unsold <= sizesAbove; rank++ {
		c, err := d.build(p, [2]edition.Size{d.ed.Sizes()[rank-1]}, asMarked)
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
	first, err := d.smallest(&p.wirings[0], asMarked)
	if err != nil || first.Size.None() {
		return err
	}
	second, err := d.smallest(&p.wirings[1], asMarked)
	if err != nil || second.Size.None() {
		return err
	}
	from, to := d.between(&p.wirings[0], first.Size)
	least, upTo := d.between(&p.wirings[1], second.Size)
	for a, unsold := from, 0; a <= to && unsold <= sizesAbove; a++ {
		for b := least; b <= upTo; b++ {
			c, err := d.build(p, [2]edition.Size{d.ed.Sizes()[a-1], d.ed.Sizes()[b-1]}, asMarked)
			if errors.Is(err, edition.ErrUnanswerable) {
				break
			}
			if err != nil {
				return err
			}
			if c.Fails != 0 {
				if a == from && b == least {
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

// between gives the ranks of the sizes tried: from the smallest that passes to
// the largest made, or the one wanted.
func (d *design) between(w *wiring, smallest edition.Size) (from, to int) {
	if want := d.job.Hot; !want.None() {
		return want.Rank(), min(want.Rank(), d.largest(w))
	}
	return smallest.Rank(), d.largest(w)
}

func (d *design) largest(w *wiring) int {
	rng, err := d.ed.MethodSizes(w.method, w.metal)
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
		if p.wirings[0].method.Cable() || p.n > 1 {
			continue
		}
		now, err := d.smallest(&p.wirings[0], asMarked)
		if err != nil {
			return err
		}
		s, err := d.smallest(&p.wirings[0], ifMarked)
		if err != nil || s.Size.None() || (!now.Size.None() && s.Size.Rank() >= now.Size.Rank()) {
			return err
		}
		c, err := d.build(p, [2]edition.Size{s.Size}, ifMarked)
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
