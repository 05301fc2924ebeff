package inspector

import (
	"fmt"
	"strconv"
	"strings"

	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/quote"
)

// settingWithinBreaker: a setting is at most 80 % of its breaker, and not below
// what a control pilot can say.
//
// Source: NEC 625.41, 210.20(A); SAE J1772.
func (s *sight) settingWithinBreaker(o *quote.Option) {
	s.holds(float64(o.Setting) >= s.Setting.Least, amps(o.Setting)+" set", "at least "+amps(s.Setting.Least))
	if o.Breaker > 0 {
		most := float64(o.Breaker) / s.Continuous.Factor
		s.holds(float64(o.Setting) <= most+hair, fmt.Sprintf("%s set on %s", amps(o.Setting), amps(o.Breaker)), "at most "+amps(most))
	}
}

// breakerStandard: the breaker of a new circuit is the standard rating at or
// above 125 % of the load, and the same on the drawing as on the quote.
//
// Source: NEC 240.6(A), 625.41.
func (s *sight) breakerStandard(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	device, need := float64(c.Device), s.Continuous.Factor*float64(c.Load)
	s.holds(s.standard(device), amps(device)+" device", "a standard rating")
	s.holds(device >= need-hair, amps(device)+" device", "at least "+amps(need))
	s.holds(device <= s.nextDevice(need), amps(device)+" device", "the next standard rating, "+amps(s.nextDevice(need)))
	s.holds(o.Breaker == c.Device && c.Chosen.Device == c.Device, amps(o.Breaker)+" on the quote", amps(device)+" as drawn")
}

// loadCounted: the circuit carries the rating plate, unless the edition lets a
// lower setting count for this equipment; then the setting is on a label.
//
// Source: NEC 625.42, 625.42(B).
func (s *sight) loadCounted(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	s.holds(c.Load >= o.Setting, amps(c.Load)+" counted", "at least the setting, "+amps(o.Setting))
	plate, lower := s.plateOf(o), c.Labels&circuit.SettingLabel != 0
	lower = lower || plate > 0 && float64(c.Load) < plate-hair
	if !lower {
		return
	}
	counts := s.Setting.Counts.in(s.year)
	s.holds(counts == "any" || counts == "fixed" && c.Hardwired,
		fmt.Sprintf("%s counted of a %s plate", amps(c.Load), amps(plate)), "the plate, where a setting counts "+counts)
	s.holds(c.Labels&circuit.SettingLabel != 0, "no label of the setting", "a label that shows the setting")
}

// plateOf is the larger of the rating plate the working states and that of the
// equipment on the bill; 0 when neither says.
func (s *sight) plateOf(o *quote.Option) float64 {
	return max(statedPlate(o), billedPlate(o))
}

// billedPlate reads the amperes of the equipment line: "EVSE 40 A, hardwired".
func billedPlate(o *quote.Option) float64 {
	for i := range o.Bill.Lines {
		l := &o.Bill.Lines[i]
		if o.EquipmentCode == "" || l.Code != o.EquipmentCode || o.Volts == 120 {
			continue
		}
		fields := strings.Fields(l.Words)
		for k := 1; k < len(fields); k++ {
			if n, err := strconv.ParseFloat(fields[k-1], 64); err == nil && strings.HasPrefix(fields[k], "A") {
				return n
			}
		}
	}
	return 0
}

func statedPlate(o *quote.Option) float64 {
	for i := range o.Working {
		if o.Working[i].Rule != "circuit.load" {
			continue
		}
		for _, term := range o.Working[i].In {
			if term.Name == "rating" {
				return term.Value
			}
		}
	}
	return 0
}

// face is a receptacle of the table, or nil when it has none.
func (t *tables) face(config string) *face {
	for i := range t.Receptacles.Rows {
		if t.Receptacles.Rows[i].config == config {
			return &t.Receptacles.Rows[i]
		}
	}
	return nil
}

// receptacleRating: a receptacle alone on its circuit is rated for the circuit,
// and says so.
//
// Source: NEC 210.21(B)(1).
func (s *sight) receptacleRating(o *quote.Option) {
	c := built(o)
	if c == nil || c.Hardwired {
		return
	}
	f := s.face(c.Receptacle.Config)
	if f == nil {
		s.breaks(c.Receptacle.Config, "a face of the table")
		return
	}
	s.holds(f.amps >= float64(c.Device), f.config+" on "+amps(c.Device), "a face of at least "+amps(c.Device))
	s.holds(f.amps == float64(c.Receptacle.Amps), amps(c.Receptacle.Amps)+" for "+f.config, amps(f.amps))
}

// receptacleFace: a new receptacle has an equipment ground, does not lock, and
// gives the circuit's voltage.
//
// Source: NEC 625.44, 250.114.
func (s *sight) receptacleFace(o *quote.Option) {
	c := built(o)
	if c == nil || c.Hardwired {
		return
	}
	if f := s.face(c.Receptacle.Config); f != nil {
		s.holds(f.ground && !f.locking, f.config, "a nonlocking face with an equipment ground")
		s.holds((f.volts > 120) == (o.Volts > 120), fmt.Sprintf("%s at %.0f V", f.config, o.Volts), "a face of that voltage")
	}
}

