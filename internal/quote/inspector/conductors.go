package inspector

import (
	"fmt"

	"daybreak/internal/edition"
	"daybreak/internal/quote"
)

// terminals: the table ampacity at the ends carries 125 % of the load, no
// factors taken and nothing lent by the next device size; it is copper, which the
// equipment's terminals are made for.
//
// Source: NEC 210.19(A)(1), 110.14(C)(1).
func (s *sight) terminals(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	need := s.Continuous.Factor * float64(c.Load)
	for _, p := range s.parts(c) {
		if p.row == nil {
			s.breaks(p.size+" AWG", "a size of the conductor table")
			continue
		}
		got := s.atTerminals(p.row, p.Method, float64(c.Device))
		s.holds(p.Metal == edition.Copper, "aluminium at the equipment", "copper")
		s.holds(got >= need-hair, fmt.Sprintf("%s AWG, %s at its terminals", p.size, amps(got)), "at least "+amps(need))
	}
}

// conditions: the ampacity along the way, after the heat, carries the load.
//
// Source: NEC 210.19(A)(2), 310.15(B), 334.80.
func (s *sight) conditions(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	for _, p := range s.parts(c) {
		if p.row == nil {
			continue
		}
		got := s.inPlace(p.row, p.Method)
		s.holds(got >= float64(c.Load)-hair, fmt.Sprintf("%s AWG in %.0f °C air, %s", p.size, s.route.air, amps(got)), "at least "+amps(c.Load))
	}
}

// protection: the device is no larger than the conductor may have.
//
// Source: NEC 240.4(B), 240.4(D).
func (s *sight) protection(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	for _, p := range s.parts(c) {
		if p.row == nil {
			continue
		}
		most := s.mostDevice(p.size, min(s.atTerminals(p.row, p.Method, float64(c.Device)), s.inPlace(p.row, p.Method)))
		s.holds(float64(c.Device) <= most, fmt.Sprintf("%s over %s AWG", amps(c.Device), p.size), "at most "+amps(most))
	}
}

// cableColumn: cable is never said to carry more than its 60 °C column.
//
// Source: NEC 334.80.
func (s *sight) cableColumn(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	for _, p := range s.parts(c) {
		if p.Method != edition.NMB && p.Method != edition.UFB || p.row == nil {
			continue
		}
		said := max(float64(p.Ampacity), float64(p.Terminals))
		s.holds(said <= p.row.cu60+hair, fmt.Sprintf("%s AWG cable at %s", p.size, amps(said)), "at most "+amps(p.row.cu60))
	}
}

// groundByDevice: the grounding conductor is at least the table's for the
// device, and no larger than the hots need be; cable has what its jacket holds.
//
// Source: NEC 250.122(A), Table 250.122; trade practice for cable.
func (s *sight) groundByDevice(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	need := s.groundFor(float64(c.Device))
	for _, p := range s.parts(c) {
		got := s.rank(p.ground)
		s.holds(got >= s.rank(need) && got >= 0, p.ground+" AWG ground on "+amps(c.Device), "at least "+need+" AWG")
		s.holds(got <= s.rank(p.size), p.ground+" AWG ground beside "+p.size+" AWG", "at most the size of the hots")
		if p.Method == edition.NMB {
			s.holds(p.ground == s.CableGround.Size[p.size], p.ground+" AWG ground in "+p.size+" AWG cable", s.CableGround.Size[p.size]+" AWG inside the jacket")
		}
	}
}

// groundFor is the table's grounding conductor for a device; "" above it.
func (t *tables) groundFor(device float64) string {
	for _, r := range t.Ground.Rows {
		if device <= r.to {
			return r.size
		}
	}
	return ""
}

// groundInProportion: where the hots are larger than the three tests ask for,
// the grounding conductor grows in the ratio of circular mils, to at most the
// hots. A shortage under 0.1 % is the table's rounding.
//
// Source: NEC 250.122(B).
func (s *sight) groundInProportion(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	base := s.cu(s.groundFor(float64(c.Device)))
	for _, p := range s.parts(c) {
		minimum, ground := s.least(p.Method, float64(c.Load), float64(c.Device)), s.cu(p.ground)
		if p.row == nil || base == nil || minimum == nil || ground == nil {
			continue
		}
		need := min(base.cmil*p.row.cmil/minimum.cmil, p.row.cmil)
		s.holds(ground.cmil >= need*0.999, fmt.Sprintf("%s AWG ground with %s AWG hots for %s AWG", p.ground, p.size, minimum.size),
			fmt.Sprintf("at least %.0f circular mils", need))
	}
}
