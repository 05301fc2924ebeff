package facts

import "daybreak/internal/unit"

// Route is the way from the panel to the charger.
type Route struct {
	PanelToChargerFeet Known[unit.Feet]     // from the panel to the charger the way the wire goes, ft
	Ways               Known[Way]           // ways the wire may go
	OpenFeet           Known[unit.Feet]     // feet along bare framing, ft
	FishFeet           Known[unit.Feet]     // feet fished inside finished walls, ft
	AtticFeet          Known[unit.Feet]     // feet through the attic, ft
	CrawlFeet          Known[unit.Feet]     // feet through basement or crawl space, ft
	SurfaceFeet        Known[unit.Feet]     // feet on the face of a wall, ft
	OutsideFeet        Known[unit.Feet]     // feet along an outside wall, ft
	TrenchFeet         Known[unit.Feet]     // feet to be dug, ft
	TrenchSurface      Known[TrenchSurface] // what lies on top of the trench
	TrenchUnderDrive   Known[bool]          // the trench crosses a driveway
	PanelDropFeet      Known[unit.Feet]     // vertical feet at the panel, ft
	DeviceDropFeet     Known[unit.Feet]     // vertical feet at the charger, ft
	WallFinish         Known[WallFinish]    // what the walls are made of
	WorkHeight         Known[WorkHeight]    // how high the work is
	AtticKind          Known[AtticKind]     // how easily the attic is worked in
	CrawlKind          Known[CrawlKind]     // height of the crawl space
	Soil               Known[Soil]          // what must be dug
	AmbientC           Known[unit.Celsius]  // warmest air along the run, °C
	GasNear            Known[bool]          // gas pipe or meter near the work
	RatedWall          Known[bool]          // the wire passes a fire-rated wall
}

func routeLeaves() []*Leaf {
	return []*Leaf{
		number("route.panel_to_charger_feet", "ft", 1, 400, 1, func(f *Facts) *Known[unit.Feet] { return &f.Route.PanelToChargerFeet }),
		set("route.ways", "Way", wayWords, func(f *Facts) *Known[Way] { return &f.Route.Ways }),
		number("route.open_feet", "ft", 0, 400, 1, func(f *Facts) *Known[unit.Feet] { return &f.Route.OpenFeet }),
		number("route.fish_feet", "ft", 0, 400, 1, func(f *Facts) *Known[unit.Feet] { return &f.Route.FishFeet }),
		number("route.attic_feet", "ft", 0, 400, 1, func(f *Facts) *Known[unit.Feet] { return &f.Route.AtticFeet }),
		number("route.crawl_feet", "ft", 0, 400, 1, func(f *Facts) *Known[unit.Feet] { return &f.Route.CrawlFeet }),
		number("route.surface_feet", "ft", 0, 400, 1, func(f *Facts) *Known[unit.Feet] { return &f.Route.SurfaceFeet }),
		number("route.outside_feet", "ft", 0, 400, 1, func(f *Facts) *Known[unit.Feet] { return &f.Route.OutsideFeet }),
		number("route.trench_feet", "ft", 0, 400, 1, func(f *Facts) *Known[unit.Feet] { return &f.Route.TrenchFeet }),
		choice("route.trench_surface", "TrenchSurface", trenchSurfaceWords, func(f *Facts) *Known[TrenchSurface] { return &f.Route.TrenchSurface }),
		flag("route.trench_under_drive", func(f *Facts) *Known[bool] { return &f.Route.TrenchUnderDrive }),
		number("route.panel_drop_feet", "ft", 0, 20, 1, func(f *Facts) *Known[unit.Feet] { return &f.Route.PanelDropFeet }),
		number("route.device_drop_feet", "ft", 0, 20, 1, func(f *Facts) *Known[unit.Feet] { return &f.Route.DeviceDropFeet }),
		choice("route.wall_finish", "WallFinish", wallFinishWords, func(f *Facts) *Known[WallFinish] { return &f.Route.WallFinish }),
		choice("route.work_height", "WorkHeight", workHeightWords, func(f *Facts) *Known[WorkHeight] { return &f.Route.WorkHeight }),
		choice("route.attic_kind", "AtticKind", atticKindWords, func(f *Facts) *Known[AtticKind] { return &f.Route.AtticKind }),
		choice("route.crawl_kind", "CrawlKind", crawlKindWords, func(f *Facts) *Known[CrawlKind] { return &f.Route.CrawlKind }),
		choice("route.soil", "Soil", soilWords, func(f *Facts) *Known[Soil] { return &f.Route.Soil }),
		number("route.ambient_c", "°C", -10, 60, 1, func(f *Facts) *Known[unit.Celsius] { return &f.Route.AmbientC }),
		flag("route.gas_near", func(f *Facts) *Known[bool] { return &f.Route.GasNear }),
		flag("route.rated_wall", func(f *Facts) *Known[bool] { return &f.Route.RatedWall }),
	}
}
