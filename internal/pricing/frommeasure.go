package pricing

import (
	"daybreak/internal/panel"
	"daybreak/internal/unit"
)

// House is what a panel measure leaves open and its price needs. A zero says
// what is priced where nobody knows.
type House struct {
	Conditions Conditions
	Equipment  Equipment // wanted; used by a sharing switch, which takes the place of a circuit
	Charger    Breaker   // of the charger's circuit; the zero is 40 A, two poles
	Rating     unit.Amps // of the service today
	Feed       string    // "oh", "ug"; "" is overhead
	Lateral    unit.Feet // underground lateral that is the owner's; 0 is none
	Outdoor    bool      // the panel is outdoors, and so is one beside it
	Free       int       // full spaces free today
	Needed     int       // full spaces the charger's breaker takes; 0 is two
	// Surge and EmergencyDisconnect say what the edition asks of a new service.
	Surge, EmergencyDisconnect bool
	WaterPipes, GasPipes       int // metal pipes to bond with a new service
	Appliance                  Appliance
	Visits                     int // 0 plans them
}

// Appliance is the circuit a sharing switch would be put on.
type Appliance struct {
	Receptacle string    // its outlet today, "14-30", "10-30"; "" is not seen, and its circuit is run anew
	Run        []Segment // from the panel to the appliance, for a circuit run anew; one method, wiring 0
	PanelDrop  unit.Feet
	DeviceDrop unit.Feet
	ToCharger  []Segment // from the switch to the charger; none is a charger plugged in beside it
}

// Standing says where the work of a measure belongs.
type Standing uint8

const (
	// NoWork: nothing to supply or do on site.
	NoWork Standing = iota
	// Joined: done on the circuit's visit, in its bill: [Work.With].
	Joined
	// Instead: takes the place of the circuit's work.
	Instead
	// Apart: a bill of its own beside the circuit's; [SumOf] adds their totals.
	Apart
)

// Gap is what no price can be given for before somebody has looked; its words
// go by "pricing.gap." and its text.
type Gap string

// The gaps.
const (
	// GapRun: the length of the appliance's circuit is not known.
	GapRun Gap = "run"
	// GapAppliance: no listed switch goes with that appliance's circuit.
	GapAppliance Gap = "appliance"
	// GapRating: no such service is sold in kits.
	GapRating Gap = "rating"
	// GapFeeder: the charger asks for a feeder larger than panels beside a panel take.
	GapFeeder Gap = "feeder"
)

// Remedy is a panel measure as work.
type Remedy struct {
	Standing Standing
	Work     Work
	Unpriced []Gap
}

// FromMeasure turns a panel measure into work, and lists what cannot be priced
// before somebody has looked. Whatever others price stands in Work.Asides.
//
// Source: NFPA 70 408.36, 408.54, 230.67, 230.85, 230.79 and 625.42 for what
// each measure asks; how it is done is common practice.
func FromMeasure(m *panel.Measure, house *House) Remedy {
	switch m.Kind {
	case panel.SharingSwitch:
		return sharing(m, house)
	case panel.ManageEnergy:
		return house.joined(house.manage(m))
	case panel.RemoveLoad:
		return house.joined(Work{Design: Design{OldCircuits: 1}, Asides: []Aside{{What: "convert_" + m.Load.String()}}})
	case panel.TandemBreakers:
		return house.joined(Work{Design: Design{Tandems: Tandems{Count: house.short(), Amps: 20}, Labels: LabelDirectory}})
	case panel.Subpanel:
		return house.beside()
	case panel.NewPanelboard:
		if house.Rating > 200 {
			return Remedy{Standing: Apart, Unpriced: []Gap{GapRating}} // kits are made to 200 A
		}
		return house.apart(house.newPanel())
	case panel.UpgradeService:
		return house.upgrade(m)
	}
	return Remedy{}
}

// joined is work on the circuit's own visit.
func (h *House) joined(w Work) Remedy {
	w.Conditions, w.Visits = h.Conditions, max(h.Visits, 1)
	return Remedy{Standing: Joined, Work: w}
}

// apart is a bill of its own: one visit to do it, one more because the utility
// and the inspector come between.
func (h *House) apart(s Service) Remedy {
	w := Work{Conditions: h.Conditions, Permits: PermitService, Visits: max(h.Visits, 2)}
	w.Design.Service, w.Design.Labels = s, LabelDirectory
	return Remedy{Standing: Apart, Work: w}
}

