package quote

import (
	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/facts"
	"daybreak/internal/unit"
)

// Air the wire runs through, where nobody measured it.
//
// Source: NEC Table 310.15(B)(1)(1), ambient of the table; attic and sun are
// engineering judgement.
const (
	tableAmbient unit.Celsius = 30
	atticAmbient unit.Celsius = 50
	sunAmbient   unit.Celsius = 40
)

// readRoute lays out the way from panel to charger. Feet told for a kind of
// stretch win; what is left of the run is shared evenly over the ways ticked.
func (h *home) readRoute(r *reader) {
	f, rt := h.facts, &h.facts.Route
	parking := take(r, f.Place.Parking, "place.parking")
	mounting := take(r, f.Place.Mounting, "place.mounting")
	switch {
	case mounting == facts.MountingOutside || mounting == facts.MountingPost:
		h.where = edition.Outdoor
	case parking == facts.ParkingAttached || parking == facts.ParkingDetached || parking == facts.ParkingShared:
		h.where = edition.Garage
	default:
		h.where = edition.Indoor
	}
	total := take(r, rt.PanelToChargerFeet, "route.panel_to_charger_feet")
	ways := take(r, rt.Ways, "route.ways")
	trench := or(rt.TrenchFeet, 0)
	h.route.trench = trench > 0 || ways&facts.WayTrench != 0
	h.route.circuit.PanelDrop = take(r, rt.PanelDropFeet, "route.panel_drop_feet")
	h.route.circuit.DeviceDrop = take(r, rt.DeviceDropFeet, "route.device_drop_feet")
	h.route.circuit.Segments = h.laid(stretches(rt, total, trench, ways), total)
	h.route.structure = h.structure()
	h.route.feet = total
	h.route.ambient = ambient(rt, h.route.circuit.Segments)
	h.route.concrete = f.Place.DwellingKind.Is(facts.DwellingKindFlat) && parking == facts.ParkingShared
	h.route.terminals = edition.Unmarked
	if f.Panel.TerminalsC.Is(75) {
		h.route.terminals = edition.Marked75
	}
}

// stretch is a kind of run, the leaf that tells its feet and the way that
// names it.
type stretch struct {
	kind circuit.SegmentKind
	feet func(*facts.Route) facts.Known[unit.Feet]
	way  facts.Way
}

var inOrder = []stretch{
	{circuit.OpenFraming, func(r *facts.Route) facts.Known[unit.Feet] { return r.OpenFeet }, facts.WayOpen},
	{circuit.Fished, func(r *facts.Route) facts.Known[unit.Feet] { return r.FishFeet }, facts.WayFish},
	{circuit.Attic, func(r *facts.Route) facts.Known[unit.Feet] { return r.AtticFeet }, facts.WayAttic},
	{circuit.CrawlSpace, func(r *facts.Route) facts.Known[unit.Feet] { return r.CrawlFeet }, facts.WayCrawl},
	{circuit.Surface, func(r *facts.Route) facts.Known[unit.Feet] { return r.SurfaceFeet }, facts.WaySurface},
	{circuit.Outside, func(r *facts.Route) facts.Known[unit.Feet] { return r.OutsideFeet }, facts.WayOutside},
}

// stretches are the ways above ground in the order wire usually takes them,
// then what is dug. Feet known of a kind stand; without any, the run is shared
// evenly over the ways ticked.
func stretches(rt *facts.Route, total, trench unit.Feet, ways facts.Way) []circuit.Segment {
	out := make([]circuit.Segment, 0, len(inOrder)+1)
	known := unit.Feet(0)
	for _, s := range inOrder {
		if feet, ok := s.feet(rt).Get(); ok && feet > 0 {
			out = append(out, circuit.Segment{Kind: s.kind, Feet: feet})
			known += feet
		}
	}
	if known == 0 {
		out = shareEvenly(out, max(total-trench, 0), ways)
	}
	if trench > 0 {
		out = append(out, dug(rt, trench))
	}
	if len(out) == 0 {
		out = append(out, circuit.Segment{Kind: circuit.OpenFraming, Feet: total})
	}
	return out
}

func shareEvenly(out []circuit.Segment, feet unit.Feet, ways facts.Way) []circuit.Segment {
	n := 0
	for _, s := range inOrder {
		if ways&s.way != 0 {
			n++
		}
	}
	for _, s := range inOrder {
		if ways&s.way != 0 && feet > 0 {
			out = append(out, circuit.Segment{Kind: s.kind, Feet: feet / unit.Feet(n)})
		}
	}
	return out
}

// dug is the stretch under ground. What lies over it decides how deep it goes;
// earth is taken where nobody says there is more.
//
// Source: NEC Table 300.5.
func dug(rt *facts.Route, feet unit.Feet) circuit.Segment {
	s := circuit.Segment{Kind: circuit.Trench, Feet: feet, Over: edition.GeneralBurial}
	switch top, _ := rt.TrenchSurface.Get(); top {
	case facts.TrenchSurfaceGravel:
		s.Ground = circuit.Gravel
	case facts.TrenchSurfaceConcrete:
		s.Ground = circuit.ConcreteSlab
	case facts.TrenchSurfaceAsphalt:
		s.Ground = circuit.Asphalt
	}
	if rt.TrenchUnderDrive.Is(true) {
		s.Over = edition.UnderDwellingDrive
	}
	return s
}

func ambient(rt *facts.Route, segments []circuit.Segment) unit.Celsius {
	if c, ok := rt.AmbientC.Get(); ok {
		return c
	}
	warmest := tableAmbient
	for _, s := range segments {
		switch s.Kind {
		case circuit.Attic:
			warmest = max(warmest, atticAmbient)
		case circuit.Outside:
			warmest = max(warmest, sunAmbient)
		}
	}
	return warmest
}
