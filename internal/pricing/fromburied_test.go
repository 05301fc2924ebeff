package pricing_test

import (
	"math"
	"testing"

	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/edition/nec"
	"daybreak/internal/pricing"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

// costs ranks candidates by what the demo shop would charge for them.
func costs(t testing.TB, ed edition.Edition, postal string) func(*circuit.Candidate) float64 {
	book := demo(t)
	place := demoPlace(t, book, postal)
	return func(c *circuit.Candidate) float64 {
		take := c.Takeoff(ed)
		f, err := pricing.Estimate(book, pricing.FromTakeoff(&take, pricing.Site{}), place)
		if err != nil {
			return math.Inf(1)
		}
		return float64(f.Total[pricing.Likely])
	}
}

func lawn(feet int) circuit.Segment {
	return circuit.Segment{Kind: circuit.Trench, Feet: unit.Feet(feet), Over: edition.GeneralBurial}
}

// A carport 170 ft away: designed, chosen by what the demo shop would charge,
// and billed within what such a job costs.
func TestABuriedCircuitBecomesABill(t *testing.T) {
	ed, err := nec.Open(nec.Embedded(), 2020)
	require.NoError(t, err)
	r, err := circuit.Design(ed, circuit.Job{
		Setting: 48, Volts: 240, Means: edition.RatingPlate, Fastening: edition.FixedInPlace, Connection: circuit.WantHardwired,
		Place: edition.Outdoor, Terminals: edition.Unmarked, Ambient: 40, Structure: circuit.UnfedStructure, Cost: costs(t, ed, "00021"),
		Route: circuit.Route{Segments: []circuit.Segment{{Kind: circuit.Outside, Feet: 10}, lawn(150), {Kind: circuit.Outside, Feet: 10}}},
	}, nil)
	require.NoError(t, err)
	require.Equal(t, "THWN-2 in PVC 40 1: 2 × 4 AWG, ground 8 AWG", r.Chosen.Wiring())
	work := pricing.FromCircuit(&r, hardwired(48))
	w := work.Design.Wiring[0]
	require.Equal(t, pricing.PVC40, w.Method)
	require.Equal(t, pricing.PVC80, w.Exposed)
	require.Equal(t, []pricing.Conductors{{Size: "4", Count: 2}, {Size: "8", Count: 1}}, w.Conductors)
	require.Equal(t, []int{2, 2, 2}, []int{w.QuarterBends, w.Expansions, w.Bushings})
	require.EqualValues(t, 60, work.Design.Disconnect.Amps)
	require.Equal(t, 2, work.Visits)
	book := demo(t)
	bill, err := pricing.Price(book, work, demoPlace(t, book, "00021"), nil)
	require.NoError(t, err)
	require.Subset(t, codes(bill), []string{"1 brk-2p-60", "150 lab.trench_machine_soil", "1 label-underground", "1 label-disconnect"})
	likely := bill.Subtotal[pricing.Likely] + bill.Permit[pricing.Likely]
	require.GreaterOrEqual(t, likely, int64(390000))
	require.LessOrEqual(t, likely, int64(720000))
}

// A detached garage on an old two-wire run: one feeder in its place, the
// garage's panel with rods, and 24 A from there.
func TestAFeederAndItsCircuitAreOneBill(t *testing.T) {
	ed, err := nec.Open(nec.Embedded(), 2020)
	require.NoError(t, err)
	f, err := circuit.DesignFeeder(ed, circuit.FeederJob{
		Charger: 24, Other: 12.5, Volts: 240, Detached: true, OldRuns: 1, Place: edition.Garage, Terminals: edition.Unmarked, Ambient: 30,
		Moved: []circuit.MovedCircuit{{Amps: 15, Poles: 1, GFCI: true}, {Amps: 20, Poles: 1, GFCI: true}}, Cost: costs(t, ed, "00020"),
		Route: circuit.Route{Segments: []circuit.Segment{{Kind: circuit.OpenFraming, Feet: 20}, lawn(55), {Kind: circuit.Surface, Feet: 10}}},
	}, nil)
	require.NoError(t, err)
	require.Equal(t, "THWN-2 in PVC 40 1: 3 × 6 AWG, ground 10 AWG", f.Chosen.Wiring())
	r, err := circuit.Design(ed, circuit.Job{
		Setting: 24, Volts: 240, Means: edition.RatingPlate, Fastening: edition.FixedInPlace, Connection: circuit.WantHardwired,
		Place: edition.Garage, Terminals: edition.Unmarked, Ambient: 30, FeederPercent: f.Chosen.DropPercent,
		Route: circuit.Route{Segments: []circuit.Segment{{Kind: circuit.Surface, Feet: 8}}},
	}, nil)
	require.NoError(t, err)
	site := hardwired(24)
	work := pricing.FromFeeder(&f, pricing.FromCircuit(&r, site), site)
	feeder := work.Design.Feeder
	require.Equal(t, pricing.Panelboard{Amps: 60, Spaces: 4, Main: true}, feeder.Board)
	require.Equal(t, pricing.Electrodes{Rods: 2, Size: "6", Feet: 20}, feeder.Electrodes)
	require.Len(t, feeder.Refed, 2)
	require.Equal(t, 1, work.Design.OldCircuits)
	require.Equal(t, pricing.PermitCircuit|pricing.PermitSubpanel, work.Permits)
	require.Equal(t, 2, work.Visits)
	book := demo(t)
	bill, err := pricing.Price(book, work, demoPlace(t, book, "00020"), nil)
	require.NoError(t, err)
	likely := bill.Subtotal[pricing.Likely] + bill.Permit[pricing.Likely]
	require.GreaterOrEqual(t, likely, int64(340000))
	require.LessOrEqual(t, likely, int64(640000))
}
