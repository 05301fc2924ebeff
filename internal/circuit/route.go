package circuit

import (
	"daybreak/internal/edition"
	"daybreak/internal/unit"
)

// stretch is a segment as it is wired.
type stretch struct {
	Segment
	riser bool // guarded, where a buried run comes out of the ground
	heavy bool // plastic conduit there is of the heavier schedule
}

// lay merges the drops into the route: the panel's runs like the first
// stretch, the charger's like the last, but on the outside wall when the
// charger is outdoors, and never in the ground. It appends to out.
func (r *Route) lay(place edition.Place, out []Segment) []Segment {
	for i, s := range r.Segments {
		if s.Feet > 0 || (len(out) == 0 && i == len(r.Segments)-1) {
			if len(out) == 0 && s.Kind == Trench && r.PanelDrop > 0 {
				out = append(out, Segment{Kind: Outside})
			}
			out = append(out, s)
		}
	}
	out[0].Feet += r.PanelDrop
	last := &out[len(out)-1]
	switch {
	case last.Kind == Trench && r.DeviceDrop == 0:
	case place == edition.Outdoor && last.Kind != Outside:
		return append(out, Segment{Kind: Outside, Feet: r.DeviceDrop})
	case last.Kind == Trench:
		return append(out, Segment{Kind: Surface, Feet: r.DeviceDrop})
	}
	last.Feet += r.DeviceDrop
	return out
}

// buried reports whether some of the route lies in the ground.
func (r *Route) buried() bool {
	for i := range r.Segments {
		if r.Segments[i].Kind == Trench && r.Segments[i].Feet > 0 {
			return true
		}
	}
	return false
}

// shallow reports whether some of it cannot be dug as deep as wanted.
func (r *Route) shallow() bool {
	for i := range r.Segments {
		if r.Segments[i].Kind == Trench && r.Segments[i].DeepestCover > 0 {
			return true
		}
	}
	return false
}

// risers cuts off, from what stands exposed beside a trench, the part that is
// guarded against damage.
//
// Source: NEC 300.5(D)(1), 300.5(D)(4).
func risers(laid []Segment, height unit.Feet) []stretch {
	out := make([]stretch, 0, len(laid)+2)
	for i, s := range laid {
		exposed := s.Kind == Outside || s.Kind == Surface
		before := exposed && i > 0 && laid[i-1].Kind == Trench
		after := exposed && i+1 < len(laid) && laid[i+1].Kind == Trench
		up := min(s.Feet, height)
		if before && up > 0 {
			out = append(out, stretch{Segment: Segment{Kind: s.Kind, Feet: up}, riser: true})
			s.Feet -= up
		}
		up = min(s.Feet, height)
		if rest := s.Feet - up; after && up > 0 {
			if rest > 0 {
				out = append(out, stretch{Segment: Segment{Kind: s.Kind, Feet: rest}})
			}
			out = append(out, stretch{Segment: Segment{Kind: s.Kind, Feet: up}, riser: true})
			continue
		}
		if s.Feet > 0 || !before {
			out = append(out, stretch{Segment: s})
		}
	}
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

// outdoors reports whether the inside of a raceway is wet there.
func (k SegmentKind) outdoors() bool { return k == Outside || k == Trench }

// wiring is one way of wiring. Riser is the raceway where a buried run comes
// up, and wherever the other would be hit; of a cable it is the sleeve.
type wiring struct {
	method  edition.Method
	metal   edition.Material
	raceway edition.Raceway
	riser   edition.Raceway
}

// on gives the raceway a stretch is wired in.
func (w *wiring) on(s *stretch) edition.Raceway {
	if w.riser != edition.NoRaceway && (s.riser || s.heavy) {
		return w.riser
	}
	return w.raceway
}

// takesCable reports whether a cable may run there. Buried cable comes out of
// the ground in a sleeve.
//
// Source: NEC 334.10, 334.12, 340.10, 340.12, Table 300.5(A).
func (d *design) takesCable(m edition.Method, s *stretch) bool {
	switch f := d.ed.FitIn(m, edition.NoRaceway, s.Kind.run(d.job.Place)).Value; {
	case s.Kind == Trench:
		return f == edition.Fit && d.coverFits(s, edition.DirectBurialCable)
	case m == edition.UFB && (s.Kind == Outside || s.riser):
		return f != edition.Unfit
	default:
		return f == edition.Fit && (!d.job.Concrete || m == edition.MC)
	}
}

// takesRaceway is the same for a raceway. Rigid lengths are not fished through
// finished walls.
//
// Source: NEC by method and place; fishing is common practice.
func (d *design) takesRaceway(r edition.Raceway, s *stretch) bool {
	if s.Kind == Fished || d.ed.FitIn(d.single, r, s.Kind.run(d.job.Place)).Value != edition.Fit {
		return false
	}
	return s.Kind != Trench || d.coverFits(s, buriedAs(r))
}

func buriedAs(r edition.Raceway) edition.BuriedWiring {
	if r == edition.RMC || r == edition.IMC {
		return edition.MetalConduit
	}
	return edition.NonmetallicConduit
}

func (d *design) coverFits(s *stretch, what edition.BuriedWiring) bool {
	c, err := d.ed.CoverDepth(s.Over, what)
	return err == nil && !c.Value.Forbidden && (s.DeepestCover == 0 || c.Value.Inches <= s.DeepestCover)
}
