package quote

import (
	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/facts"
	"daybreak/internal/unit"
)

// laid puts the buried part of a run where it lies: after what is inside the
// house, before what rises at the car. What is left of a run that is a trench
// alone lies on the face of a wall.
func (h *home) laid(run []circuit.Segment, total unit.Feet) []circuit.Segment {
	if !buried(run) {
		return run
	}
	if len(run) == 1 && total > run[0].Feet {
		run = append(run, circuit.Segment{Kind: circuit.Surface, Feet: total - run[0].Feet})
	}
	out := make([]circuit.Segment, 0, len(run))
	for part := range 3 {
		for _, s := range run {
			if h.partOf(s.Kind) == part {
				if s.Kind == circuit.Trench {
					s.Ground = h.ground()
				}
				out = append(out, s)
			}
		}
	}
	return out
}

// partOf says where a stretch of a buried run lies: 0 before the trench, 1 in
// it, 2 beyond it.
func (h *home) partOf(k circuit.SegmentKind) int {
	switch {
	case k == circuit.Trench:
		return 1
	case h.atTheCar(k):
		return 2
	}
	return 0
}

// buried reports whether some of a run lies in the ground.
func buried(run []circuit.Segment) bool {
	for i := range run {
		if run[i].Kind == circuit.Trench && run[i].Feet > 0 {
			return true
		}
	}
	return false
}

// digs reports whether some of the home's run lies in the ground.
func (h *home) digs() bool { return buried(h.route.circuit.Segments) }

// atTheCar reports whether a stretch of a buried run lies beyond the trench:
// what is on an outside wall where the car is charged outdoors, and what is on
// a wall inside a building of its own.
func (h *home) atTheCar(k circuit.SegmentKind) bool {
	switch k {
	case circuit.Outside:
		return h.where == edition.Outdoor
	case circuit.Surface:
		return h.where != edition.Outdoor && h.facts.Place.Parking.Is(facts.ParkingDetached)
	}
	return false
}

// ground is what is dug through; any earth where nobody said.
func (h *home) ground() circuit.Ground {
	surface, _ := h.facts.Route.TrenchSurface.Get()
	switch surface {
	case facts.TrenchSurfaceBed:
		return circuit.Bed
	case facts.TrenchSurfaceGravel:
		return circuit.Gravel
	case facts.TrenchSurfacePavers:
		return circuit.Pavers
	case facts.TrenchSurfaceConcrete:
		return circuit.ConcreteSlab
	case facts.TrenchSurfaceAsphalt:
		return circuit.Asphalt
	}
	return circuit.Lawn
}

// methods are the ways of wiring allowed; 0 for all. In a shared garage of
// concrete it is steel. Under a driveway nothing lies bare in the ground: the
// two covers of the table differ, and a raceway at 18 in meets both.
//
// Source: NEC 358.10, 334.10; Table 300.5(A); steel in shared garages is common
// practice.
func (h *home) methods() circuit.MethodSet {
	switch {
	case h.route.concrete && h.digs():
		return circuit.UseEMT | circuit.UsePVC
	case h.route.concrete:
		return circuit.UseEMT
	case h.digs() && h.facts.Route.TrenchUnderDrive.Is(true):
		return circuit.UseNMB | circuit.UseEMT | circuit.UsePVC
	}
	return 0
}

// dryMethods are those of a run that stays above ground.
func (h *home) dryMethods() circuit.MethodSet {
	if h.route.concrete {
		return circuit.UseEMT
	}
	return 0
}

// apart reports whether the car is charged at a building or structure of its
// own. A carport the wire reaches without digging is part of the house.
//
// Source: NEC 225.30, Article 100 structure.
func (h *home) apart() bool {
	p := h.facts.Place.Parking
	return p.Is(facts.ParkingDetached) || p.Is(facts.ParkingCarport) && h.digs()
}

// structure is how the charger's building stands to the panel's.
func (h *home) structure() circuit.Structure {
	if h.apart() && !h.fed() {
		return circuit.UnfedStructure
	}
	return circuit.SameStructure
}

// fed reports whether that building has a supply today: it gets one feeder
// then, and never a second circuit beside the old one.
//
// Source: NEC 225.30.
func (h *home) fed() bool {
	feed, ok := h.facts.Place.DetachedFeed.Get()
	return ok && feed != facts.DetachedFeedNone && h.apart()
}
