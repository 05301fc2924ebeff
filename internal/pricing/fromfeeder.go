package pricing

import (
	"daybreak/internal/circuit"
	"daybreak/internal/unit"
)

// FromFeeder joins a designed feeder, with the panel it feeds, to the work of
// the circuit that starts there. A result that is not a design adds nothing.
func FromFeeder(r *circuit.FeederResult, branch Work, site Site) Work {
	if r.Outcome != circuit.Designed {
		return branch
	}
	feeder := feederWork(&r.Takeoff, site)
	out := branch.With(feeder)
	d, a, b := &out.Design, &out.Route, &feeder.Route
	d.Junctions = append(d.Junctions[:len(d.Junctions):len(d.Junctions)], feeder.Design.Junctions...)
	a.WoodWalls, a.Masonry, a.Entries = a.WoodWalls+b.WoodWalls, a.Masonry+b.Masonry, a.Entries+b.Entries
	a.AccessHoles, a.Patches = a.AccessHoles+b.AccessHoles, a.Patches+b.Patches
	// The separations of the site are counted with the branch.
	a.Firestops += b.Firestops - site.Firestops
	if a.Surface == "" {
		a.Surface = b.Surface
	}
	return out
}

// feeds reports whether a take-off ends in a panel.
func feeds(take *circuit.Takeoff) bool {
	for i := range take.Needs {
		if take.Needs[i].Item == circuit.SubpanelItem {
			return true
		}
	}
	return false
}

// feederWork turns the take-off of a feeder into work.
func feederWork(take *circuit.Takeoff, site Site) Work {
	w := Work{Conditions: site.Conditions, Permits: PermitSubpanel, Visits: max(site.Visits, 1)}
	w.Route.Firestops = site.Firestops
	f := &w.Design.Feeder
	l := laying{wiring: make([]Wiring, 0, 2), segments: make([]Segment, 0, 8), route: &w.Route}
	for i := range take.Needs {
		if n := &take.Needs[i]; !l.take(n) {
			w.feederNeed(n)
		}
	}
	l.finish()
	f.Wiring, f.Segments, f.PanelDrop, f.BoardDrop = l.wiring, l.segments, l.startDrop, l.endDrop
	if len(f.Wiring) == 1 {
		f.Wiring[0].Bodies = bodiesAt(&f.Wiring[0], w.Route.WoodWalls)
	}
	w.Design.Junctions = l.junctions
	w.onSite(site)
	return w
}

func (w *Work) feederNeed(n *circuit.Need) {
	d := &w.Design
	f := &d.Feeder
	switch n.Item {
	case circuit.BreakerItem:
		f.Breaker = breakerOf(n)
	case circuit.SubpanelItem:
		f.Board = Panelboard{Amps: n.Amps, Spaces: n.Spaces, Outdoor: n.Wet, Main: n.Poles > 0}
	case circuit.RodItem:
		f.Electrodes.Rods = int(n.Quantity)
	case circuit.RodWireItem:
		f.Electrodes.Size, f.Electrodes.Feet = n.Size.Trade(), unit.Feet(n.Quantity)
	case circuit.MovedItem:
		if f.Board.Main {
			f.Refed = append(f.Refed, breakerOf(n))
		} else {
			f.Moved = append(f.Moved, breakerOf(n))
		}
	case circuit.RemovalItem:
		d.OldCircuits += int(n.Quantity)
	case circuit.LabelItem:
		if n.Labels == circuit.CircuitLabel {
			d.Labels |= LabelDirectory
			return
		}
		d.Labels |= labelsOf(n.Labels)
	}
}
