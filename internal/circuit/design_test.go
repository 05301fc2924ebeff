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

// plainJob is a charger on a garage wall, 25 ft of open framing away.
func plainJob(setting unit.Amps) circuit.Job {
	return circuit.Job{
		Setting: setting, Volts: 240, Means: edition.RatingPlate, Fastening: edition.FixedInPlace, Place: edition.Garage,
		Terminals: edition.Unmarked, Ambient: 30,
		Route: circuit.Route{Segments: []circuit.Segment{{Kind: circuit.OpenFraming, Feet: 25}}, PanelDrop: 5, DeviceDrop: 4},
	}
}

func design(t *testing.T, year int, job circuit.Job) circuit.Result {
	t.Helper()
	r, err := circuit.Design(book(t, year), job, nil)
	require.NoError(t, err)
	return r
}

// Source: common practice; 44 A is the trap of circuits on 55 A conductors.
func TestStandardSettingsTakeTheirDevices(t *testing.T) {
	for _, c := range []struct{ setting, device unit.Amps }{
		{12, 15}, {16, 20}, {24, 30}, {32, 40}, {40, 50}, {44, 60}, {48, 60}, {64, 80}, {80, 100}, {20, 25}, {36, 45},
	} {
		for _, year := range []int{2020, 2023} {
			job := plainJob(c.setting)
			job.Terminals = edition.Marked75
			r := design(t, year, job)
			require.Equal(t, circuit.Designed, r.Outcome, c.setting)
			require.Equal(t, c.device, r.Device, c.setting)
			require.Equal(t, c.setting > 60, r.Disconnect, "625.43: above 60 A")
		}
	}
}

// chosen gives the size of the single-part candidate of a method.
func chosen(t *testing.T, r circuit.Result, m edition.Method) string {
	t.Helper()
	for i := range r.Candidates {
		if c := &r.Candidates[i]; !c.Box && c.Parts[0].Method == m {
			return c.Parts[0].Hot.Trade()
		}
	}
	return ""
}

func loser(r circuit.Result, m edition.Method, size string) circuit.Limit {
	for i := range r.Losers {
		if p := &r.Losers[i].Parts[0]; p.Method == m && p.Hot.Trade() == size {
			return r.Losers[i].Fails
		}
	}
	return 0
}

func TestTrap48AmpsOn6AWGCable(t *testing.T) {
	r := design(t, 2023, plainJob(48))
	require.Equal(t, circuit.FailsTerminals, loser(r, edition.NMB, "6"), "55 A at the terminals, 60 needed; protection alone would pass")
	require.Equal(t, "4", chosen(t, r, edition.NMB))
	marked := plainJob(48)
	marked.Terminals = edition.Marked75
	require.Equal(t, "6", chosen(t, design(t, 2023, marked), edition.THWN2))
	fortyFour := design(t, 2023, plainJob(44))
	require.Equal(t, "6", chosen(t, fortyFour, edition.NMB))
	require.EqualValues(t, 60, fortyFour.Device)
}

func TestTrap40AmpsOn8AWG(t *testing.T) {
	r := design(t, 2023, plainJob(40))
	require.Equal(t, circuit.FailsTerminals|circuit.FailsProtection, loser(r, edition.NMB, "8"))
	require.Equal(t, "6", chosen(t, r, edition.NMB))
	marked := plainJob(40)
	marked.Terminals = edition.Marked75
	require.Equal(t, "8", chosen(t, design(t, 2023, marked), edition.THWN2), "50 A for 50 A: no margin, and right")
	require.Equal(t, "8", chosen(t, design(t, 2023, plainJob(32)), edition.NMB))
}

func TestTrapUnmarkedTerminals(t *testing.T) {
	r := design(t, 2023, plainJob(48))
	require.Equal(t, "4", chosen(t, r, edition.THWN2), "6 AWG THWN-2 is 55 A again")
	require.Equal(t, circuit.FailsMarking, loserMarked(r), "and said to be enough once the marks are seen")
	require.Contains(t, r.Notes, circuit.NoteCheckMarking)
}

func loserMarked(r circuit.Result) circuit.Limit {
	for i := range r.Losers {
		if r.Losers[i].Column == circuit.AssumesMarked {
			return r.Losers[i].Fails
		}
	}
	return 0
}