// manage is a system that measures the service and throttles the charger, or
// sheds the circuit of a charger the buyer has, which nobody can throttle.
func (h *House) manage(m *panel.Measure) Work {
	d := Design{Management: Management{Method: "measured_limit", Amps: m.Setting}, Labels: LabelManagement}
	if h.Equipment.Supply == BuyerSupplies {
		d.Management = Management{Method: "load_shed", Amps: h.charger().Amps}
	} else {
		d.Equipment.Managed = true
	}
	return Work{Design: d}
}

// charger is the breaker of the charger's circuit.
func (h *House) charger() Breaker {
	b := h.Charger
	if b.Amps == 0 {
		b = Breaker{Amps: 40, Poles: 2}
	}
	if b.Poles == 0 {
		b.Poles = 2
	}
	if b.Protection == "" {
		b.Protection = Standard
	}
	return b
}

// short is how many full spaces the charger's breaker lacks, one at least.
func (h *House) short() int {
	needed := h.Needed
	if needed == 0 {
		needed = 2
	}
	return max(1, needed-h.Free)
}

// movedAmps is the rating a moved or doubled circuit is priced at; 15 and 20 A
// cost the same.
const movedAmps = 20

// beside is a small panel beside a full one: its feeder's breaker takes the
// spaces of the circuits that move over, and it holds those and the charger's.
//
// Source: NFPA 70 215.2, 408.36(D); copper at 75 °C, Table 310.16; a nipple of
// 2 ft is short enough to need no adjustment, 310.15(C)(1)(b).
func (h *House) beside() Remedy {
	charger := h.charger()
	move := min(max(2-h.Free, 0), 2)
	load := charger.Amps
	if move > 0 {
		load += movedAmps // one on each leg, beside the charger
	}
	size, ok := feederFor(load)
	if !ok {
		return Remedy{Standing: Joined, Unpriced: []Gap{GapFeeder}}
	}
	f := Feeder{
		Breaker: Breaker{Amps: size.amps, Poles: 2, Protection: Standard},
		Wiring: []Wiring{{Method: EMT, TradeSize: size.trade, Conductors: []Conductors{
			{Size: size.hot, Count: 3}, {Size: size.ground, Count: 1},
		}, Wet: h.Outdoor}},
		Segments: []Segment{{Kind: Surface, Feet: nipple}},
		Board:    Panelboard{Amps: size.amps, Spaces: charger.Poles + move, Outdoor: h.Outdoor},
	}
	if size.amps > 60 {
		f.Wiring[0].Bushings = 2 // 4 AWG and larger, 300.4(G)
	}
	for range move {
		f.Moved = append(f.Moved, Breaker{Amps: movedAmps, Poles: 1, Protection: Standard})
	}
	return h.joined(Work{Design: Design{Feeder: f, Labels: LabelDirectory}, Permits: PermitSubpanel})
}

// nipple is the way from a panel to one beside it.
const nipple unit.Feet = 2

// feederSize is a feeder with its conductors and the tubing that holds them.
type feederSize struct {
	amps               unit.Amps
	hot, ground, trade string
}

// feederFor is the smallest usual feeder for a load already at 125 %.
//
// Source: NFPA 70 Table 310.16 copper at 75 °C, Table 250.122; trade sizes with
// room for moved circuits, engineering judgement.
func feederFor(load unit.Amps) (feederSize, bool) {
	for _, f := range [...]feederSize{
		{60, "6", "10", "1"}, {80, "4", "8", "1-1/4"}, {100, "3", "8", "1-1/4"}, {125, "1", "6", "1-1/2"},
	} {
		if load <= f.amps {
			return f, true
		}
	}
	return feederSize{}, false
}

// newPanel is breakers in place of fuses, at the same rating.
func (h *House) newPanel() Service {
	rating := h.Rating
	if rating < 100 {
		rating = 100 // no smaller panel is sold; its main is set by the service
	}
	return Service{From: rating, To: rating, Feed: h.feed(), Surge: h.Surge, EmergencyDisconnect: h.EmergencyDisconnect}
}

func (h *House) feed() string {
	if h.Feed == "ug" {
		return "ug"
	}
	return "oh"
}

// upgrade is a larger service, with what the utility asks named beside it.
func (h *House) upgrade(m *panel.Measure) Remedy {
	from, to, ok := kitFor(h.Rating, m.Service)
	if !ok {
		return Remedy{Standing: Apart, Unpriced: []Gap{GapRating}}
	}
	r := h.apart(Service{
		From: from, To: to, Feed: h.feed(), Surge: h.Surge, EmergencyDisconnect: h.EmergencyDisconnect,
		Electrodes: h.bonds(to),
	})
	r.Work.Asides = []Aside{{What: "utility_fee"}}
	if h.Lateral > 0 {
		r.Work.Asides = append(r.Work.Asides, Aside{What: "utility_lateral", Feet: h.Lateral})
	}
	return r
}

