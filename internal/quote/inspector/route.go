package inspector

import (
	"strings"

	"daybreak/internal/facts"
	"daybreak/internal/unit"
)

// route is the way of the wire as the house tells it, by the inspector's own
// reading.
type route struct {
	feet    float64 // one way, drops and all
	outside float64 // of them in the weather
	air     float64 // hottest along it, °C
	place   string  // where the car is charged: indoor, garage, outdoor
	noWire  bool    // nobody may run new wire
	marked  bool    // both ends marked for 75 °C
	solid   bool    // a concrete building
	ditch   bool    // a trench is the only way named, and shorter than the run
}

// readRoute lays out the way from panel to charger. Told feet of a kind win;
// else the run is shared evenly over the ways named. The drop at a charger in
// the weather is in the weather.
//
// Source: common practice.
func (s *sight) readRoute() {
	f, rt, r := s.facts, &s.facts.Route, &s.route
	panelDrop, _ := rt.PanelDropFeet.Get()
	deviceDrop, _ := rt.DeviceDropFeet.Get()
	run, _ := rt.PanelToChargerFeet.Get()
	ways, _ := rt.Ways.Get()
	r.place = placeOf(&f.Place)
	kinds := []struct {
		feet facts.Known[unit.Feet]
		way  facts.Way
	}{
		{rt.OpenFeet, facts.WayOpen}, {rt.FishFeet, facts.WayFish}, {rt.AtticFeet, facts.WayAttic},
		{rt.CrawlFeet, facts.WayCrawl}, {rt.SurfaceFeet, facts.WaySurface}, {rt.OutsideFeet, facts.WayOutside},
	}
	told, named := 0.0, 0
	for _, k := range kinds {
		n, _ := k.feet.Get()
		told += float64(n)
		if ways&k.way != 0 {
			named++
		}
	}
	trench, _ := rt.TrenchFeet.Get()
	along := told
	if told == 0 {
		along = max(float64(run)-float64(trench), 0)
	}
	inAttic := false
	for _, k := range kinds {
		n, _ := k.feet.Get()
		part := float64(n)
		if told == 0 && ways&k.way != 0 {
			part = along / float64(named)
		}
		switch k.way {
		case facts.WayOutside:
			r.outside = part
		case facts.WayAttic:
			inAttic = part > 0
		}
	}
	r.ditch = told == 0 && named == 0 && trench > 0 && along > 0
	r.feet = along + float64(trench) + float64(panelDrop) + float64(deviceDrop)
	r.air = s.Air.Usual
	if inAttic {
		r.air = max(r.air, s.Air.Attic)
	}
	if r.outside > 0 {
		r.air = max(r.air, s.Air.Outside)
	}
	if told, ok := rt.AmbientC.Get(); ok {
		r.air = float64(told)
	}
	r.outside += float64(trench)
	if r.place == outdoor {
		r.outside += float64(deviceDrop)
	}
	r.noWire = f.Place.Permission.Is(facts.PermissionRefused) || f.Place.Parking.Is(facts.ParkingStreet)
	r.marked = f.Panel.TerminalsC.Is(75)
	r.solid = f.Place.DwellingKind.Is(facts.DwellingKindFlat) && f.Place.Parking.Is(facts.ParkingShared)
}

// places of the ground-fault rules.
const (
	indoor  = "indoor"
	garage  = "garage"
	outdoor = "outdoor"
)

// placeOf is where the equipment hangs.
func placeOf(p *facts.Place) string {
	mounting, _ := p.Mounting.Get()
	parking, _ := p.Parking.Get()
	switch {
	case mounting == facts.MountingOutside || mounting == facts.MountingPost:
		return outdoor
	case parking == facts.ParkingAttached || parking == facts.ParkingDetached || parking == facts.ParkingShared:
		return garage
	}
	return indoor
}

// sizeOf is a size by its number alone: "8" of "8 AWG".
func sizeOf(printed string) string {
	size, _, _ := strings.Cut(printed, " ")
	return size
}
