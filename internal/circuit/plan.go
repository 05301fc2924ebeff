package circuit

import (
	"math/bits"

	"daybreak/internal/edition"
)

// plan is one way to wire a route: one wiring or two, in at most three spans.
type plan struct {
	wirings [2]wiring // the second has no method when there is one
	spans   [mostParts]span
	n       int
}

// span is a piece of the route wired one way.
type span struct{ use, a, z uint8 }

// mostParts is how many pieces a route may be wired in, with a box between any
// two; more boxes than two are cheaper done without.
const mostParts = 3

const mostPlans = 12

// plans lists the ways the route may be wired, and why cable is not among
// them. Stretches are bits of a mask, the first the lowest.
func (d *design) plans() (list [mostPlans]plan, n int) {
	all := uint64(1)<<len(d.route) - 1
	add := func(p plan) {
		if n < mostPlans {
			list[n], n = p, n+1
		}
	}
	d.whyNoCable()
	dry, mask, nc := d.cables()
	for i := range nc {
		if mask[i] == all {
			add(whole(dry[i], len(d.route)))
		}
	}
	for _, use := range [4]MethodSet{UseEMT, UsePVC, UseRMC, UseUFB} {
		if d.methods&use == 0 {
			continue
		}
		may := d.may(use)
		if may == all {
			add(whole(d.wiringOf(use, all), len(d.route)))
		}
		for i := range nc {
			if mask[i] == all || mask[i] == 0 {
				continue
			}
			d.mix(dry[i], mask[i], use, may, add)
		}
	}
	if d.methods&UseNMB != 0 && mask[0] != all {
		d.lose(Candidate{Parts: [mostParts]Part{{Method: edition.NMB}}, Fails: FailsPlace})
	}
	return list, n
}

func whole(w wiring, stretches int) plan {
	return plan{wirings: [2]wiring{w}, spans: [mostParts]span{{0, 0, uint8(stretches)}}, n: 1}
}

// cables are those that run by themselves inside, with where each may.
func (d *design) cables() (list [3]wiring, mask [3]uint64, n int) {
	for _, c := range [3]struct {
		use    MethodSet
		method edition.Method
	}{{UseNMB, edition.NMB}, {UseMC, edition.MC}, {UseSER, edition.SER}} {
		if d.methods&c.use == 0 {
			continue
		}
		list[n] = wiring{method: c.method, metal: edition.Copper}
		if c.method == edition.SER {
			list[n].metal = edition.Aluminium
		}
		for i := range d.route {
			if d.takesCable(c.method, &d.route[i]) {
				mask[n] |= 1 << i
			}
		}
		n++
	}
	return list, mask, n
}

// may tells where a raceway, or cable that may be buried, can go.
func (d *design) may(use MethodSet) (mask uint64) {
	for i := range d.route {
		s, ok := &d.route[i], false
		switch use {
		case UseEMT:
			ok = d.takesRaceway(edition.EMT, s)
		case UsePVC:
			light := d.takesRaceway(edition.PVC40, s)
			s.heavy = !light
			ok = (light && !s.riser) || d.takesRaceway(edition.PVC80, s)
		case UseRMC:
			ok = d.takesRaceway(edition.RMC, s)
		case UseUFB:
			ok = d.takesCable(edition.UFB, s)
		}
		if ok {
			mask |= 1 << i
		}
	}
	return mask
}

// wiringOf is how a raceway or buried cable wires the stretches of a mask: PVC
// in the lighter schedule where nothing may hit it.
func (d *design) wiringOf(use MethodSet, mask uint64) wiring {
	w := wiring{method: d.single, metal: d.metal}
	switch use {
	case UseEMT:
		w.raceway = edition.EMT
		return w
	case UseRMC:
		w.raceway = edition.RMC
		return w
	case UseUFB:
		w.method, w.metal, w.riser = edition.UFB, edition.Copper, edition.PVC80
		return w
	}
	buried, heavy := false, false
	for i := range d.route {
		if s := &d.route[i]; mask&(1<<i) != 0 {
			buried, heavy = buried || s.Kind == Trench, heavy || s.heavy || s.riser
		}
	}
	w.raceway = edition.PVC40
	switch {
	case heavy && !buried:
		w.raceway = edition.PVC80
	case heavy:
		w.riser = edition.PVC80
	}
	return w
}

// mix follows a cable where it may run by another wiring where it may not.
// Every choice of cable runs is tried; what is not cable is the other.
func (d *design) mix(cable wiring, cableMask uint64, use MethodSet, may uint64, add func(plan)) {
	var runs [8]uint64
	n := 0
	for rest := cableMask; rest != 0 && n < len(runs); n++ {
		low := bits.TrailingZeros64(rest)
		length := bits.TrailingZeros64(^(rest >> low))
		runs[n] = (1<<length - 1) << low
		rest &^= runs[n]
	}
	all := uint64(1)<<len(d.route) - 1
	const mostRuns = 3
	found, tooMany := false, false
	for set := 1<<n - 1; set > 0; set-- {
		if n > mostRuns && bits.OnesCount(uint(set)) < n && bits.OnesCount(uint(set)) > 2 {
			continue
		}
		kept := uint64(0)
		for i := range n {
			if set&(1<<i) != 0 {
				kept |= runs[i]
			}
		}
		if (all&^kept)&^may != 0 {
			continue
		}
		p, ok := d.spans(cable, kept, use)
		if !ok {
			tooMany = true
			continue
		}
		found = true
		add(p)
	}
	d.changes = d.changes || (tooMany && !found)
}

// spans lays a plan out along the route; false when it changes too often.
func (d *design) spans(cable wiring, kept uint64, use MethodSet) (plan, bool) {
	all := uint64(1)<<len(d.route) - 1
	p := plan{wirings: [2]wiring{cable, d.wiringOf(use, all&^kept)}}
	if kept&1 == 0 {
		p.wirings[0], p.wirings[1] = p.wirings[1], p.wirings[0]
	}
	for i := range d.route {
		at := uint8(0)
		if (kept>>i)&1 != kept&1 {
			at = 1
		}
		if p.n > 0 && p.spans[p.n-1].use == at {
			p.spans[p.n-1].z = uint8(i + 1)
			continue
		}
		if p.n == mostParts {
			return p, false
		}
		p.spans[p.n] = span{at, uint8(i), uint8(i + 1)}
		p.n++
	}
	return p, true
}

// whyNoCable keeps the reasons, once, for the notes.
func (d *design) whyNoCable() {
	for i := range d.route {
		s := &d.route[i]
		f := d.ed.FitIn(edition.NMB, edition.NoRaceway, s.Kind.run(d.job.Place)).Value
		switch {
		case d.job.Concrete && f != edition.Unfit:
			d.note(NoteNoCableInConcrete)
		case f == edition.Fit:
		case s.Kind == Outside:
			d.note(NoteNoCableOutdoors)
		case s.Kind == Surface:
			d.note(NoteExposedWall)
		}
	}
}
