package circuit

import "daybreak/internal/edition"

// lay merges the drops into the route: the panel's runs like the first
// stretch, the charger's like the last, but on the outside wall when the
// charger is outdoors.
func (r *Route) lay(place edition.Place) []Segment {
	out := make([]Segment, 0, len(r.Segments)+1)
	for i, s := range r.Segments {
		if s.Feet > 0 || (len(out) == 0 && i == len(r.Segments)-1) {
			out = append(out, s)
		}
	}
	out[0].Feet += r.PanelDrop
	last := &out[len(out)-1]
	if place == edition.Outdoor && last.Kind != Outside && last.Kind != Trench {
		return append(out, Segment{Outside, r.DeviceDrop})
	}
	last.Feet += r.DeviceDrop
	return out
}

// run is a stretch in the words of the wiring-method articles.
func (k SegmentKind) run(place edition.Place) edition.Run {
	switch k {
	case OpenFraming:
		return edition.UnfinishedBasement
	case Fished:
		return edition.DryConcealed
	case Attic:
		return edition.AtticSpace
	case CrawlSpace:
		return edition.CrawlSpace
	case Outside:
		return edition.OutdoorWall
	case Trench:
		return edition.Underground
	}
	if place == edition.Garage {
		return edition.GarageWall
	}
	return edition.IndoorWall
}

// plan is one way to wire a route: whole, or changing once at split.
type plan struct {
	parts [2]wiring // the second has no method when the route is wired whole
	split int
}

type wiring struct {
	method  edition.Method
	raceway edition.Raceway
}

// plans lists the ways the route may be wired, at most five, and why cable is
// not among them.
func (d *design) plans() (list [5]plan, n int) {
	var cable [17]bool
	firstBad, lastBad := -1, -1
	for i, s := range d.route {
		f := d.ed.FitIn(edition.NMB, edition.NoRaceway, s.Kind.run(d.job.Place)).Value
		cable[i] = f == edition.Fit && !d.job.Concrete
		if !cable[i] {
			if firstBad < 0 {
				firstBad = i
			}
			lastBad = i
			d.whyNoCable(s, f)
		}
	}
	add := func(p plan) { list[n], n = p, n+1 }
	last := len(d.route) - 1
	nm := wiring{edition.NMB, edition.NoRaceway}
	mayCable := d.methods&UseNMB != 0
	if mayCable && firstBad < 0 {
		add(plan{parts: [2]wiring{nm}})
	}
	for _, use := range [2]MethodSet{UseEMT, UsePVC} {
		if d.methods&use == 0 {
			continue
		}
		if r := d.raceway(use, 0, last); r != edition.NoRaceway {
			add(plan{parts: [2]wiring{{edition.THWN2, r}}})
		}
		if !mayCable || firstBad < 0 {
			continue
		}
		// One change from cable to raceway, at either end of the route.
		switch {
		case firstBad > 0 && lastBad == last && contiguous(cable[:last+1], firstBad, last):
			if r := d.raceway(use, firstBad, last); r != edition.NoRaceway {
				add(plan{[2]wiring{nm, {edition.THWN2, r}}, firstBad})
			}
		case firstBad == 0 && lastBad < last && contiguous(cable[:last+1], 0, lastBad):
			if r := d.raceway(use, 0, lastBad); r != edition.NoRaceway {
				add(plan{[2]wiring{{edition.THWN2, r}, nm}, lastBad + 1})
			}
		case firstBad > 0 || lastBad < last:
			d.changes = true
		}
	}
	if mayCable && firstBad >= 0 {
		d.lose(Candidate{Parts: [2]Part{{Method: edition.NMB}}, Fails: FailsPlace})
	}
	return list, n
}

// contiguous tells whether no stretch from a to z takes cable.
func contiguous(cable []bool, a, z int) bool {
	for _, ok := range cable[a : z+1] {
		if ok {
			return false
		}
	}
	return true
}

// whyNoCable keeps the reason, once, for the notes.
func (d *design) whyNoCable(s Segment, f edition.Fitness) {
	switch {
	case d.job.Concrete && f != edition.Unfit:
		d.note(NoteNoCableInConcrete)
	case s.Kind == Outside:
		d.note(NoteNoCableOutdoors)
	case s.Kind == Surface:
		d.note(NoteExposedWall)
	}
}

// raceway gives the kind that may be used on every stretch from a to z: EMT,
// or PVC in the lighter schedule where nothing may hit it. Rigid lengths are
// not fished through finished walls.
//
// Source: NFPA 70 by method and place; fishing is common practice.
func (d *design) raceway(use MethodSet, a, z int) edition.Raceway {
	kinds := [2]edition.Raceway{edition.EMT, edition.EMT}
	if use == UsePVC {
		kinds = [2]edition.Raceway{edition.PVC40, edition.PVC80}
	}
next:
	for _, r := range kinds {
		for _, s := range d.route[a : z+1] {
			if s.Kind == Fished || d.ed.FitIn(edition.THWN2, r, s.Kind.run(d.job.Place)).Value != edition.Fit {
				continue next
			}
		}
		return r
	}
	return edition.NoRaceway
}
