package pricing

import (
	"daybreak/internal/circuit/outlet"
	"daybreak/internal/unit"
)

// FromOutlet turns a way to use an existing outlet into work, and lists what
// no price can be given for before somebody has looked. A way with nothing to
// do is the zero Work unless the shop sells the equipment.
//
// Source: work items of room circuit/outlet; how each is done is common
// practice.
func FromOutlet(way *outlet.Way, site Site) (w Work, unpriced []outlet.WorkKind) {
	w.Conditions = site.Conditions
	d := &w.Design
	d.Equipment, d.Management = site.Equipment, site.Management
	d.Termination = Termination{Receptacle: way.Receptacle, Extent: KeepOutlet, Box: NewWork}
	for i := range way.Work {
		if !w.outletWork(&way.Work[i], way) {
			unpriced = append(unpriced, way.Work[i].Kind)
		}
	}
	if w.hasLabour() {
		w.Visits = max(site.Visits, 1)
	}
	return w, unpriced
}

// outletWork adds one piece of work and reports whether it can be priced.
func (w *Work) outletWork(k *outlet.Work, way *outlet.Way) bool {
	d := &w.Design
	switch k.Kind {
	case outlet.Inspect:
		d.Inspection = true
	case outlet.Reterminate:
		d.Splices += 2
	case outlet.NewReceptacle:
		d.Termination.Receptacle, d.Termination.Extent = k.Receptacle, NewReceptacle
		d.Labels |= LabelCircuit | LabelSetting
	case outlet.NewBreaker, outlet.GFCIBreaker:
		d.Breaker = Breaker{Amps: k.Amps, Poles: k.Poles, Protection: d.Breaker.Protection}
		if k.Kind == outlet.GFCIBreaker {
			d.Breaker.Protection = GroundFault
		} else if d.Breaker.Protection == "" {
			d.Breaker.Protection = Standard
		}
	case outlet.WeatherCover:
		d.Termination.Receptacle, d.Termination.Cover, d.Termination.Wet = k.Receptacle, true, true
	case outlet.Hardwire:
		d.Termination = Termination{}
		d.Equipment.Mount = MountHardwired
		d.Labels |= LabelCircuit | LabelSetting
	case outlet.LockSetting:
		// Set under its cover by whoever is there for the rest, or by the shop
		// before it is handed over: the label is what it takes.
		d.Labels |= LabelSetting
	case outlet.MountEquipment:
		if d.Equipment.Mount == NoMount {
			d.Equipment.Mount = MountPlug
		}
	case outlet.SharingSwitch:
		d.Management = Management{Method: "load_switch", Amps: way.Breaker}
		d.Labels |= LabelManagement
	case outlet.SharingChargers:
		d.Management = Management{Method: "shared_circuit", Amps: way.Breaker}
		d.Labels |= LabelManagement
	case outlet.MoveOutlet:
		return w.move(k.Feet, way)
	default:
		return false
	}
	return true
}

// move runs the circuit on to a new outlet nearer the car, in cable of the
// circuit's size.
func (w *Work) move(feet unit.Feet, way *outlet.Way) bool {
	size, conductors := cableFor(way.Breaker), 2
	if size == "" || feet <= 0 || way.Receptacle == "" {
		return false
	}
	if way.Receptacle == "14-50" || way.Receptacle == "14-30" {
		conductors = 3
	}
	w.Design.Wiring = []Wiring{{Method: NMB, Cable: Cable{Size: size, Conductors: conductors}, Connectors: 2}}
	w.Route.Segments = []Segment{{Kind: Open, Feet: feet}}
	w.Design.Junctions = []Junction{{}}
	w.Design.Termination.Extent = NewOutlet
	w.Permits |= PermitCircuit
	return true
}

// cableFor is the cable that goes with a breaker.
//
// Source: NFPA 70 Table 310.16 at 60 °C, 240.4(D).
func cableFor(breaker unit.Amps) string {
	switch {
	case breaker <= 0:
		return ""
	case breaker <= 15:
		return "14"
	case breaker <= 20:
		return "12"
	case breaker <= 30:
		return "10"
	case breaker <= 40:
		return "8"
	case breaker <= 55:
		return "6"
	}
	return ""
}
