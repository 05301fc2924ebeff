package circuit_test

import (
	"math"
	"testing"

	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

// detachedGarage is a garage on an old two-wire run: 20 ft of basement, 55 ft of
// lawn, 10 ft inside. Its light and receptacle draw 12.5 A at 120 V.
func detachedGarage() circuit.FeederJob {
	return circuit.FeederJob{
		Charger: 24, Other: 12.5, Volts: 240, Detached: true, OldRuns: 1, Place: edition.Garage, Terminals: edition.Unmarked, Ambient: 30,
		Moved: []circuit.MovedCircuit{{Amps: 15, Poles: 1, GFCI: true}},
		Route: circuit.Route{Segments: []circuit.Segment{{Kind: circuit.OpenFraming, Feet: 20},
			{Kind: circuit.Trench, Feet: 55, Over: edition.GeneralBurial}, {Kind: circuit.Surface, Feet: 10}}},
	}
}

func feeder(t *testing.T, year int, job circuit.FeederJob) circuit.FeederResult {
	t.Helper()
	r, err := circuit.DesignFeeder(book(t, year), job, nil)
	require.NoError(t, err)
	return r
}

func counts(take circuit.Takeoff) map[circuit.Item]float64 {
	out := map[circuit.Item]float64{}
	for _, n := range take.Needs {
		out[n.Item] += n.Quantity
	}
	return out
}

// Source: NEC 225.30, 225.39(D), 215.2(A), 240.4(B), 250.32, 250.53(A)(2),
// Chapter 9 Tables 4, 5 and 9, worked by hand; the same in every edition.
func TestDetachedGarageGetsOneFeeder(t *testing.T) {
	for _, year := range []int{2017, 2020, 2023, 2026} {
		job := detachedGarage()
		job.Methods = circuit.UsePVC
		r := feeder(t, year, job)
		require.Equal(t, circuit.Designed, r.Outcome)
		require.EqualValues(t, 42.5, r.Demand, "1.25 × 24 + 12.5")
		require.EqualValues(t, 36.5, r.Drawn)
		require.EqualValues(t, 60, r.Device, "a building's panel: at least 60 A")
		p := &r.Chosen.Parts[0]
		require.Equal(t, "6", p.Hot.Trade(), "8 AWG has 40 A for 42.5, or 50 on 60")
		require.Equal(t, 3, p.Conductors(), "four-wire: two hots, neutral, ground")
		require.Equal(t, "10", p.Ground.Trade())
		require.EqualValues(t, "1", p.Trade, "PVC 80 where exposed")
		require.InDelta(t, 3.0405, float64(r.Chosen.DropVolts), 1e-4, "2 × 36.5 × 0.49 × 85 / 1000")
		require.EqualValues(t, 60, r.Panel.Amps)
		require.True(t, r.Panel.Main)
		require.Equal(t, 2, r.Panel.Rods)
		require.Equal(t, 3, r.Panel.Spaces)
		require.Contains(t, r.Notes, circuit.NoteReplaceOldSupply)
		require.Contains(t, r.Notes, circuit.NoteNeutralApart)
		n := counts(r.Takeoff)
		require.Equal(t, []float64{1, 1, 2, 20, 1, 1, 1}, []float64{n[circuit.BreakerItem], n[circuit.SubpanelItem], n[circuit.RodItem],
			n[circuit.RodWireItem], n[circuit.GroundBarItem], n[circuit.MovedItem], n[circuit.RemovalItem]})

		branch := plainJob(24)
		branch.Route = circuit.Route{Segments: []circuit.Segment{{Kind: circuit.Surface, Feet: 8}}}
		branch.FeederPercent = r.Chosen.DropPercent
		b := design(t, year, branch)
		require.EqualValues(t, 30, b.Device)
		require.Equal(t, "10", b.Chosen.Parts[0].Hot.Trade())
		require.InDelta(t, 0.4608, float64(b.Chosen.DropVolts), 1e-6)
		require.InDelta(t, 1.46, r.Chosen.DropPercent+b.Chosen.DropPercent, 0.01)
		require.False(t, b.StructureDisconnect, "the panel is the building's disconnect")
	}
}

// The branch gets what the feeder leaves of 5 %.
// Source: NEC 215.2(A), 210.19(A), informational notes.
func TestDropOverFeederAndBranch(t *testing.T) {
	job := plainJob(32)
	job.Route.Segments[0].Feet = 100
	job.Methods = circuit.UseEMT
	alone := design(t, 2023, job)
	require.Equal(t, "8", alone.Chosen.Parts[0].Hot.Trade(), "5.44 V, 2.27 %")
	job.FeederPercent = 2.9
	after := design(t, 2023, job)
	require.Equal(t, "6", after.Chosen.Parts[0].Hot.Trade(), "2.1 % are left")
	require.LessOrEqual(t, after.Chosen.DropPercent+2.9, 5+1e-9)
}

// A panel that is full: 60 A beside it, two circuits moved.
// Source: NEC 215.2, 408.36; the panel of 60 A is common practice.
func TestSubpanelBesideAFullPanel(t *testing.T) {
	job := circuit.FeederJob{Charger: 32, Other: 12, Volts: 240, Place: edition.Indoor, Terminals: edition.Unmarked, Ambient: 30,
		Moved: []circuit.MovedCircuit{{Amps: 15, Poles: 1}, {Amps: 15, Poles: 1}},
		Route: circuit.Route{Segments: []circuit.Segment{{Kind: circuit.OpenFraming, Feet: 2}}}}
	r := feeder(t, 2020, job)
	require.EqualValues(t, 52, r.Demand)
	require.EqualValues(t, 60, r.Device)
	require.Equal(t, "6", r.Chosen.Parts[0].Hot.Trade())
	require.Equal(t, 4, r.Panel.Spaces)
	require.False(t, r.Panel.Main, "lugs alone: the feeder's breaker is beside it")
	require.Zero(t, r.Panel.Rods)
	require.Zero(t, counts(r.Takeoff)[circuit.RemovalItem])
}

// Source: NEC Table 310.16, 110.14(C), Table 250.122; 338.10(B)(4).
func TestAluminiumFeedersAreWeighed(t *testing.T) {
	job := detachedGarage()
	for i := range feedersOf(t, job) {
		require.NotEqual(t, edition.Aluminium, feedersOf(t, job)[i].Parts[0].Metal, "not without the marks")
	}
	job.Aluminium = true
	job.Route.Segments = []circuit.Segment{{Kind: circuit.OpenFraming, Feet: 60}}
	found := map[string]string{}
	for _, c := range feedersOf(t, job) {
		if p := &c.Parts[0]; p.Metal == edition.Aluminium {
			found[circuit.MethodName(p.Method, p.Raceway)] = p.Hot.Trade() + "/" + p.Ground.Trade()
		}
	}
	require.Equal(t, map[string]string{"SER": "4/6", "XHHW-2 in EMT": "4/10", "XHHW-2 in PVC 40": "4/10"}, found,
		"4 AWG aluminium has 55 A at 60 °C; the ground in a raceway stays copper")
	r := feeder(t, 2023, job)
	require.Equal(t, edition.Aluminium, r.Chosen.Parts[0].Metal)
	require.Contains(t, r.Notes, circuit.NoteAluminiumTerminals)
	buried := detachedGarage()
	buried.Aluminium = true
	for _, c := range feedersOf(t, buried) {
		for i := range c.Parts {
			if c.Parts[i].Method == edition.SER {
				require.False(t, c.Parts[i].Wet, "never buried, never outside")
			}
		}
	}
}

func feedersOf(t *testing.T, job circuit.FeederJob) []circuit.Candidate {
	return feeder(t, 2023, job).Candidates
}

func TestFeedersThatCannotBeBuiltAreResults(t *testing.T) {
	job := detachedGarage()
	job.Charger, job.Route.Segments[1].Feet = 80, 2000
	r := feeder(t, 2023, job)
	require.Equal(t, circuit.Impossible, r.Outcome)
	require.Equal(t, circuit.DropTooHigh, r.Reason)
	require.Contains(t, r.WouldDo, circuit.ShorterRoute)
	job = detachedGarage()
	job.Route.Segments[1].Over = 0
	require.Equal(t, circuit.NotServed, feeder(t, 2023, job).Outcome)
	job = detachedGarage()
	job.Devices = []unit.Amps{30, 40}
	require.Equal(t, circuit.NothingStocked, feeder(t, 2023, job).Reason)
	job = detachedGarage()
	job.Cost = func(*circuit.Candidate) float64 { return math.Inf(1) }
	require.Equal(t, circuit.NothingStocked, feeder(t, 2023, job).Reason)
}

func TestFeederWorkingHasWords(t *testing.T) {
	words, err := working.LoadWords(working.Embedded(), "en")
	require.NoError(t, err)
	for _, year := range []int{2017, 2026} {
		var sheet working.Sheet
		_, err = circuit.DesignFeeder(book(t, year), detachedGarage(), &sheet)
		require.NoError(t, err)
		seen := map[string]bool{}
		for _, s := range sheet.Steps {
			require.True(t, words.Has(s.Rule), s.Rule)
			require.NotContains(t, words.Formula(s), "{", s.Rule)
			require.NotContains(t, words.Sentence(s), "{", s.Rule)
			require.NotNil(t, s.Source, s.Rule)
			seen[s.Rule] = true
		}
		for _, k := range []string{"circuit.feeder.demand", "circuit.feeder.device", "circuit.supplies", "circuit.electrode", "circuit.structure", "circuit.cover"} {
			require.True(t, seen[k], k)
		}
	}
}

func TestBadFeedersAreRefusedByName(t *testing.T) {
	nan := math.NaN()
	for field, change := range map[string]func(*circuit.FeederJob){
		"feeder.charger_amps":           func(j *circuit.FeederJob) { j.Charger = unit.Amps(nan) },
		"feeder.other_amps":             func(j *circuit.FeederJob) { j.Other = -1 },
		"feeder.volts":                  func(j *circuit.FeederJob) { j.Volts = 120 },
		"feeder.old_runs":               func(j *circuit.FeederJob) { j.OldRuns = 99 },
		"feeder.at_least_amps":          func(j *circuit.FeederJob) { j.AtLeast = 1000 },
		"feeder.place":                  func(j *circuit.FeederJob) { j.Place = 0 },
		"feeder.terminals_c":            func(j *circuit.FeederJob) { j.Terminals = 0 },
		"feeder.ambient_c":              func(j *circuit.FeederJob) { j.Ambient = unit.Celsius(nan) },
		"feeder.separations":            func(j *circuit.FeederJob) { j.Separations = 21 },
		"feeder.methods":                func(j *circuit.FeederJob) { j.Methods = 1 << 14 },
		"feeder.drop_percent":           func(j *circuit.FeederJob) { j.DropPercent = 11 },
		"feeder.moved":                  func(j *circuit.FeederJob) { j.Moved = make([]circuit.MovedCircuit, 9) },
		"feeder.moved[0]":               func(j *circuit.FeederJob) { j.Moved[0].Poles = 3 },
		"feeder.devices[0]":             func(j *circuit.FeederJob) { j.Devices = []unit.Amps{0} },
		"feeder.route.segments":         func(j *circuit.FeederJob) { j.Route.Segments = nil },
		"feeder.route.segments[1].feet": func(j *circuit.FeederJob) { j.Route.Segments[1].Feet = unit.Feet(nan) },
	} {
		job := detachedGarage()
		change(&job)
		_, err := circuit.DesignFeeder(book(t, 2023), job, nil)
		f, ok := fault.As(err)
		require.True(t, ok, field)
		require.Equal(t, field, f.Field)
		require.NotEmpty(t, f.Accepted)
	}
}
