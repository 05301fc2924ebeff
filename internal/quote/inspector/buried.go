package inspector

import (
	"fmt"

	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/quote"
)

// buriedCover: what lies in the ground is made for it, is as long as the trench,
// and has at least the cover of the table over it; no less under a slab, which
// may be driven on.
//
// Source: NEC 300.5, Table 300.5(A), 340.10.
func (s *sight) buriedCover(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	trench, _ := s.facts.Route.TrenchFeet.Get()
	feet := 0.0
	needs := c.Takeoff.Needs
	if o.Feeder != nil {
		needs = append(needs[:len(needs):len(needs)], o.Feeder.Takeoff.Needs...)
	}
	for i := range needs {
		n := &needs[i]
		if n.Run != circuit.Trench || n.Item != circuit.CableItem && n.Item != circuit.RacewayItem {
			continue
		}
		feet += n.Quantity
		depth, ok := s.burialOf(n)
		if !ok {
			s.breaks("in the ground: what is not made for it", "cable or raceway made for it")
			continue
		}
		least := depth.Earth
		if s.facts.Route.TrenchUnderDrive.Is(true) {
			least = depth.Drive
		}
		s.holds(float64(n.Cover) >= least, fmt.Sprintf("%.0f in of cover", float64(n.Cover)), fmt.Sprintf("at least %.0f in", least))
	}
	s.holds(feet >= float64(trench)-0.01, fmt.Sprintf("%.1f ft in the ground", feet), fmt.Sprintf("the trench, %.1f ft", float64(trench)))
}

// burialOf is the cover of a kind of wiring; false for what may not be buried.
func (s *sight) burialOf(n *circuit.Need) (cover, bool) {
	switch {
	case n.Item == circuit.CableItem && n.Method == edition.UFB:
		return s.Burial.Cable, true
	case n.Item == circuit.RacewayItem && n.Raceway == edition.RMC:
		return s.Burial.Metal, true
	case n.Item == circuit.RacewayItem && (n.Raceway == edition.PVC40 || n.Raceway == edition.PVC80):
		return s.Burial.Plastic, true
	}
	return cover{}, false
}
