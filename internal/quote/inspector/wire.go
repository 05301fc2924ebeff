package inspector

import (
	"daybreak/internal/circuit"
	"daybreak/internal/edition"
)

// cu is a size's row of the conductor table, or nil when it has none.
func (t *tables) cu(size string) *conductor {
	for i := range t.Conductors.Rows {
		if t.Conductors.Rows[i].size == size {
			return &t.Conductors.Rows[i]
		}
	}
	return nil
}

// rank is a size's place in the conductor table; −1 when it has none.
func (t *tables) rank(size string) int {
	for i := range t.Conductors.Rows {
		if t.Conductors.Rows[i].size == size {
			return i
		}
	}
	return -1
}

// nextDevice is the standard device at or above a current; 0 above the table.
//
// Source: NEC 240.6(A).
func (t *tables) nextDevice(current float64) float64 {
	for _, d := range t.Devices.Amps {
		if d >= current-hair {
			return d
		}
	}
	return 0
}

// standard reports whether a rating is one of the table's.
func (t *tables) standard(device float64) bool { return t.nextDevice(device) == device }

// The columns of the ambient table, after the temperature.
const (
	sixty  = 1
	ninety = 3
)

// airFactor is the share a conductor of a column keeps in hot air.
//
// Source: NEC Table 310.15(B)(1)(1).
func (t *tables) airFactor(celsius float64, column int) float64 {
	for i := range t.Ambient.Rows {
		if celsius <= t.Ambient.Rows[i][0] {
			return t.Ambient.Rows[i][column]
		}
	}
	return 0
}

// atTerminals is what a conductor may carry at its ends, no factors: the 60 °C
// column to 100 A unless both ends are marked for 75 °C, and always for
// nonmetallic-sheathed and underground cable.
//
// Source: NEC 110.14(C)(1), 334.80, 340.80.
func (s *sight) atTerminals(c *conductor, m edition.Method, device float64) float64 {
	if m == edition.NMB || m == edition.UFB || device <= s.Terminals.SixtyTo && !s.route.marked {
		return c.cu60
	}
	return c.cu75
}

// inPlace is what a conductor may carry along its way: the 90 °C column less
// the heat; for nonmetallic-sheathed cable not above the 60 °C column, and for
// underground cable from that column.
//
// Source: NEC 310.15, 334.80, 340.80.
func (s *sight) inPlace(c *conductor, m edition.Method) float64 {
	if m == edition.UFB {
		return min(c.cu60, c.cu60*s.airFactor(s.route.air, sixty))
	}
	a := c.cu90 * s.airFactor(s.route.air, ninety)
	if m == edition.NMB {
		a = min(a, c.cu60)
	}
	return a
}

// mostDevice is the largest device over a conductor of this ampacity: the next
// standard one unless the ampacity is itself one, and the small conductors' own
// limits.
//
// Source: NEC 240.4(B), 240.4(D).
func (t *tables) mostDevice(size string, ampacity float64) float64 {
	most := t.nextDevice(ampacity)
	if small, ok := t.Small.Amps[size]; ok {
		most = min(most, small)
	}
	return most
}

// passes makes the three tests on a size.
//
// Source: NEC 210.19(A), 240.4, 310.15.
func (s *sight) passes(c *conductor, m edition.Method, load, device float64) bool {
	ends, way := s.atTerminals(c, m, device), s.inPlace(c, m)
	return ends >= s.Continuous.Factor*load-hair && way >= load-hair && s.mostDevice(c.size, min(ends, way)) >= device
}

// least is the smallest size that passes the three tests; nil when none does.
func (s *sight) least(m edition.Method, load, device float64) *conductor {
	for i := range s.Conductors.Rows {
		c := &s.Conductors.Rows[i]
		if s.passes(c, m, load, device) {
			return c
		}
	}
	return nil
}

// part is one stretch of a circuit as the inspector reads it.
type part struct {
	*circuit.Part
	cable  bool
	size   string
	ground string
	row    *conductor // nil when the size is not in the table
}

// parts are the stretches of a circuit.
func (s *sight) parts(c *circuit.Result) []part {
	var out []part
	for i := range c.Chosen.Parts {
		p := &c.Chosen.Parts[i]
		if p.Method == 0 {
			break
		}
		size := sizeOf(p.Hot.String())
		out = append(out, part{Part: p, cable: p.Raceway == edition.NoRaceway, size: size, ground: sizeOf(p.Ground.String()), row: s.cu(size)})
	}
	return out
}

// area is one insulated conductor's, in square inches.
//
// Source: NEC Chapter 9 Table 5.
func (p *part) area(c *conductor) float64 {
	if p.Method == edition.XHHW2 {
		return c.xhhw
	}
	return c.thwn
}

// tightest is the raceway that decides the fill: the riser where a run has one.
func (p *part) tightest() edition.Raceway {
	if p.Riser != edition.NoRaceway {
		return p.Riser
	}
	return p.Raceway
}

// ohms is the larger of R and the printed effective column, so that a drop is
// never understated.
//
// Source: NEC Chapter 9 Table 9; chargers run near power factor one.
func (p *part) ohms() float64 {
	if p.Raceway == edition.EMT || p.Raceway == edition.RMC {
		return max(p.row.rSteel, p.row.zSteel)
	}
	return max(p.row.rPVC, p.row.zPVC)
}

// racewayName is a raceway as the tables spell it.
func racewayName(r edition.Raceway) string {
	switch r {
	case edition.EMT:
		return "EMT"
	case edition.RMC:
		return "RMC"
	case edition.PVC40:
		return "PVC 40"
	case edition.PVC80:
		return "PVC 80"
	}
	return ""
}
