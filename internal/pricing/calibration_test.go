package pricing_test

import (
	"testing"

	"daybreak/internal/pricing"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

// job is work whose equipment the buyer has and nobody mounts.
func job(b pricing.Breaker, w pricing.Wiring, segments ...pricing.Segment) pricing.Work {
	return pricing.Work{
		Design: pricing.Design{
			Breaker: b, Wiring: []pricing.Wiring{w}, Labels: pricing.LabelCircuit | pricing.LabelSetting,
		},
		Route:   pricing.Route{Segments: segments, PanelDrop: 5, DeviceDrop: 4},
		Permits: pricing.PermitCircuit,
		Visits:  1,
	}
}

func nm(size string, conductors int) pricing.Wiring {
	return pricing.Wiring{Method: pricing.NMB, Cable: pricing.Cable{Size: size, Conductors: conductors}}
}

func outletJob(config string, b pricing.Breaker, w pricing.Wiring, box pricing.BoxWork, segments ...pricing.Segment) pricing.Work {
	j := job(b, w, segments...)
	j.Design.Termination = pricing.Termination{Receptacle: config, Box: box}
	return j
}

func gfci(amps unit.Amps, poles int) pricing.Breaker {
	return pricing.Breaker{Amps: amps, Poles: poles, Protection: pricing.GroundFault}
}

func standard60() pricing.Breaker {
	return pricing.Breaker{Amps: 60, Poles: 2, Protection: pricing.Standard}
}

func sixAndTen() []pricing.Conductors {
	return []pricing.Conductors{{Size: "6", Count: 2}, {Size: "10", Count: 1}}
}

func brickJob() pricing.Work {
	w := job(standard60(), pricing.Wiring{
		Method: pricing.EMT, TradeSize: "3/4", Wet: true, QuarterBends: 3, Bodies: 1, Conductors: sixAndTen(),
	}, pricing.Segment{Kind: pricing.Surface, Feet: 46})
	w.Design.Equipment = pricing.Equipment{Supply: pricing.BuyerSupplies, Mount: pricing.MountHardwired}
	w.Route.Masonry, w.Route.Entries = 1, 2
	w.Conditions.Masonry = "masonry.block_or_brick"
	return w
}

func detachedJob() pricing.Work {
	w := job(standard60(), pricing.Wiring{
		Method: pricing.PVC40, Exposed: pricing.PVC80, TradeSize: "1", QuarterBends: 2, Expansions: 2, Conductors: sixAndTen(),
	}, pricing.Segment{Kind: pricing.TrenchLawn, Feet: 100})
	w.Design.Equipment = pricing.Equipment{Supply: pricing.BuyerSupplies, Mount: pricing.MountHardwired}
	w.Design.Disconnect.Amps = 60
	w.Design.Labels |= pricing.LabelDisconnect
	w.Route.PanelDrop, w.Route.DeviceDrop = 6, 5
	w.Route.WoodWalls, w.Route.Entries = 2, 2
	w.Visits = 2
	return w
}

func managedJob() pricing.Work {
	w := detachedJob()
	w.Design.Management = pricing.Management{Method: "load_shed", Amps: 60}
	w.Design.Labels |= pricing.LabelManagement
	return w
}

func plasterJob() pricing.Work {
	w := outletJob("14-50", gfci(50, 2), nm("6", 3), pricing.OldWork,
		pricing.Segment{Kind: pricing.Attic, Feet: 35}, pricing.Segment{Kind: pricing.Fished, Feet: 12})
	w.Route.PanelDrop, w.Route.DeviceDrop = 8, 8
	w.Route.AccessHoles, w.Route.Patches, w.Route.Surface, w.Route.Firestops = 3, 3, "plaster", 1
	w.Conditions.House, w.Conditions.Attic = "house.before_1960", "attic.low_or_deep_insulation"
	return w
}

// calibration holds jobs of the demo book against what such work cost in 2026.
// The book is invented, so this is a check of plausibility and no more.
//
// Anchors: P10, median and P90 in USD, engineering judgement from published
// cost surveys of 2023 to 2025 brought to 2026.
var calibration = []struct {
	name   string
	work   pricing.Work
	on     *pricing.Work // what the job is added to
	anchor [3]float64
	hard   bool // a house harder than the anchor's: up to 5 % above its P90
}{
	{"existing 14-50 outlet, receptacle replaced", pricing.Work{
		Design: pricing.Design{Termination: pricing.Termination{Receptacle: "14-50", Extent: pricing.NewReceptacle}}, Visits: 1,
	}, nil, [3]float64{180, 320, 520}, false},
	{"new 5-20 outlet beside the panel", outletJob("5-20", gfci(20, 1), nm("12", 2), pricing.NewWork,
		pricing.Segment{Kind: pricing.Open, Feet: 15}), nil, [3]float64{320, 520, 850}, false},
	{"14-50 outlet, 25 ft unfinished", outletJob("14-50", gfci(50, 2), nm("6", 3), pricing.SurfaceWork,
		pricing.Segment{Kind: pricing.Open, Feet: 25}), nil, [3]float64{750, 1150, 1750}, false},
	{"48 A hardwired, 50 ft of tubing on brick", brickJob(), nil, [3]float64{1250, 1900, 3000}, false},
	{"detached garage, 100 ft of trench", detachedJob(), nil, [3]float64{2800, 4600, 7800}, false},
	{"energy management added", managedJob(), ptr(detachedJob()), [3]float64{450, 800, 1500}, false},
	{"service 100 to 200 A, overhead", upgrade(), nil, [3]float64{2600, 4100, 6500}, false},
	{"equipment alone, 48 A", pricing.Work{
		Design: pricing.Design{Equipment: pricing.Equipment{Supply: pricing.ShopSupplies, Output: 48}},
	}, nil, [3]float64{290, 480, 750}, false},
	{"14-50 through attic and plaster", plasterJob(), nil, [3]float64{1250, 1900, 3000}, true},
}

func ptr[T any](v T) *T { return &v }

func TestDemoJobsArePlausible(t *testing.T) {
	book := demo(t)
	place := demoPlace(t, book, "00010")
	for _, c := range calibration {
		t.Run(c.name, func(t *testing.T) {
			f, err := pricing.Estimate(book, c.work, place)
			require.NoError(t, err)
			likely := f.Total[pricing.Likely]
			if c.on != nil {
				base, err := pricing.Estimate(book, *c.on, place)
				require.NoError(t, err)
				likely -= base.Total[pricing.Likely]
			}
			most := c.anchor[2]
			if c.hard {
				most *= 1.05
			}
			require.GreaterOrEqual(t, likely, int64(c.anchor[0]*100))
			require.LessOrEqual(t, likely, int64(most*100))
		})
	}
}
