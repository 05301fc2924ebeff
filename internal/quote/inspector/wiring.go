package inspector

import (
	"fmt"

	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/quote"
)

// cableDry: no nonmetallic-sheathed cable lies in the weather, by its own mark,
// by the take-off, or because the dry part of the way is too short for it.
//
// Source: NEC 334.12(B)(4), 300.9.
func (s *sight) cableDry(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	cable := 0.0
	for _, p := range s.parts(c) {
		if p.Method == edition.NMB {
			cable += float64(p.Feet)
			s.holds(!p.Wet, "cable marked for the weather", "cable in dry places")
		}
	}
	dry := s.route.feet - s.route.outside
	s.holds(cable <= dry+0.01, fmt.Sprintf("%.1f ft of cable", cable), fmt.Sprintf("%.1f ft, the dry part of the way", dry))
	for i := range c.Takeoff.Needs {
		n := &c.Takeoff.Needs[i]
		s.holds(n.Item != circuit.CableItem || n.Method != edition.NMB || n.Run != circuit.Outside && n.Run != circuit.Trench, "cable outside on the take-off", "cable in dry places")
	}
}

// cableNotExposed: cable on the face of a wall may be hit; a raceway is priced
// there.
//
// Source: NEC 334.15(B); the heights are local practice.
func (s *sight) cableNotExposed(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	for i := range c.Takeoff.Needs {
		n := &c.Takeoff.Needs[i]
		s.holds(n.Item != circuit.CableItem || n.Method != edition.NMB || n.Run != circuit.Surface, "cable on the face of a wall", "a raceway")
	}
}

// cableNotInConcrete: a concrete building takes no cable inside its framing.
//
// Source: NEC 334.10, 334.12(A); common practice.
func (s *sight) cableNotInConcrete(o *quote.Option) {
	if c := built(o); c != nil && s.route.solid {
		for _, p := range s.parts(c) {
			s.holds(!p.cable, "cable in a concrete building", "a raceway")
		}
	}
}

// cableSize: the articles have cable from 14 AWG to 2 AWG, underground to 4/0.
//
// Source: NEC 334.104, 340.104.
func (s *sight) cableSize(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	for _, p := range s.parts(c) {
		largest := s.Cable.NMLargest
		if p.Method == edition.UFB {
			largest = s.Cable.UFLargest
		}
		if p.Method == edition.NMB || p.Method == edition.UFB {
			r := s.rank(p.size)
			s.holds(r >= s.rank(s.Cable.Smallest) && r <= s.rank(largest), p.size+" AWG cable", s.Cable.Smallest+" to "+largest+" AWG")
		}
	}
}

// dropWithinLimit: the drop at the load's current over the whole way is within
// the limit, and is what is printed.
//
// Source: NEC 210.19(A) informational note, Chapter 9 Table 9; 2·I·Z·L/1000.
func (s *sight) dropWithinLimit(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	volts := 0.0
	for _, p := range s.parts(c) {
		if p.row == nil {
			return
		}
		volts += 2 * float64(c.Load) * p.ohms() * float64(p.Feet) / 1000
	}
	percent := 100 * volts / float64(o.Volts)
	s.holds(percent <= s.Drop.Percent+hair, fmt.Sprintf("%.3f %% drop", percent), fmt.Sprintf("at most %.1f %%", s.Drop.Percent))
	s.holds(near(percent, c.Chosen.DropPercent, 1e-6), fmt.Sprintf("%.3f %% printed", c.Chosen.DropPercent), fmt.Sprintf("%.3f %%", percent))
}

// racewayFill: the conductors, grounding conductor among them, take at most 53,
// 31 or 40 % of the raceway.
//
// Source: NEC Chapter 9 Tables 1, 4 and 5.
func (s *sight) racewayFill(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	for _, p := range s.parts(c) {
		ground := s.cu(p.ground)
		if p.cable || p.row == nil || ground == nil {
			continue
		}
		name := racewayName(p.tightest())
		inside, known := s.Raceways.Areas[name][string(p.Trade)]
		if !known {
			s.breaks(fmt.Sprintf("%s %s", name, p.Trade), "a trade size of the table")
			continue
		}
		hots := s.insulated(c)
		percent := 100 * (float64(hots)*p.area(p.row) + p.area(ground)) / inside
		most := s.Fill.More
		if hots+1 == 2 {
			most = s.Fill.Two
		}
		s.holds(percent <= most+hair, fmt.Sprintf("%.1f %% of %s %s", percent, name, p.Trade), fmt.Sprintf("at most %.0f %%", most))
		s.holds(near(percent, p.FillPercent, 0.01), fmt.Sprintf("%.1f %% printed", p.FillPercent), fmt.Sprintf("%.1f %%", percent))
	}
}

// insulated is how many insulated conductors the circuit needs: two hots, or
// hot and neutral at 120 V; a neutral more where a 240 V face has one.
func (s *sight) insulated(c *circuit.Result) int {
	if f := s.face(c.Receptacle.Config); f != nil && f.neutral && f.volts > 120 {
		return 3
	}
	return 2
}

// wholeRoute: the stretches cover the way from panel to charger, drops and all,
// and the bill is made for that length.
//
// Source: common practice.
func (s *sight) wholeRoute(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	feet := 0.0
	for _, p := range s.parts(c) {
		feet += float64(p.Feet)
	}
	whole, billed, way := s.route.feet, s.route.feet, ""
	if s.route.ditch {
		way = ", a trench the only way named"
	}
	if f := o.Feeder; f != nil {
		s.holds(near(float64(f.Takeoff.RouteFeet), whole, 0.01), fmt.Sprintf("%.2f ft of feeder%s", f.Takeoff.RouteFeet, way), fmt.Sprintf("%.2f ft", whole))
		whole = fromItsPanel
		billed += whole
	}
	if o.Subpanel > 0 {
		billed += besidePanel
	}
	want := fmt.Sprintf("%.2f ft", whole)
	s.holds(near(feet, whole, 0.01), fmt.Sprintf("%.2f ft wired%s", feet, way), want)
	s.holds(near(float64(c.Takeoff.RouteFeet), whole, 0.01), fmt.Sprintf("%.2f ft taken off%s", c.Takeoff.RouteFeet, way), want)
	if itemised(o) {
		s.holds(near(float64(o.Bill.FeetAssumed), billed, 0.01), fmt.Sprintf("%.2f ft billed%s", o.Bill.FeetAssumed, way), fmt.Sprintf("%.2f ft", billed))
	}
}

// fromItsPanel is the way from a new panel in another building to the charger,
// and besidePanel the one to a panel beside a full one, in feet.
//
// Source: common practice.
const (
	fromItsPanel = 8.0
	besidePanel  = 2.0
)
