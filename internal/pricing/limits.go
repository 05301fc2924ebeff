package pricing

import (
	"fmt"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// longestSegment is more than any house has; beyond it somebody slipped.
const longestSegment unit.Feet = 2000

func outOfBounds(field string, got any, accepted string) error {
	return fault.Invalid(field, got, accepted)
}

// check refuses numbers no house has, each by its field.
func (w *Work) check() error {
	if err := w.Route.check(len(w.Design.Wiring)); err != nil {
		return err
	}
	if err := w.Design.check(); err != nil {
		return err
	}
	switch {
	case w.Visits < 0 || w.Visits > 20 || (w.Visits == 0 && w.hasLabour()):
		return outOfBounds("visits", w.Visits, "1 to 20, or 0 where nothing is done on site")
	case w.Discount.Minor < 0:
		return outOfBounds("discount.amount", w.Discount.Minor, "0 or more")
	case w.Permits >= 1<<3:
		return outOfBounds("permits", w.Permits, "circuit, service, subpanel")
	}
	return nil
}

func (r *Route) check(wirings int) error {
	if len(r.Segments) > 32 {
		return outOfBounds("route.segments", len(r.Segments), "at most 32")
	}
	for i, s := range r.Segments {
		switch {
		case !(s.Feet >= 0 && s.Feet <= longestSegment):
			return outOfBounds(fmt.Sprintf("route.segments[%d].ft", i), float64(s.Feet), "finite, 0 to 2000 ft")
		case s.Kind >= segmentKinds:
			return outOfBounds(fmt.Sprintf("route.segments[%d].kind", i), s.Kind, "one of the kinds of segment")
		case s.Wiring < 0 || s.Wiring >= wirings:
			return outOfBounds(fmt.Sprintf("route.segments[%d].wiring", i), s.Wiring, "the place of a wiring of the design")
		}
	}
	for _, d := range [...]struct {
		field string
		feet  unit.Feet
	}{{"route.panel_drop_ft", r.PanelDrop}, {"route.device_drop_ft", r.DeviceDrop}} {
		if !(d.feet >= 0 && d.feet <= 200) {
			return outOfBounds(d.field, float64(d.feet), "finite, 0 to 200 ft")
		}
	}
	names := [...]string{"firestops", "wood_walls", "masonry", "entries", "access_holes", "patches"}
	for j, n := range [...]int{r.Firestops, r.WoodWalls, r.Masonry, r.Entries, r.AccessHoles, r.Patches} {
		if n < 0 || n > largestCount {
			return outOfBounds("route."+names[j], n, "0 to 200")
		}
	}
	return nil
}

func (d *Design) check() error {
	if len(d.Wiring) > 4 {
		return outOfBounds("design.wiring", len(d.Wiring), "at most 4 stretches")
	}
	if len(d.Junctions) > 16 {
		return outOfBounds("design.junctions", len(d.Junctions), "at most 16 boxes")
	}
	if d.Splices < 0 || d.Splices > largestCount {
		return outOfBounds("design.splices", d.Splices, "0 to 200")
	}
	for _, a := range [...]struct {
		field string
		amps  unit.Amps
	}{
		{"design.breaker", d.Breaker.Amps}, {"design.disconnect", d.Disconnect.Amps}, {"design.management", d.Management.Amps},
		{"design.equipment.output_amps", d.Equipment.Output}, {"design.equipment.setting_amps", d.Equipment.Setting},
		{"design.service", d.Service.To},
	} {
		if !(a.amps >= 0 && a.amps <= 1200) {
			return outOfBounds(a.field, float64(a.amps), "finite, 0 to 1200 A")
		}
	}
	for i := range d.Wiring {
		if err := d.Wiring[i].check(i); err != nil {
			return err
		}
	}
	return nil
}

func (w *Wiring) check(i int) error {
	if len(w.Conductors) > 6 {
		return outOfBounds(fmt.Sprintf("design.wiring[%d].conductors", i), len(w.Conductors), "at most 6 kinds")
	}
	for j := range w.Conductors {
		if c := w.Conductors[j].Count; c < 0 || c > largestCount {
			return outOfBounds(fmt.Sprintf("design.wiring[%d].conductors[%d].count", i, j), c, "0 to 200")
		}
	}
	names := [...]string{"quarter_bends", "bodies", "expansion", "connectors", "nail_plates", "bushings"}
	for j, n := range [...]int{w.QuarterBends, w.Bodies, w.Expansions, w.Connectors, w.NailPlates, w.Bushings} {
		if n < 0 || n > largestCount {
			return outOfBounds(fmt.Sprintf("design.wiring[%d].%s", i, names[j]), n, "0 to 200")
		}
	}
	return nil
}

// largestCount is more of anything than one circuit has.
const largestCount = 200

// hasLabour reports whether anything is done on site.
func (w *Work) hasLabour() bool {
	d, r := &w.Design, &w.Route
	return d.Breaker.Amps > 0 || len(d.Wiring) > 0 || d.Termination.work() || d.Equipment.Mount != NoMount ||
		d.Disconnect.Amps > 0 || d.Management.Method != "" || d.Service.To > 0 || d.Commission || d.Inspection || d.Splices > 0 ||
		r.Firestops+r.WoodWalls+r.Masonry+r.AccessHoles+r.Patches > 0
}

// work reports whether anything is done at the outlet.
func (e *Termination) work() bool { return e.Receptacle != "" && (e.Extent != KeepOutlet || e.Cover) }

// feet is the length of the route, drops included.
func (r *Route) feet() unit.Feet {
	sum := r.PanelDrop + r.DeviceDrop
	for _, s := range r.Segments {
		sum += s.Feet
	}
	return sum
}