func TestTrapHotAttic(t *testing.T) {
	for _, c := range []struct {
		setting unit.Amps
		ambient unit.Celsius
		size    string
	}{
		{40, 60, "6"}, // 75 × 0.71 = 53.25
		{32, 60, "8"}, // 39.05, and 40 is next above
		{40, 50, "6"}, // 61.5, above the cap of 55
		{32, 66, "6"}, // 8 AWG is 31.9: fails twice
	} {
		job := plainJob(c.setting)
		job.Ambient = c.ambient
		job.Methods = circuit.UseNMB
		require.Equal(t, c.size, chosen(t, design(t, 2023, job), edition.NMB), c)
	}
}

func TestTrapUFInHeatStartsAt60(t *testing.T) {
	b := book(t, 2023)
	six, err := b.SizeNamed("6 AWG")
	require.NoError(t, err)
	c, err := b.Ampacity(edition.Wire{Method: edition.UFB, Size: six, Material: edition.Copper}, edition.Surroundings{Ambient: 40, CurrentCarrying: 2})
	require.NoError(t, err)
	require.InDelta(t, 45.1, float64(c.Value), 1e-9)
}

func TestTrapTwoChargersInOneRaceway(t *testing.T) {
	job := plainJob(48)
	job.Terminals, job.OtherCurrentCarrying, job.Methods = edition.Marked75, 2, circuit.UseEMT
	require.Equal(t, "6", chosen(t, design(t, 2023, job), edition.THWN2), "75 × 0.8 = 60 for 48 A on 60 A")
	job.Setting = 40
	require.Equal(t, "6", chosen(t, design(t, 2023, job), edition.THWN2), "8 AWG has 44: 50 is not the next standard above")
}

func TestTrap25And45AmpDevices(t *testing.T) {
	r := design(t, 2023, plainJob(20))
	require.EqualValues(t, 25, r.Device)
	require.Equal(t, "10", chosen(t, r, edition.NMB))
	require.EqualValues(t, 45, design(t, 2023, plainJob(36)).Device)
	shelf := plainJob(36)
	shelf.Devices = []unit.Amps{20, 30, 40, 50, 60}
	r = design(t, 2023, shelf)
	require.EqualValues(t, 50, r.Device, "a shop without 45 A breakers")
	require.Equal(t, "6", chosen(t, r, edition.NMB))
}

func TestTrapNoParallelAndCableEndsAt2AWG(t *testing.T) {
	job := plainJob(80)
	job.Methods = circuit.UseNMB
	r := design(t, 2023, job)
	require.Equal(t, circuit.Impossible, r.Outcome)
	require.Equal(t, circuit.NoConductor, r.Reason)
	require.Contains(t, r.WouldDo, circuit.AllowRaceway)
	require.EqualValues(t, 72, r.MostHere, "2 AWG carries 95 A: 72 × 1.25 = 90")
	require.Equal(t, "1", chosen(t, design(t, 2023, plainJob(80)), edition.THWN2))
}

func TestTrapOldRangeCircuit(t *testing.T) {
	b := book(t, 2023)
	eight, err := b.SizeNamed("8")
	require.NoError(t, err)
	wire := edition.Wire{Method: edition.NMB, Size: eight, Material: edition.Copper}
	a, err := circuit.Allowed(b, circuit.Existing{Device: 50, Receptacle: "14-50", Wire: wire, Ambient: 30}, nil)
	require.NoError(t, err)
	require.Equal(t, circuit.Allowance{Binding: circuit.StopDeviceAboveConductor}, a)
	a, err = circuit.Allowed(b, circuit.Existing{Device: 40, Receptacle: "14-50", Wire: wire, Ambient: 30}, nil)
	require.NoError(t, err)
	require.Equal(t, circuit.Allowance{Setting: 32, Binding: circuit.ByDevice}, a)
}

func TestTrap208VoltsIsTwoConductors(t *testing.T) {
	job := plainJob(32)
	job.Volts, job.Methods = 208, circuit.UseNMB
	job.Route = circuit.Route{Segments: []circuit.Segment{{Kind: circuit.OpenFraming, Feet: 120}}}
	r := design(t, 2023, job)
	require.InDelta(t, 5.9904, float64(r.Chosen.DropVolts), 1e-6)
	require.InDelta(t, 2.88, r.Chosen.DropPercent, 1e-6)
}