// hardwiredAbove: above 40 A the equipment is wired in; what has a receptacle
// is called so.
//
// Source: NEC 625.44; the shop's rule above 40 A.
func (s *sight) hardwiredAbove(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	most := max(o.Setting, c.Load)
	s.holds(c.Hardwired || float64(most) <= s.PlugIn.Most, amps(most)+" with a plug", "hardwired above "+amps(s.PlugIn.Most))
	s.holds(c.Hardwired == (c.Receptacle.Config == ""), "receptacle "+c.Receptacle.Config, "a receptacle or hardwired, not both or neither")
}

// groundFault: a ground-fault device is priced where the edition asks for one
// at this place, connection and rating; where readings differ it is priced and
// the authority asked.
//
// Source: NEC 210.8(A), 210.8(F), 625.54.
func (s *sight) groundFault(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	connection := "plug"
	if c.Hardwired {
		connection = "hardwired"
	}
	required := s.faultRule(connection, s.route.place, float64(c.Device))
	saw := fmt.Sprintf("%s, %s, %s: none", connection, s.route.place, amps(c.Device))
	s.holds(c.GFCI || required == "no", saw, "a ground-fault device: "+required)
	if required == "ahj" && !c.Hardwired {
		return // one without the amendment is read as not required: priced all the same
	}
	if required == "ahj" {
		s.holds(c.GroundFault.Value == edition.AskAHJ, "no question to the authority", "ask the authority")
	}
}

// faultRule is the first row of the ground-fault table that matches.
func (s *sight) faultRule(connection, place string, device float64) string {
	for i := range s.GroundFault.Rows {
		r := &s.GroundFault.Rows[i]
		if r.connection == connection && (r.place == "any" || r.place == place) && device <= r.to {
			return r.required.in(s.year)
		}
	}
	return "yes"
}

// disconnect: hardwired equipment above the edition's limit has a disconnect.
//
// Source: NEC 625.43.
func (s *sight) disconnect(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	above := s.Disconnect.Above.in(s.year)
	need := c.Hardwired && (above < 0 || float64(c.Load) > above)
	s.holds(c.Disconnect || !need, "no disconnect for "+amps(c.Load), "a disconnect")
}

// poles: a circuit at 208 or 240 V opens both hots, one at 120 V one.
//
// Source: NEC 240.15(B).
func (s *sight) poles(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	want := 2
	if o.Volts == 120 {
		want = 1
	}
	s.holds(c.Poles == want && c.Chosen.Poles == want, fmt.Sprintf("%d poles at %.0f V", c.Poles, o.Volts), fmt.Sprintf("%d", want))
}

// neutral: a neutral is pulled where the receptacle has one, and nowhere else.
//
// Source: ANSI/NEMA WD 6; NEC 200.3.
func (s *sight) neutral(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	want := s.insulated(c) == 3
	for _, p := range s.parts(c) {
		s.holds(p.Neutral == want, fmt.Sprintf("neutral %v with %q", p.Neutral, c.Receptacle.Config), fmt.Sprintf("neutral %v", want))
	}
}

// takeoffAgrees: the material is that of the drawing: breaker, receptacle,
// disconnect, and conductors of the sizes drawn.
//
// Source: common practice.
func (s *sight) takeoffAgrees(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	var breakers, receptacles, disconnects int
	for i := range c.Takeoff.Needs {
		n := &c.Takeoff.Needs[i]
		switch n.Item {
		case circuit.BreakerItem:
			breakers++
			s.holds(n.Amps == c.Device && n.Poles == c.Poles && n.GFCI == c.GFCI, fmt.Sprintf("%s, %d poles, ground fault %v taken off", amps(n.Amps), n.Poles, n.GFCI), fmt.Sprintf("%s, %d poles, ground fault %v", amps(c.Device), c.Poles, c.GFCI))
		case circuit.ReceptacleItem:
			receptacles++
			s.holds(n.Config == c.Receptacle.Config, n.Config+" taken off", c.Receptacle.Config)
		case circuit.DisconnectItem:
			disconnects++
		case circuit.CableItem, circuit.WireItem:
			p := &c.Chosen.Parts[n.Part]
			s.holds(n.Size == p.Hot, n.Size.String()+" taken off", p.Hot.String())
		}
	}
	s.holds(breakers == 1, fmt.Sprintf("%d breakers", breakers), "one")
	s.holds((receptacles > 0) != c.Hardwired, fmt.Sprintf("%d receptacles", receptacles), "one, unless hardwired")
	asked := c.Disconnect || c.StructureDisconnect // at the charger, or where another structure is reached
	s.holds((disconnects > 0) == asked, fmt.Sprintf("%d disconnects", disconnects), fmt.Sprintf("disconnect %v", asked))
}
