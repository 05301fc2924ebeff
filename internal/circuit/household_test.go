package circuit_test

import (
	"testing"

	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

// Circuits of whole households, worked by hand. Sources: NEC Table 310.16,
// 334.80, 240.6(A), Table 250.122, Chapter 9 Tables 4, 5 and 9 at power factor
// one, 210.8(F) of the year; the choice of method is engineering judgement.
func TestHouseholdCircuits(t *testing.T) {
	indoors := func(feet unit.Feet) circuit.Route {
		return circuit.Route{Segments: []circuit.Segment{{Kind: circuit.OpenFraming, Feet: feet}}}
	}
	for _, c := range []struct {
		what    string
		year    int
		change  func(*circuit.Job)
		device  unit.Amps
		hot     string
		ground  string
		trade   edition.Trade
		dropV   float64
		percent float64
		gfci    edition.Requirement
	}{
		{"gas house, 25 ft of cable, 2023", 2023, func(j *circuit.Job) { j.Setting, j.Route = 32, indoors(25) },
			40, "8", "10", "", 1.248, 0.52, edition.AskAHJ},
		{"its larger option in tubing, marked ends", 2023, func(j *circuit.Job) {
			j.Setting, j.Route, j.Methods, j.Terminals = 48, indoors(25), circuit.UseEMT, edition.Marked75
		}, 60, "6", "10", "3/4", 1.176, 0.49, edition.NotRequired},
		{"its larger option in cable", 2023, func(j *circuit.Job) { j.Setting, j.Route, j.Methods = 48, indoors(25), circuit.UseNMB },
			60, "4", "8", "", 0.744, 0.31, edition.NotRequired},
		{"dryer outlet left alone, 45 ft, 2020", 2020, func(j *circuit.Job) { j.Setting, j.Route = 32, indoors(45) },
			40, "8", "10", "", 2.2464, 0.936, edition.NotRequired},
		{"the cheaper 16 A", 2020, func(j *circuit.Job) { j.Setting, j.Route = 16, indoors(45) },
			20, "12", "12", "", 2.88, 1.2, edition.NotRequired},
		{"208 V stall in concrete", 2020, func(j *circuit.Job) {
			j.Setting, j.Volts, j.Route, j.Concrete, j.Methods = 16, 208, indoors(60), true, circuit.UseEMT
		}, 20, "12", "12", "1/2", 3.84, 1.846, edition.NotRequired},
		{"208 V, room to grow", 2020, func(j *circuit.Job) {
			j.Setting, j.Volts, j.Route, j.Concrete, j.Methods = 24, 208, indoors(60), true, circuit.UseEMT
		}, 30, "10", "10", "1/2", 3.456, 1.662, edition.NotRequired},
		{"managed 40 A, 20 ft, 2023", 2023, func(j *circuit.Job) { j.Setting, j.Route = 40, indoors(20) },
			50, "6", "10", "", 0.784, 0.327, edition.AskAHJ},
		{"two cars sharing 48 A", 2023, func(j *circuit.Job) {
			j.Setting, j.Route, j.Methods, j.Terminals = 48, indoors(30), circuit.UseEMT, edition.Marked75
		}, 60, "6", "10", "3/4", 1.4112, 0.588, edition.NotRequired},
	} {
		t.Run(c.what, func(t *testing.T) {
			job := plainJob(0)
			c.change(&job)
			r := design(t, c.year, job)
			require.Equal(t, circuit.Designed, r.Outcome)
			p := r.Chosen.Parts[0]
			require.Equal(t, c.device, r.Device)
			require.Equal(t, 2, r.Poles)
			require.Equal(t, c.hot, p.Hot.Trade())
			require.Equal(t, c.ground, p.Ground.Trade())
			require.Equal(t, c.trade, p.Trade)
			require.False(t, p.Neutral, "no neutral to a hardwired charger")
			require.True(t, r.Hardwired)
			require.False(t, r.Disconnect)
			require.InDelta(t, c.dropV, float64(r.Chosen.DropVolts), 1e-6)
			require.InDelta(t, c.percent, r.Chosen.DropPercent, 1e-3)
			require.Equal(t, c.gfci, r.GroundFault.Value)
		})
	}
}