// 170 ft at 48 A: the 0.85 column would read 2.99 % and wrongly pass.
func TestTrapDropAtUnityPowerFactor(t *testing.T) {
	job := plainJob(48)
	job.Terminals, job.Methods, job.Place = edition.Marked75, circuit.UsePVC, edition.Outdoor
	job.Route = circuit.Route{Segments: []circuit.Segment{{Kind: circuit.Outside, Feet: 170}}}
	r := design(t, 2020, job)
	require.Equal(t, "4", r.Chosen.Parts[0].Hot.Trade())
	require.InDelta(t, 2.108, r.Chosen.DropPercent, 1e-3)
	require.Equal(t, "8", r.Chosen.Parts[0].Ground.Trade(), "one circular mil short of 8 AWG is rounding")
	require.Contains(t, r.Notes, circuit.NoteDropRaised)
	require.Equal(t, circuit.FailsDrop, loser(r, edition.THWN2, "6"))
	require.False(t, r.GFCI, "210.8(F) stops at 50 A")
}

// 8 AWG raised to 6 AWG for drop wants an 8 AWG ground; the cable has 10 AWG.
func TestTrapCableGroundDoesNotGrow(t *testing.T) {
	job := plainJob(32)
	job.Methods = circuit.UseNMB
	job.Route.Segments[0].Feet = 150
	r := design(t, 2023, job)
	require.Equal(t, circuit.FailsGround, loser(r, edition.NMB, "6"))
	require.Equal(t, circuit.FailsDrop, loser(r, edition.NMB, "8"))
	require.Equal(t, circuit.Impossible, r.Outcome)
	require.Contains(t, r.WouldDo, circuit.AllowRaceway)
}

func TestTrapCableOutdoors(t *testing.T) {
	job := plainJob(32)
	job.Place = edition.Outdoor
	r := design(t, 2023, job)
	require.True(t, r.Chosen.Box, "cable inside, one box, raceway outside")
	require.Equal(t, edition.NMB, r.Chosen.Parts[0].Method)
	require.Equal(t, edition.EMT, r.Chosen.Parts[1].Raceway)
	require.EqualValues(t, 30, r.Chosen.Parts[0].Feet)
	require.EqualValues(t, 4, r.Chosen.Parts[1].Feet)
	require.True(t, r.GFCI, "2023, outdoors to 50 A")
	require.Contains(t, r.Notes, circuit.NoteHardwiredOutdoors)
	for i := range r.Candidates {
		for _, p := range r.Candidates[i].Parts {
			require.False(t, p.Method == edition.NMB && p.Wet)
		}
	}
}

func TestTrapConcreteBuildingTakesNoCable(t *testing.T) {
	job := plainJob(16)
	job.Volts, job.Concrete = 208, true
	job.Route = circuit.Route{Segments: []circuit.Segment{{Kind: circuit.Surface, Feet: 60}}}
	r := design(t, 2020, job)
	require.Equal(t, "12", r.Chosen.Parts[0].Hot.Trade())
	require.Equal(t, edition.EMT, r.Chosen.Parts[0].Raceway)
	require.EqualValues(t, "1/2", r.Chosen.Parts[0].Trade)
	require.InDelta(t, 1.846, r.Chosen.DropPercent, 1e-3)
}

func TestTrapAppSliderNeverCounts(t *testing.T) {
	for _, c := range []struct {
		year  int
		means edition.SettingMeans
		held  edition.Fastening
		load  unit.Amps
	}{
		{2023, edition.AppSlider, edition.FixedInPlace, 48},
		{2017, edition.RestrictedAccess, edition.FixedInPlace, 48},
		{2020, edition.RestrictedAccess, edition.CordConnected, 48},
		{2020, edition.RestrictedAccess, edition.FixedInPlace, 32},
		{2023, edition.RestrictedAccess, edition.CordConnected, 32},
	} {
		job := plainJob(32)
		job.Rating, job.Means, job.Fastening = 48, c.means, c.held
		r := design(t, c.year, job)
		require.Equal(t, c.load, r.Load, c)
		require.Equal(t, c.load == 48, containsNote(r, circuit.NoteSettingDoesNotCount))
		require.Equal(t, c.load == 32, r.Labels&circuit.SettingLabel != 0)
	}
}

