package pricing

import (
	"slices"

	"daybreak/internal/circuit"
	"daybreak/internal/unit"
)

// Site is what neither circuit nor outlet knows of the work: the equipment
// wanted, the house, and what the shop takes on.
type Site struct {
	Equipment  Equipment // its Mount follows from the circuit unless it is a pedestal
	Conditions Conditions
	Management Management
	Firestops  int    // separations between garage and dwelling that the run pierces
	Surface    string // of finished walls, "gypsum"; with Patching
	Patching   bool   // the shop closes the holes it cuts
	Visits     int    // trips to the site; 0 plans one, and two where a trench is inspected open
}

// FromCircuit turns a designed circuit into work. A result that is not a
// design is no work.
func FromCircuit(r *circuit.Result, site Site) Work {
	if r.Outcome != circuit.Designed {
		return Work{}
	}
	return FromTakeoff(&r.Takeoff, site)
}

// FromTakeoff turns a take-off into work: what the designer counted stays,
// lengths are still the real ones. It serves a designer who prices candidates
// before one is chosen; the take-off of a feeder becomes a feeder.
func FromTakeoff(take *circuit.Takeoff, site Site) Work {
	if feeds(take) {
		return feederWork(take, site)
	}
	w := Work{Conditions: site.Conditions, Permits: PermitCircuit, Visits: max(site.Visits, 1)}
	d, r := &w.Design, &w.Route
	d.Equipment, d.Management = site.Equipment, site.Management
	r.Firestops = site.Firestops
	d.Equipment.Mount = mountFor(site.Equipment, MountHardwired)
	l := laying{wiring: make([]Wiring, 0, 2), segments: make([]Segment, 0, 8), route: r}
	for i := range take.Needs {
		n := &take.Needs[i]
		if !l.take(n) {
			w.need(n, &l, site)
		}
	}
	l.finish()
	d.Wiring, d.Junctions, r.Segments = l.wiring, l.junctions, l.segments
	r.PanelDrop, r.DeviceDrop = l.startDrop, l.endDrop
	if site.Management.Method != "" {
		d.Labels |= LabelManagement
	}
	if len(d.Wiring) == 1 {
		d.Wiring[0].Bodies = bodiesAt(&d.Wiring[0], r.WoodWalls)
	}
	w.onSite(site)
	return w
}

// onSite is what the house makes of the work: holes closed, masonry cored, and
// a second visit where a trench is inspected open.
func (w *Work) onSite(site Site) {
	r := &w.Route
	if site.Patching {
		r.Patches, r.Surface = r.AccessHoles, site.Surface
	}
	if site.Conditions.Masonry != "" && site.Conditions.Masonry != "masonry.none" {
		r.Masonry, r.WoodWalls = r.WoodWalls, 0
	}
	dug := func(s Segment) bool { return s.Kind.trench() }
	if site.Visits == 0 && (slices.ContainsFunc(r.Segments, dug) || slices.ContainsFunc(w.Design.Feeder.Segments, dug)) {
		w.Visits = 2
	}
}

// mountFor says how equipment is put up: as the circuit ends, unless it stands
// on a pedestal or there is none.
func mountFor(e Equipment, end Mount) Mount {
	if e.Supply == NoEquipment || e.Mount == MountPedestal {
		return e.Mount
	}
	return end
}

// need takes one line of a circuit's take-off that is not of its run.
func (w *Work) need(n *circuit.Need, l *laying, site Site) {
	d := &w.Design
	switch n.Item {
	case circuit.BreakerItem:
		d.Breaker = breakerOf(n)
	case circuit.DeviceBoxItem:
		d.Termination.Box = boxIn(&Route{Segments: l.segments})
	case circuit.ReceptacleItem:
		d.Termination.Receptacle = n.Config
		d.Equipment.Mount = mountFor(site.Equipment, MountPlug)
	case circuit.CoverItem:
		d.Termination.Wet = n.Wet
	case circuit.DisconnectItem:
		d.Disconnect.Amps = disconnectFor(n.Amps)
	case circuit.LabelItem:
		d.Labels |= labelsOf(n.Labels)
	}
}

func breakerOf(n *circuit.Need) Breaker {
	b := Breaker{Amps: n.Amps, Poles: n.Poles, Protection: Standard}
	if n.GFCI {
		b.Protection = GroundFault
	}
	return b
}

// disconnectFor is the size of switch sold for a circuit.
//
// Source: common practice; 30, 60 and 100 A are the sizes made.
func disconnectFor(a unit.Amps) unit.Amps {
	switch {
	case a <= 30:
		return 30
	case a <= 60:
		return 60
	}
	return 100
}

func labelsOf(set circuit.LabelSet) (out LabelSet) {
	if set&circuit.CircuitLabel != 0 {
		out |= LabelCircuit
	}
	if set&circuit.SettingLabel != 0 {
		out |= LabelSetting
	}
	if set&circuit.DisconnectLabel != 0 {
		out |= LabelDisconnect
	}
	if set&circuit.BuriedLabel != 0 {
		out |= LabelUnderground
	}
	return out
}
