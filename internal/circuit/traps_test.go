package circuit_test

import (
	"testing"

	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

// Each test here is one way in which a circuit is commonly designed wrong.
// Sources: the sections named beside the rows; the arithmetic is from their
// tables.

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