func containsNote(r circuit.Result, n circuit.Note) bool {
	for _, x := range r.Notes {
		if x == n {
			return true
		}
	}
	return false
}

func TestReceptaclesFollowTheDevice(t *testing.T) {
	for _, c := range []struct {
		setting unit.Amps
		volts   unit.Volts
		plug    string
		config  string
	}{
		{12, 120, "", "5-15"}, {16, 120, "", "5-20"}, {16, 240, "", "6-20"}, {24, 240, "", "14-30"},
		{32, 240, "", "14-50"}, {40, 240, "", "14-50"}, {32, 240, "6-50", "6-50"}, {24, 240, "14-50", "14-50"}, {32, 208, "", "14-50"},
	} {
		job := plainJob(c.setting)
		job.Volts, job.Plug, job.Connection, job.Fastening = c.volts, c.plug, circuit.WantReceptacle, edition.CordConnected
		r := design(t, 2023, job)
		require.Equal(t, c.config, r.Receptacle.Config)
		require.True(t, r.GFCI, "every receptacle for charging")
	}
	job := plainJob(48)
	job.Connection = circuit.WantReceptacle
	r := design(t, 2023, job)
	require.True(t, r.Hardwired, "above 40 A")
	require.Contains(t, r.Notes, circuit.NoteHardwiredAbove40)
	job = plainJob(32)
	job.Connection, job.Plug = circuit.WantReceptacle, "14-30"
	r = design(t, 2023, job)
	require.Equal(t, circuit.NoReceptacle, r.Reason, "30 A face on a 40 A circuit")
}

func TestNotServedIsAResult(t *testing.T) {
	job := plainJob(48)
	job.Route.Segments = append(job.Route.Segments, circuit.Segment{Kind: circuit.Trench, Feet: 150})
	r := design(t, 2020, job)
	require.Equal(t, circuit.NotServed, r.Outcome)
	require.Equal(t, circuit.UndergroundRoute, r.Reason)
	require.EqualValues(t, 60, r.Device, "the load side is still said")
	job = plainJob(48)
	job.Methods = circuit.UseOther
	require.Equal(t, circuit.OtherMethodWanted, design(t, 2020, job).Reason)
}

func TestOneChangeOfMethodAtMost(t *testing.T) {
	job := plainJob(32)
	job.Methods = circuit.UseNMB | circuit.UseEMT
	job.Route.Segments = []circuit.Segment{{Kind: circuit.OpenFraming, Feet: 10}, {Kind: circuit.Surface, Feet: 10}, {Kind: circuit.Attic, Feet: 10}}
	r := design(t, 2023, job)
	require.Equal(t, edition.EMT, r.Chosen.Parts[0].Raceway, "raceway all the way instead")
	require.False(t, r.Chosen.Box)
	job.Methods = circuit.UseNMB
	require.Equal(t, circuit.Impossible, design(t, 2023, job).Outcome)
	job.Methods = circuit.UseNMB | circuit.UseEMT
	job.Route.Segments = job.Route.Segments[1:]
	r = design(t, 2023, job)
	changing := 0
	for i := range r.Candidates {
		if c := &r.Candidates[i]; c.Box {
			require.Equal(t, edition.NMB, c.Parts[1].Method, "raceway first, then cable")
			changing++
		}
	}
	require.Equal(t, 1, changing)
}

func TestTheShopsCostDecides(t *testing.T) {
	job := plainJob(32)
	job.Cost = func(c *circuit.Candidate) float64 {
		if len(c.Takeoff(book(t, 2023)).Needs) == 0 || c.Parts[0].Method == edition.NMB {
			return math.Inf(1)
		}
		return float64(c.Parts[0].Hot.Rank())
	}
	r := design(t, 2023, job)
	require.NotEqual(t, edition.NMB, r.Chosen.Parts[0].Method)
	require.Equal(t, circuit.FailsStock, r.Losers[len(r.Losers)-1].Fails&circuit.FailsStock)
	job.Cost = func(*circuit.Candidate) float64 { return math.NaN() }
	r = design(t, 2023, job)
	require.Equal(t, circuit.NothingStocked, r.Reason)
}

