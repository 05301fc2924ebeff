package circuit

import (
	"math"
	"slices"

	"daybreak/internal/edition"
)

// rankCandidates orders what meets all limits by cost, drops what the shop
// cannot build, and chooses the first.
func (d *design) rankCandidates() (bool, error) {
	kept := d.res.Candidates[:0]
	for i := range d.res.Candidates {
		c := &d.res.Candidates[i]
		if d.job.Cost != nil {
			c.Rank = d.job.Cost(c)
		} else {
			c.Rank = d.materialOrder(c)
		}
		if math.IsInf(c.Rank, 1) || math.IsNaN(c.Rank) {
			c.Fails |= FailsStock
			d.lose(*c)
			continue
		}
		kept = append(kept, *c)
	}
	d.res.Candidates = kept
	if len(kept) == 0 {
		return false, d.fail(NothingStocked, AskElectrician)
	}
	// Few and stable: equal costs keep the order cable, EMT, PVC.
	slices.SortStableFunc(kept, func(a, b Candidate) int {
		switch {
		case a.Rank < b.Rank:
			return -1
		case a.Rank > b.Rank:
			return 1
		}
		return 0
	})
	d.res.Chosen = kept[0]
	if d.res.Chosen.raised {
		for i := range d.res.Losers {
			if d.res.Losers[i].Fails&FailsDrop != 0 {
				d.note(NoteDropRaised)
				break
			}
		}
	}
	return true, nil
}

// materialOrder ranks without a price book: thousands of circular mils of
// copper by the foot, and raceway and box as the copper they cost about as
// much as.
//
// Source: engineering judgement.
func (d *design) materialOrder(c *Candidate) float64 {
	sum := 0.0
	for i := range c.Parts {
		p := &c.Parts[i]
		if p.Method == 0 {
			break
		}
		perFoot := d.kcmil(p.Hot)*float64(p.Conductors()) + d.kcmil(p.Ground)
		switch p.Raceway {
		case edition.NoRaceway:
		case edition.EMT:
			perFoot += 40
		default:
			perFoot += 50
		}
		const ends = 100
		sum += perFoot*float64(p.Feet) + ends
	}
	if c.Box {
		const box = 500
		sum += box
	}
	return sum
}

func (d *design) kcmil(s edition.Size) float64 {
	a, err := d.ed.Area(s)
	if err != nil {
		return 0
	}
	return float64(a.Value) / 1000
}
