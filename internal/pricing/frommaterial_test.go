package pricing_test

import (
	"testing"

	"daybreak/internal/circuit"
	"daybreak/internal/circuit/outlet"
	"daybreak/internal/edition"
	"daybreak/internal/edition/nec"
	"daybreak/internal/pricing"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

func design(t testing.TB, year int, change func(*circuit.Job)) circuit.Result {
	t.Helper()
	ed, err := nec.Open(nec.Embedded(), year)
	require.NoError(t, err)
	job := circuit.Job{
		Setting: 32, Volts: 240, Means: edition.RatingPlate, Fastening: edition.FixedInPlace,
		Connection: circuit.WantHardwired, Place: edition.Garage, Terminals: edition.Unmarked, Ambient: 30,
		Route: circuit.Route{Segments: []circuit.Segment{{Kind: circuit.OpenFraming, Feet: 25}}, PanelDrop: 5, DeviceDrop: 4},
	}
	change(&job)
	r, err := circuit.Design(ed, job, nil)
	require.NoError(t, err)
	require.Equal(t, circuit.Designed, r.Outcome)
	return r
}

func hardwired(setting unit.Amps) pricing.Site {
	return pricing.Site{Equipment: pricing.Equipment{Supply: pricing.ShopSupplies, Setting: setting, Output: setting}}
}

func codes(b pricing.Bill) []string {
	out := make([]string, 0, len(b.Lines))
	for _, l := range b.Lines {
		out = append(out, l.Quantity.String()+" "+l.Code)
	}
	return out
}

func TestADesignedCableBecomesABill(t *testing.T) {
	book := demo(t)
	r := design(t, 2023, func(j *circuit.Job) {})
	bill, err := pricing.Price(book, pricing.FromCircuit(&r, hardwired(32)), demoPlace(t, book, "00010"), nil)
	require.NoError(t, err)
	require.Equal(t, unit.Feet(34), bill.FeetAssumed)
	require.Subset(t, codes(bill), []string{
		"1 evse-32-hw-j1772", "1 brk-2p-40-gfci", "44 nm-b-8-2", "9 nm-staple-large", "2 nm-connector-8-6",
		"1 lab.breaker_gfci", "3.4 lab.nm_open", "1 lab.evse_hardwired", "1 lab.commission", "1 lab.permit_visit", "1 trip",
	})
}

// cableThenRaceway is 20 ft of cable inside and 10 ft of conduit outside.
func cableThenRaceway(t testing.TB) circuit.Result {
	return design(t, 2020, func(j *circuit.Job) {
		j.Setting, j.Place = 16, edition.Outdoor
		j.Route.Segments = []circuit.Segment{{Kind: circuit.OpenFraming, Feet: 20}, {Kind: circuit.Outside, Feet: 10}}
		j.Route.PanelDrop, j.Route.DeviceDrop = 0, 0
		j.Methods = circuit.UseNMB | circuit.UsePVC
	})
}

func TestCableThatBecomesRacewayHasItsBoxAndTails(t *testing.T) {
	book := demo(t)
	r := cableThenRaceway(t)
	work := pricing.FromCircuit(&r, hardwired(16))
	work.Design.Equipment = pricing.Equipment{Supply: pricing.BuyerSupplies, Mount: pricing.MountHardwired}
	bill, err := pricing.Price(book, work, demoPlace(t, book, "00010"), nil)
	require.NoError(t, err)
	got := codes(bill)
	// ⌈(20 + 4 + 0.75) × 1.10⌉ of cable, ⌈(10 + 0.75 + 1.5) × 1.05⌉ of each wire.
	require.Subset(t, got, []string{
		"1 brk-2p-20-gfci", "28 nm-b-12-2", "2 pvc40-1-2", "2 pvc40-1-2-adapter-male", "39 thhn-12", "1 jbox-4sq", "1 seal-ext",
		"1 lab.drill_wood_wall", "1 lab.pvc_exposed", "1 lab.pull_small",
	})
}

func TestAReceptacleBringsItsBoxAndCover(t *testing.T) {
	book := demo(t)
	r := design(t, 2023, func(j *circuit.Job) {
		j.Setting, j.Connection, j.Fastening = 40, circuit.WantReceptacle, edition.CordConnected
	})
	bill, err := pricing.Price(book, pricing.FromCircuit(&r, pricing.Site{Equipment: pricing.Equipment{Supply: pricing.BuyerSupplies}}),
		demoPlace(t, book, "00010"), nil)
	require.NoError(t, err)
	require.Subset(t, codes(bill), []string{"1 brk-2p-50-gfci", "44 nm-b-6-3", "1 rec-14-50-ind", "1 cov-14-50-dry", "1 box-2g-deep-new", "1 lab.evse_plugin"})
}

func TestWhatIsNoDesignIsNoWork(t *testing.T) {
	require.Equal(t, pricing.Work{}, pricing.FromCircuit(&circuit.Result{Outcome: circuit.NotServed}, hardwired(32)))
}

func TestOutletsBecomeWork(t *testing.T) {
	book := demo(t)
	place := demoPlace(t, book, "00010")
	for _, c := range []struct {
		name string
		way  outlet.Way
		site pricing.Site
		want []string
	}{
		{"used as it is", outlet.Way{Kind: outlet.AsItIs, Receptacle: "5-20"}, pricing.Site{}, []string{}},
		{
			"used as it is, equipment sold", outlet.Way{Kind: outlet.AsItIs, Receptacle: "14-50"},
			pricing.Site{Equipment: pricing.Equipment{Supply: pricing.ShopSupplies, Output: 32, Plug: "14-50", Connector: "J3400"}},
			[]string{"1 evse-32-14-50-j3400"},
		},
		{
			"label only", outlet.Way{Kind: outlet.SetDown, Receptacle: "14-50", Work: []outlet.Work{{Kind: outlet.LockSetting, Amps: 24}}},
			pricing.Site{}, []string{"1 label-max-current-setting"},
		},
		{
			"put right", outlet.Way{Kind: outlet.PutRight, Receptacle: "14-30", Work: []outlet.Work{
				{Kind: outlet.NewReceptacle, Receptacle: "14-30"}, {Kind: outlet.GFCIBreaker, Amps: 30, Poles: 2},
			}}, pricing.Site{},
			[]string{"1 brk-2p-30-gfci", "1 rec-14-30-ind", "1 label-evse-circuit", "1 label-max-current-setting", "1 lab.mobilise",
				"1 lab.breaker_gfci", "1 lab.replace_receptacle", "1 trip", "1 minimum"},
		},
		{
			"wired in", outlet.Way{Kind: outlet.WiredIn, Work: []outlet.Work{{Kind: outlet.Hardwire, Amps: 40}}},
			hardwired(40),
			[]string{"1 evse-40-hw-j1772", "1 label-evse-circuit", "1 label-max-current-setting", "1 lab.mobilise", "1 lab.evse_hardwired",
				"1 lab.commission", "1 trip", "1 minimum"},
		},
		{
			"cover", outlet.Way{Kind: outlet.PutRight, Receptacle: "5-20", Work: []outlet.Work{{Kind: outlet.WeatherCover, Receptacle: "5-20"}}},
			pricing.Site{}, []string{"1 cov-5-20-wet", "1 lab.mobilise", "1 trip", "1 minimum"},
		},
		{
			"shared with the dryer", outlet.Way{Kind: outlet.PutRight, Receptacle: "14-30", Breaker: 30, Work: []outlet.Work{{Kind: outlet.SharingSwitch}}},
			pricing.Site{}, []string{"1 ems-switch-30", "1 ems-label", "1 lab.mobilise", "1 lab.load_switch", "1 trip"},
		},
		{
			"moved", outlet.Way{Kind: outlet.PutRight, Receptacle: "5-20", Breaker: 20, Work: []outlet.Work{{Kind: outlet.MoveOutlet, Feet: 8}}},
			pricing.Site{}, []string{"15 nm-b-12-2", "3 nm-staple-small", "2 nm-connector-12-10", "1 jbox-4sq", "1 box-1g-new", "1 rec-5-20-ind",
				"1 cov-5-20-dry", "1 wire-connectors", "1 anchors-screws", "1 lab.mobilise", "0.8 lab.nm_open", "1 lab.box_receptacle_20",
				"1 lab.permit_visit", "1 trip"},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			work, unpriced := pricing.FromOutlet(&c.way, c.site)
			require.Empty(t, unpriced)
			bill, err := pricing.Price(book, work, place, nil)
			require.NoError(t, err)
			require.Equal(t, c.want, codes(bill))
		})
	}
}

func TestWhatNobodyCanPriceIsNamed(t *testing.T) {
	way := outlet.Way{Kind: outlet.PutRight, Receptacle: "14-30", Work: []outlet.Work{{Kind: outlet.GroundConductor}, {Kind: outlet.Inspect}}}
	_, unpriced := pricing.FromOutlet(&way, pricing.Site{})
	require.Equal(t, []outlet.WorkKind{outlet.GroundConductor}, unpriced)
}
