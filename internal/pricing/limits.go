package pricing

import (
	"fmt"
	"slices"

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
	case len(w.Asides) > 8:
		return outOfBounds("asides", len(w.Asides), "at most 8")
	case slices.ContainsFunc(w.Asides, func(a Aside) bool { return !(a.Feet >= 0 && a.Feet <= longestSegment) }):
		return outOfBounds("asides.ft", "beyond", "finite, 0 to 2000 ft")
	case w.Discount.Minor < 0:
		return outOfBounds("discount.amount", w.Discount.Minor, "0 or more")
	case w.Permits >= 1<<3:
		return outOfBounds("permits", w.Permits, "circuit, service, subpanel")
	}
	return nil
}

// checkSegments refuses a route that no house has.
func checkSegments(field string, list []Segment, wirings int) error {
	if len(list) > 32 {
		return outOfBounds(field, len(list), "at most 32")
	}
	for i, s := range list {
		switch {
		case !(s.Feet >= 0 && s.Feet <= longestSegment):
			return outOfBounds(fmt.Sprintf("%s[%d].ft", field, i), float64(s.Feet), "finite, 0 to 2000 ft")
		case s.Kind >= segmentKinds:
			return outOfBounds(fmt.Sprintf("%s[%d].kind", field, i), s.Kind, "one of the kinds of segment")
		case s.Wiring < 0 || s.Wiring >= wirings:
			return outOfBounds(fmt.Sprintf("%s[%d].wiring", field, i), s.Wiring, "the place of a wiring of the design")
		}
	}
	return nil
}

func (r *Route) check(wirings int) error {
	if err := checkSegments("route.segments", r.Segments, wirings); err != nil {
		return err
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
		{"design.service", d.Service.To}, {"design.service.from", d.Service.From},
		{"design.feeder.breaker", d.Feeder.Breaker.Amps}, {"design.feeder.board", d.Feeder.Board.Amps}, {"design.tandems", d.Tandems.Amps},
	} {
		if !(a.amps >= 0 && a.amps <= 1200) {
			return outOfBounds(a.field, float64(a.amps), "finite, 0 to 1200 A")
		}
	}
	if d.Tandems.Count < 0 || d.Tandems.Count > 20 {
		return outOfBounds("design.tandems", d.Tandems.Count, "0 to 20")
	}
	if d.OldCircuits < 0 || d.OldCircuits > 20 {
		return outOfBounds("design.old_circuits", d.OldCircuits, "0 to 20")
	}
	for i := range d.Wiring {
		if err := d.Wiring[i].check("design.wiring", i); err != nil {
			return err
		}
	}
	if err := d.Service.Electrodes.check("design.service.electrodes"); err != nil {
		return err
	}
	return d.Feeder.check()
}

func (f *Feeder) check() error {
	switch {
	case len(f.Wiring) > 4:
		return outOfBounds("design.feeder.wiring", len(f.Wiring), "at most 4 stretches")
	case len(f.Moved) > 12:
		return outOfBounds("design.feeder.moved", len(f.Moved), "at most 12 circuits")
	case len(f.Refed) > 12:
		return outOfBounds("design.feeder.refed", len(f.Refed), "at most 12 circuits")
	case f.Board.Spaces < 0 || f.Board.Spaces > 84:
		return outOfBounds("design.feeder.board.spaces", f.Board.Spaces, "0 to 84")
	case !(f.PanelDrop >= 0 && f.PanelDrop <= 200):
		return outOfBounds("design.feeder.panel_drop_ft", float64(f.PanelDrop), "finite, 0 to 200 ft")
	case !(f.BoardDrop >= 0 && f.BoardDrop <= 200):
		return outOfBounds("design.feeder.board_drop_ft", float64(f.BoardDrop), "finite, 0 to 200 ft")
	}
	for i := range f.Moved {
		if a := f.Moved[i].Amps; cableFor(a) == "" {
			return outOfBounds(fmt.Sprintf("design.feeder.moved[%d]", i), float64(a), "finite, above 0 to 55 A")
		}
	}
	for i := range f.Wiring {
		if err := f.Wiring[i].check("design.feeder.wiring", i); err != nil {
			return err
		}
	}
	if err := checkSegments("design.feeder.segments", f.Segments, len(f.Wiring)); err != nil {
		return err
	}
	return f.Electrodes.check("design.feeder.electrodes")
}

func (e *Electrodes) check(field string) error {
	if !(e.Feet >= 0 && e.Feet <= 200) {
		return outOfBounds(field+".ft", float64(e.Feet), "finite, 0 to 200 ft")
	}
	names := [...]string{"rods", "water_pipes", "gas_pipes"}
	for i, n := range [...]int{e.Rods, e.WaterPipes, e.GasPipes} {
		if n < 0 || n > 20 {
			return outOfBounds(field+"."+names[i], n, "0 to 20")
		}
	}
	return nil
}

func (w *Wiring) check(field string, i int) error {
	if len(w.Conductors) > 6 {
		return outOfBounds(fmt.Sprintf("%s[%d].conductors", field, i), len(w.Conductors), "at most 6 kinds")
	}
	for j := range w.Conductors {
		if c := w.Conductors[j].Count; c < 0 || c > largestCount {
			return outOfBounds(fmt.Sprintf("%s[%d].conductors[%d].count", field, i, j), c, "0 to 200")
		}
	}
	names := [...]string{"quarter_bends", "bodies", "expansion", "connectors", "nail_plates", "bushings"}
	for j, n := range [...]int{w.QuarterBends, w.Bodies, w.Expansions, w.Connectors, w.NailPlates, w.Bushings} {
		if n < 0 || n > largestCount {
			return outOfBounds(fmt.Sprintf("%s[%d].%s", field, i, names[j]), n, "0 to 200")
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
		d.Disconnect.Amps > 0 || d.Management.Method != "" || d.Service.To > 0 || !d.Feeder.none() || d.Tandems.Count > 0 || d.OldCircuits > 0 || d.Commission || d.Inspection || d.Splices > 0 ||
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
