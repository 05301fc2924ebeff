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

func TestCableAndRacewayFollowEachOther(t *testing.T) {
	job := plainJob(32)
	job.Methods = circuit.UseNMB | circuit.UseEMT
	job.Route.Segments = []circuit.Segment{{Kind: circuit.OpenFraming, Feet: 10}, {Kind: circuit.Surface, Feet: 10}, {Kind: circuit.Attic, Feet: 10}}
	r := design(t, 2023, job)
	var ways []string
	for i := range r.Candidates {
		way := ""
		for k := range r.Candidates[i].Parts {
			if p := &r.Candidates[i].Parts[k]; p.Method != 0 {
				way += circuit.MethodName(p.Method, p.Raceway) + ", "
			}
		}
		ways = append(ways, way)
	}
	require.ElementsMatch(t, []string{"THWN-2 in EMT, ", "NM-B, THWN-2 in EMT, NM-B, ", "NM-B, THWN-2 in EMT, ", "THWN-2 in EMT, NM-B, "}, ways)
	require.Equal(t, edition.EMT, r.Chosen.Parts[0].Raceway, "two boxes cost more than they save")
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
	// Fished walls take no raceway, walls in reach no cable: three boxes.
	job.Route.Segments = []circuit.Segment{{Kind: circuit.Fished, Feet: 9}, {Kind: circuit.Surface, Feet: 9}, {Kind: circuit.Fished, Feet: 9}, {Kind: circuit.Surface, Feet: 9}}
	require.Equal(t, circuit.TooManyChanges, design(t, 2023, job).Reason)
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
	unsold := 0
	for i := range r.Losers {
		if r.Losers[i].Fails == circuit.FailsStock {
			unsold++
		}
	}
	require.NotZero(t, unsold)
	// 3 AWG is on no shelf: the next size is tried, and its ground grown.
	job = plainJob(64)
	job.Methods = circuit.UseEMT
	job.Cost = func(c *circuit.Candidate) float64 {
		if c.Parts[0].Hot.Trade() == "3" {
			return math.Inf(1)
		}
		return 1
	}
	r = design(t, 2023, job)
	require.Equal(t, "2", r.Chosen.Parts[0].Hot.Trade())
	require.Equal(t, "6", r.Chosen.Parts[0].Ground.Trade(), "16 510 × 66 360 / 52 620 = 20 821 cmil")
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
		func(j *circuit.Job) { *j = carport(32); j.OverRoof = true },
	} {
		job := plainJob(32)
		change(&job)
		var sheet working.Sheet
		_, err := circuit.Design(book(t, 2023), job, &sheet)
		require.NoError(t, err)
		_, err = circuit.Allowed(book(t, 2023), circuit.Existing{Device: 40}, &sheet)
		require.NoError(t, err)
		_, err = circuit.DesignFeeder(book(t, 2023), detachedGarage(), &sheet)
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
		"circuit.setting_amps":                           func(j *circuit.Job) { j.Setting = unit.Amps(math.NaN()) },
		"circuit.rating_amps":                            func(j *circuit.Job) { j.Rating = 16 },
		"circuit.volts":                                  func(j *circuit.Job) { j.Volts = 230 },
		"circuit.setting_means":                          func(j *circuit.Job) { j.Means = 0 },
		"circuit.fastening":                              func(j *circuit.Job) { j.Fastening = 9 },
		"circuit.connection":                             func(j *circuit.Job) { j.Connection = 9 },
		"circuit.place":                                  func(j *circuit.Job) { j.Place = 0 },
		"circuit.terminals_c":                            func(j *circuit.Job) { j.Terminals = 0 },
		"circuit.ambient_c":                              func(j *circuit.Job) { j.Ambient = unit.Celsius(math.Inf(1)) },
		"circuit.methods":                                func(j *circuit.Job) { j.Methods = 1 << 15 },
		"circuit.other_current_carrying":                 func(j *circuit.Job) { j.OtherCurrentCarrying = -1 },
		"circuit.drop_percent":                           func(j *circuit.Job) { j.DropPercent = math.NaN() },
		"circuit.max_device_amps":                        func(j *circuit.Job) { j.MaxDevice = -1 },
		"circuit.devices[1]":                             func(j *circuit.Job) { j.Devices = []unit.Amps{20, 15} },
		"circuit.plug":                                   func(j *circuit.Job) { j.Plug = "a very long configuration" },
		"circuit.route.segments":                         func(j *circuit.Job) { j.Route.Segments = nil },
		"circuit.route.segments[0].kind":                 func(j *circuit.Job) { j.Route.Segments[0].Kind = 99 },
		"circuit.route.segments[0].feet":                 func(j *circuit.Job) { j.Route.Segments[0].Feet = -5 },
		"circuit.hot":                                    func(j *circuit.Job) { j.Hot = edition.NewSize(3, "another book's") },
		"circuit.structure":                              func(j *circuit.Job) { j.Structure = 9 },
		"circuit.separations":                            func(j *circuit.Job) { j.Separations = -1 },
		"circuit.roof_gap_inches":                        func(j *circuit.Job) { j.RoofGap = unit.Inches(math.NaN()) },
		"circuit.whip_feet":                              func(j *circuit.Job) { j.Whip = 7 },
		"circuit.feeder_percent":                         func(j *circuit.Job) { j.FeederPercent = math.Inf(1) },
		"circuit.route.segments[0].over":                 func(j *circuit.Job) { j.Route.Segments[0].Over = 99 },
		"circuit.route.segments[0].ground":               func(j *circuit.Job) { j.Route.Segments[0].Ground = 99 },
		"circuit.route.segments[0].deepest_cover_inches": func(j *circuit.Job) { j.Route.Segments[0].DeepestCover = -1 },
		"circuit.route.panel_drop_feet":                  func(j *circuit.Job) { j.Route.PanelDrop = unit.Feet(math.NaN()) },
		"circuit.route.device_drop_feet":                 func(j *circuit.Job) { j.Route.DeviceDrop = 1e9 },
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