func TestEveryRuleHasWords(t *testing.T) {
	words, err := working.LoadWords(working.Embedded(), "en")
	require.NoError(t, err)
	for _, k := range circuit.RuleKeys() {
		require.True(t, words.Has(k), k)
	}
	known := map[string]bool{}
	for _, k := range circuit.RuleKeys() {
		known[k] = true
	}
	emitted := map[string]bool{}
	for _, change := range []func(*circuit.Job){
		func(*circuit.Job) {},
		func(j *circuit.Job) { j.Connection = circuit.WantReceptacle },
		func(j *circuit.Job) { j.Methods, j.Route.Segments[0].Feet = circuit.UseEMT, 200 },
		func(j *circuit.Job) { j.Methods = circuit.UseEMT },
	} {
		job := plainJob(32)
		change(&job)
		var sheet working.Sheet
		_, err := circuit.Design(book(t, 2023), job, &sheet)
		require.NoError(t, err)
		_, err = circuit.Allowed(book(t, 2023), circuit.Existing{Device: 40}, &sheet)
		require.NoError(t, err)
		for _, s := range sheet.Steps {
			require.True(t, known[s.Rule], s.Rule)
			require.NotContains(t, words.Formula(s), "{", s.Rule)
			require.NotContains(t, words.Sentence(s), "{", s.Rule)
			require.NotNil(t, s.Source, s.Rule)
			emitted[s.Rule] = true
		}
	}
	require.Len(t, emitted, len(known), "a rule that nothing emits")
}

func TestBadJobsAreRefusedByName(t *testing.T) {
	for field, change := range map[string]func(*circuit.Job){
		"circuit.setting_amps":           func(j *circuit.Job) { j.Setting = unit.Amps(math.NaN()) },
		"circuit.rating_amps":            func(j *circuit.Job) { j.Rating = 16 },
		"circuit.volts":                  func(j *circuit.Job) { j.Volts = 230 },
		"circuit.setting_means":          func(j *circuit.Job) { j.Means = 0 },
		"circuit.fastening":              func(j *circuit.Job) { j.Fastening = 9 },
		"circuit.connection":             func(j *circuit.Job) { j.Connection = 9 },
		"circuit.place":                  func(j *circuit.Job) { j.Place = 0 },
		"circuit.terminals_c":            func(j *circuit.Job) { j.Terminals = 0 },
		"circuit.ambient_c":              func(j *circuit.Job) { j.Ambient = unit.Celsius(math.Inf(1)) },
		"circuit.methods":                func(j *circuit.Job) { j.Methods = 255 },
		"circuit.other_current_carrying": func(j *circuit.Job) { j.OtherCurrentCarrying = -1 },
		"circuit.drop_percent":           func(j *circuit.Job) { j.DropPercent = math.NaN() },
		"circuit.max_device_amps":        func(j *circuit.Job) { j.MaxDevice = -1 },
		"circuit.devices[1]":             func(j *circuit.Job) { j.Devices = []unit.Amps{20, 15} },
		"circuit.plug":                   func(j *circuit.Job) { j.Plug = "a very long configuration" },
		"circuit.route.segments":         func(j *circuit.Job) { j.Route.Segments = nil },
		"circuit.route.segments[0].kind": func(j *circuit.Job) { j.Route.Segments[0].Kind = 99 },
		"circuit.route.segments[0].feet": func(j *circuit.Job) { j.Route.Segments[0].Feet = -5 },
		"circuit.route.panel_drop_feet":  func(j *circuit.Job) { j.Route.PanelDrop = unit.Feet(math.NaN()) },
		"circuit.route.device_drop_feet": func(j *circuit.Job) { j.Route.DeviceDrop = 1e9 },
	} {
		job := plainJob(32)
		change(&job)
		_, err := circuit.Design(book(t, 2023), job, nil)
		f, ok := fault.As(err)
		require.True(t, ok, field)
		require.Equal(t, field, f.Field)
		require.NotEmpty(t, f.Accepted)
	}
}