// bonds is what joins metal pipes to a new service.
//
// Source: NFPA 70 250.104, Tables 250.66 and 250.102(C)(1): 4 AWG copper to 200
// A, 2 AWG above for 4/0 AWG and larger.
func (h *House) bonds(to unit.Amps) Electrodes {
	pipes := h.WaterPipes + h.GasPipes
	if pipes == 0 {
		return Electrodes{}
	}
	e := Electrodes{Size: "4", Feet: unit.Feet(15 * pipes), WaterPipes: h.WaterPipes, GasPipes: h.GasPipes}
	if to > 200 {
		e.Size = "2"
	}
	return e
}

// kitFor finds the ratings kits are made for that stand for a service from one
// rating to another: the largest start not above it, the smallest end not
// below it.
//
// Source: common practice; the completeness check holds books to these sizes.
func kitFor(from, to unit.Amps) (start, end unit.Amps, ok bool) {
	switch {
	case !(to > 0 && to <= 400):
		return 0, 0, false
	case to > 200:
		return 200, 400, true
	case to <= 100:
		return 60, 100, true
	}
	start = 60
	for _, a := range [...]unit.Amps{100, 125, 150} {
		if a <= from {
			start = a
		}
	}
	if from == 0 {
		start = 100
	}
	return start, 200, true
}

// sharing puts the charger on an appliance's circuit behind a listed switch,
// appliance first. A three-wire circuit, or one nobody has seen, is run anew
// with four wires; the old one is made safe.
//
// Source: NFPA 70 250.140, 625.40; product instructions of listed switches.
func sharing(m *panel.Measure, h *House) Remedy {
	config, amps := "14-30", unit.Amps(30)
	switch {
	case m.Load == panel.Range:
		config, amps = "14-50", 50
	case m.Load != panel.Dryer:
		return Remedy{Standing: Instead, Unpriced: []Gap{GapAppliance}}
	}
	a := &h.Appliance
	w := Work{Conditions: h.Conditions, Permits: PermitCircuit, Visits: max(h.Visits, 1)}
	d := &w.Design
	d.Equipment = h.Equipment
	if d.Equipment.Setting == 0 {
		d.Equipment.Setting = m.Setting
	}
	d.Management = Management{Method: "load_switch", Amps: amps}
	d.Labels = LabelSetting | LabelManagement
	var gaps []Gap
	if a.Receptacle != config {
		gaps = w.rerun(a, config, Breaker{Amps: amps, Poles: 2, Protection: h.charger().Protection})
	}
	w.onward(a, amps)
	return Remedy{Standing: Instead, Work: w, Unpriced: gaps}
}

// rerun is the appliance's circuit anew, with four wires.
func (w *Work) rerun(a *Appliance, config string, breaker Breaker) []Gap {
	d, r := &w.Design, &w.Route
	d.Breaker = breaker
	d.Wiring = []Wiring{{Method: NMB, Cable: Cable{Size: cableFor(breaker.Amps), Conductors: 3}, Connectors: 1}}
	d.Termination = Termination{Receptacle: config, Grade: "residential", Box: NewWork}
	d.OldCircuits = 1
	r.PanelDrop, r.DeviceDrop = a.PanelDrop, a.DeviceDrop
	r.append(a.Run, 0)
	d.Termination.Box = boxIn(r)
	if len(a.Run) == 0 {
		return []Gap{GapRun}
	}
	return nil
}

// onward leads from the switch to the charger, by cable of the circuit's size;
// a charger beside the switch is plugged into it.
func (w *Work) onward(a *Appliance, amps unit.Amps) {
	d := &w.Design
	if len(a.ToCharger) == 0 {
		if d.Equipment.Supply != NoEquipment {
			d.Equipment.Mount = MountPlug
		}
		return
	}
	d.Wiring = append(d.Wiring, Wiring{Method: NMB, Cable: Cable{Size: cableFor(amps), Conductors: 2}, Connectors: 2})
	w.Route.append(a.ToCharger, len(d.Wiring)-1)
	d.Labels |= LabelCircuit
	if d.Equipment.Supply != NoEquipment {
		d.Equipment.Mount = MountHardwired
	}
}

// append adds segments of one wiring, with the holes that fishing them takes.
func (r *Route) append(list []Segment, wiring int) {
	for _, s := range list {
		r.Segments = append(r.Segments, Segment{Kind: s.Kind, Feet: s.Feet, Wiring: wiring})
		if s.Kind == Fished {
			r.AccessHoles += 1 + int(s.Feet/feetBetweenHoles)
		}
	}
}
