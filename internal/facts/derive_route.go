package facts

import (
	"daybreak/internal/unit"
)

func (f *Facts) deriveRoute() {
	r := &f.Route
	fill(&r.WorkHeight, WorkHeightTo8Ft, FromUsualPractice)
	ways, known := r.Ways.Get()
	if !known {
		return
	}
	panel, device, ambient := unit.Feet(5), unit.Feet(4), unit.Celsius(30)
	switch {
	case ways.Has(WayAttic):
		panel, device, ambient = 8, 8, 50
	case ways.Has(WayOutside):
		ambient = 40
	}
	fill(&r.PanelDropFeet, panel, FromUsualPractice)
	fill(&r.DeviceDropFeet, device, FromUsualPractice)
	fill(&r.AmbientC, ambient, FromUsualPractice)
	if ways == WayOpen {
		fill(&r.WallFinish, WallFinishOpen, FromAnotherAnswer)
	}
	if !ways.Has(WayTrench) {
		fill(&r.TrenchFeet, 0, FromAnotherAnswer)
	}
	if top, ok := r.TrenchSurface.Get(); ok {
		drive := top == TrenchSurfaceConcrete || top == TrenchSurfaceAsphalt || top == TrenchSurfaceGravel
		fill(&r.TrenchUnderDrive, drive, FromAnotherAnswer)
	}
	r.shareFeet(ways)
}

// shareFeet spreads the feet above ground that nobody told evenly over the ways
// named; with a trench alone, what is left of the run lies on the face of a wall.
func (r *Route) shareFeet(ways Way) {
	feet, feetKnown := r.PanelToChargerFeet.Get()
	trench, trenchKnown := r.TrenchFeet.Get()
	if !feetKnown || !trenchKnown || ways == 0 {
		return
	}
	dry := ways &^ WayTrench
	if dry == 0 {
		dry = WaySurface
	}
	parts := [...]struct {
		way  Way
		feet *Known[unit.Feet]
	}{
		{WayOpen, &r.OpenFeet}, {WayFish, &r.FishFeet}, {WayAttic, &r.AtticFeet},
		{WayCrawl, &r.CrawlFeet}, {WaySurface, &r.SurfaceFeet}, {WayOutside, &r.OutsideFeet},
	}
	left, open := max(0, feet-trench), 0
	for _, part := range parts {
		if part.feet.State() == Told {
			told, _ := part.feet.Get()
			left = max(0, left-told)
		} else if dry.Has(part.way) {
			open++
		}
	}
	for _, part := range parts {
		share := unit.Feet(0)
		if dry.Has(part.way) {
			share = left / unit.Feet(max(1, open))
		}
		fill(part.feet, share, FromAnotherAnswer)
	}
}
