package circuit

import (
	"math"
	"slices"

	"daybreak/internal/edition"
)

// ranked gives a candidate its rank by the shop's cost, or without one by
// material; false where the shop cannot build it.
func (d *design) ranked(c *Candidate) bool {
	if d.job.Cost == nil {
		c.Rank = d.materialOrder(c)
		return true
	}
	c.Rank = d.job.Cost(c)
	return !math.IsInf(c.Rank, 1) && !math.IsNaN(c.Rank)
}

// rankCandidates orders what meets all limits, cheapest first, and chooses it.
func (d *design) rankCandidates() (bool, error) {
	kept := d.res.Candidates
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
