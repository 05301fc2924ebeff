package circuit

import (
	"daybreak/internal/edition"
)

// part lists a part of the route stretch by stretch, then its wires and ends.
func (t *Takeoff) part(ed edition.Edition, c *Candidate, i int) {
	p := &c.Parts[i]
	w := wiring{raceway: p.Raceway, riser: p.Riser}
	rises := 0
	for j := c.spans[i].a; j < c.spans[i].z; j++ {
		s := &c.route[j]
		if s.riser {
			rises++
		}
		t.RouteFeet += s.Feet
		n := Need{Quantity: float64(s.Feet), Method: p.Method, Raceway: p.Raceway, Trade: p.Trade, Run: s.Kind, Part: i, Wet: s.Kind.outdoors()}
		if s.Kind == Trench {
			n.Dug = s.Segment.Ground
			if cover, err := ed.CoverDepth(s.Over, p.buried()); err == nil {
				n.Cover = cover.Value.Inches
			}
		}
		if p.Method.Cable() {
			t.cable(p, s, n)
			continue
		}
		n.Item, n.Raceway = RacewayItem, w.on(s)
		if c.Whip > 0 && int(j) == len(c.route)-1 {
			n.Quantity -= float64(c.Whip)
		}
		t.add(n)
		if s.Kind != Trench {
			n.Item = SupportItem
			t.add(n)
		}
	}
	if !p.Method.Cable() {
		t.wires(ed, c, i)
	}
	ends := Need{Item: ConnectorItem, Quantity: 2, Method: p.Method, Raceway: p.Raceway, Size: p.Hot, Part: i, Wet: p.Wet}
	if !p.Method.Cable() {
		ends.Trade = p.Trade
	}
	t.add(ends)
	if rises > 0 && !p.Method.Cable() && p.Raceway != edition.RMC {
		t.add(Need{Item: ExpansionItem, Quantity: float64(rises), Raceway: p.Riser, Trade: p.Trade, Part: i, Wet: true})
	}
}

// cable lists one stretch of cable. What is fished or buried is not fastened
// (334.30(B)(1)); buried cable comes up, and runs outside, in a sleeve.
func (t *Takeoff) cable(p *Part, s *stretch, n Need) {
	n.Item, n.Size, n.Ground, n.Conductors, n.Metal = CableItem, p.Hot, p.Ground, p.Conductors(), metalOf(p)
	n.Trade = ""
	t.add(n)
	switch {
	case s.Kind == Fished:
		// In and out of the wall, the cable passes a plate close to its face.
		t.add(Need{Item: NailPlateItem, Quantity: 2, Run: s.Kind, Part: n.Part})
	case s.Kind == Trench:
	case p.Riser != edition.NoRaceway && (s.Kind == Outside || s.riser):
		t.add(Need{Item: SleeveItem, Quantity: float64(s.Feet), Raceway: p.Riser, Trade: p.Trade, Run: s.Kind, Part: n.Part, Wet: true})
	default:
		n.Item = SupportItem
		t.add(n)
	}
}

// metalOf names aluminium only: copper goes without saying in a take-off.
func metalOf(p *Part) edition.Material {
	if p.Metal == edition.Aluminium {
		return p.Metal
	}
	return 0
}

// wires lists the conductors of a raceway, and the whip at its end.
func (t *Takeoff) wires(ed edition.Edition, c *Candidate, i int) {
	p := &c.Parts[i]
	if c.Whip > 0 && p == c.lastPart() {
		t.add(Need{Item: WhipItem, Quantity: float64(c.Whip), Raceway: whipRaceway(c.Place), Trade: c.WhipTrade, Part: i, Wet: c.Place == edition.Outdoor})
	}
	t.add(Need{Item: WireItem, Quantity: float64(p.Feet), Method: p.Method, Size: p.Hot, Conductors: p.Conductors(), Metal: metalOf(p), Part: i, Wet: p.Wet})
	t.add(Need{Item: GroundWireItem, Quantity: float64(p.Feet), Method: groundMethod(p), Size: p.Ground, Part: i, Wet: p.Wet})
}

// groundMethod is the insulation of a grounding conductor, which stays copper.
func groundMethod(p *Part) edition.Method {
	if p.Metal == edition.Aluminium {
		return edition.THWN2
	}
	return p.Method
}

// panel lists what stands at the end of a feeder, and what is fed from it anew.
func (t *Takeoff) panel(f *Fed) {
	board := Need{Item: SubpanelItem, Quantity: 1, Amps: f.Amps, Spaces: f.Spaces, Wet: f.Place == edition.Outdoor}
	if f.Main {
		board.Poles = 2
	}
	t.add(board)
	t.add(Need{Item: GroundBarItem, Quantity: 1})
	if f.Rods > 0 {
		t.add(Need{Item: RodItem, Quantity: float64(f.Rods)})
		t.add(Need{Item: RodWireItem, Quantity: float64(f.RodFeet), Size: f.RodWire})
	}
	for _, m := range f.Moved {
		t.add(Need{Item: MovedItem, Quantity: 1, Amps: m.Amps, Poles: m.Poles, GFCI: m.GFCI})
	}
	if f.Removed > 0 {
		t.add(Need{Item: RemovalItem, Quantity: float64(f.Removed)})
	}
}
