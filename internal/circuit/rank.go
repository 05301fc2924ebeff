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
	if d.res.Chosen.anyMark {
		d.note(NoteGroundWhicheverMark)
	}
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
// copper by the foot, and raceway, boxes and the deeper trench of a buried cable
// as the copper they cost about as much as. Aluminium counts for a third.
//
// Source: engineering judgement.
func (d *design) materialOrder(c *Candidate) float64 {
	const emt, pvc, rmc, ends, box, deeper = 40, 50, 120, 100, 500, 50
	sum := 0.0
	for i := range c.Parts {
		p := &c.Parts[i]
		if p.Method == 0 {
			break
		}
		metal := 1.0
		if p.Metal == edition.Aluminium {
			metal = 1.0 / 3
		}
		perFoot := metal*d.kcmil(p.Hot)*float64(p.Conductors()) + d.kcmil(p.Ground)
		switch p.Raceway {
		case edition.NoRaceway:
			if p.Riser != edition.NoRaceway {
				perFoot += deeper // or its sleeve, where it is not in the ground
			}
		case edition.EMT:
			perFoot += emt
		case edition.RMC:
			perFoot += rmc
		default:
			perFoot += pvc
		}
		sum += perFoot*float64(p.Feet) + ends
		if i > 0 {
			sum += box
		}
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
