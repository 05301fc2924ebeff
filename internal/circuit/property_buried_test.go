package circuit_test

import (
	"testing"

	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/edition/nec"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func drawSegment(t *rapid.T) circuit.Segment {
	s := circuit.Segment{Kind: circuit.SegmentKind(rapid.IntRange(1, 7).Draw(t, "kind")), Feet: unit.Feet(rapid.IntRange(0, 120).Draw(t, "feet"))}
	if s.Kind == circuit.Trench {
		s.Over = edition.Burial(rapid.IntRange(1, edition.BurialKinds-1).Draw(t, "over"))
		s.Ground = circuit.Ground(rapid.IntRange(0, 5).Draw(t, "ground"))
		s.DeepestCover = rapid.SampledFrom([]unit.Inches{0, 0, 0, 4, 8, 12, 18, 24}).Draw(t, "deepest")
	}
	return s
}

// drawSite adds to a job what buried runs and other buildings bring.
func drawSite(t *rapid.T) circuit.Job {
	job := drawJob(t)
	job.Methods = circuit.MethodSet(rapid.IntRange(0, 255).Draw(t, "all methods")) &^ circuit.UseOther
	job.Route.Segments = rapid.SliceOfN(rapid.Custom(drawSegment), 1, 7).Draw(t, "segments")
	job.Structure = circuit.Structure(rapid.IntRange(0, 1).Draw(t, "structure"))
	job.OverRoof = rapid.Bool().Draw(t, "over roof")
	job.RoofGap = unit.Inches(rapid.IntRange(0, 3).Draw(t, "gap"))
	job.Whip = unit.Feet(rapid.IntRange(0, 6).Draw(t, "whip"))
	job.FeederPercent = rapid.Float64Range(0, 4).Draw(t, "feeder")
	return job
}

// Whatever lies in the ground, a design keeps the limits, read here from the
// tables by their own questions.
func TestEveryBuriedDesignKeepsTheLimits(t *testing.T) {
	books := []*nec.Book{book(t, 2017), book(t, 2020), book(t, 2023), book(t, 2026)}
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.SampledFrom(books).Draw(t, "book")
		job := drawSite(t)
		r, err := circuit.Design(b, job, nil)
		require.NoError(t, err)
		require.NotEqual(t, circuit.NotServed, r.Outcome)
		if r.Outcome == circuit.Impossible {
			require.NotEmpty(t, r.WouldDo)
			require.NotZero(t, r.Reason)
			return
		}
		require.Equal(t, job.Structure == circuit.UnfedStructure, r.StructureDisconnect)
		for i := range r.Candidates {
			keepsSiteLimits(t, b, &job, &r, &r.Candidates[i])
		}
	})
}

func keepsSiteLimits(t *rapid.T, b *nec.Book, job *circuit.Job, r *circuit.Result, c *circuit.Candidate) {
	require.Zero(t, c.Fails)
	require.LessOrEqual(t, c.DropPercent, min(3, 5-job.FeederPercent)+1e-9)
	for k := range c.Parts {
		if p := &c.Parts[k]; p.Method != 0 {
			keepsAmpacity(t, b, job, r, p)
		}
	}
	take := c.Takeoff(b)
	feet, cable, wire := 0.0, 0.0, 0.0
	for _, n := range take.Needs {
		switch n.Item {
		case circuit.CableItem:
			feet, cable = feet+n.Quantity, cable+n.Quantity
			require.NotEqual(t, edition.Unfit, b.FitIn(n.Method, edition.NoRaceway, runOf(n.Run, job.Place)).Value)
		case circuit.RacewayItem, circuit.WhipItem:
			feet += n.Quantity
			require.GreaterOrEqual(t, n.Quantity, 0.0)
			if n.Item == circuit.RacewayItem {
				require.Equal(t, edition.Fit, b.FitIn(n.Method, n.Raceway, runOf(n.Run, job.Place)).Value, "%v %v", n.Raceway, n.Run)
			}
		case circuit.WireItem:
			wire += n.Quantity
		}
		if n.Run == circuit.Trench && (n.Item == circuit.CableItem || n.Item == circuit.RacewayItem) {
			require.True(t, n.Cover > 0 || overBuilding(job), "every trench says how deep")
		}
	}
	want := float64(job.Route.PanelDrop + job.Route.DeviceDrop)
	for _, s := range job.Route.Segments {
		want += float64(s.Feet)
	}
	require.InDelta(t, want, feet, 1e-9, "the take-off is as long as the route")
	require.InDelta(t, want, cable+wire, 1e-9, "so are its wires")
	require.InDelta(t, want, float64(take.RouteFeet), 1e-9)
}

func overBuilding(job *circuit.Job) bool {
	for _, s := range job.Route.Segments {
		if s.Over == edition.UnderBuilding {
			return true
		}
	}
	return false
}

func runOf(k circuit.SegmentKind, place edition.Place) edition.Run {
	return map[circuit.SegmentKind]edition.Run{circuit.OpenFraming: edition.UnfinishedBasement, circuit.Fished: edition.DryConcealed,
		circuit.Attic: edition.AtticSpace, circuit.CrawlSpace: edition.CrawlSpace, circuit.Outside: edition.OutdoorWall, circuit.Trench: edition.Underground,
		circuit.Surface: map[bool]edition.Run{true: edition.GarageWall, false: edition.IndoorWall}[place == edition.Garage]}[k]
}

// keepsAmpacity makes the three tests by the book's own questions.
func keepsAmpacity(t *rapid.T, b *nec.Book, job *circuit.Job, r *circuit.Result, p *circuit.Part) {
	column, base := unit.Celsius(60), unit.Celsius(90)
	if job.Terminals == edition.Marked75 && p.Method != edition.NMB && p.Method != edition.UFB {
		column = 75
	}
	if p.Method == edition.UFB {
		base = 60
	}
	ambient := job.Ambient
	if job.OverRoof {
		roof, err := b.RooftopAmbient(ambient, job.RoofGap)
		require.NoError(t, err)
		ambient = roof.Value
	}
	table, err := b.TableAmpacity(p.Hot, edition.Copper, column)
	require.NoError(t, err)
	require.GreaterOrEqual(t, float64(table.Value), 1.25*float64(r.Load)-1e-9, "terminals")
	at, err := b.TableAmpacity(p.Hot, edition.Copper, base)
	require.NoError(t, err)
	heat, err := b.AmbientFactor(base, ambient)
	require.NoError(t, err)
	together := 2
	if !p.Method.Cable() {
		together += job.OtherCurrentCarrying
	}
	share, err := b.AdjustmentFactor(together)
	require.NoError(t, err)
	carries := float64(at.Value) * heat.Value * share.Value
	require.GreaterOrEqual(t, carries, float64(r.Load)-1e-9, "conditions")
	if next, err := b.NextDevice(unit.Amps(min(carries, float64(table.Value)))); err == nil {
		require.LessOrEqual(t, r.Device, next.Value, "protection")
	}
	ground, err := b.GroundingConductor(r.Device, edition.Copper)
	require.NoError(t, err)
	require.GreaterOrEqual(t, p.Ground.Rank(), min(ground.Value.Rank(), p.Hot.Rank()))
	require.LessOrEqual(t, p.Ground.Rank(), p.Hot.Rank())
	require.LessOrEqual(t, p.FillPercent, 40+1e-9)
	require.False(t, p.Wet && (p.Method == edition.NMB || p.Method == edition.MC), "dry cable stays dry")
}

// A feeder keeps its limits, whatever hangs on it.
func TestEveryFeederKeepsTheLimits(t *testing.T) {
	books := []*nec.Book{book(t, 2017), book(t, 2020), book(t, 2023), book(t, 2026)}
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.SampledFrom(books).Draw(t, "book")
		site := drawSite(t)
		job := circuit.FeederJob{Charger: site.Setting, Other: unit.Amps(rapid.IntRange(0, 60).Draw(t, "other")), Volts: 240,
			Detached: rapid.Bool().Draw(t, "detached"), OldRuns: rapid.IntRange(0, 2).Draw(t, "old"), Place: site.Place, Route: site.Route,
			Terminals: site.Terminals, Aluminium: rapid.Bool().Draw(t, "aluminium"), Ambient: site.Ambient, Concrete: site.Concrete}
		r, err := circuit.DesignFeeder(b, job, nil)
		require.NoError(t, err)
		if r.Outcome == circuit.Impossible {
			require.NotEmpty(t, r.WouldDo)
			return
		}
		require.Equal(t, circuit.Designed, r.Outcome)
		require.InDelta(t, 1.25*float64(job.Charger)+float64(job.Other), float64(r.Demand), 1e-9)
		require.GreaterOrEqual(t, float64(r.Device), max(60, float64(r.Demand))-1e-9)
		require.Equal(t, r.Device, r.Panel.Amps)
		require.Equal(t, job.Detached, r.Panel.Main && r.Panel.Rods == 2)
		for i := range r.Candidates {
			c := &r.Candidates[i]
			require.LessOrEqual(t, c.DropPercent, 3+1e-9)
			for k := range c.Parts {
				p := &c.Parts[k]
				if p.Method == 0 {
					break
				}
				require.Equal(t, 3, p.Conductors(), "two hots and a neutral")
				require.True(t, job.Aluminium || p.Metal == edition.Copper)
				table, err := b.TerminalAmpacity(edition.Wire{Method: p.Method, Size: p.Hot, Material: p.Metal}, job.Terminals, r.Device)
				require.NoError(t, err)
				require.GreaterOrEqual(t, float64(table.Value), float64(r.Demand)-1e-9)
				require.GreaterOrEqual(t, float64(p.Ampacity), float64(r.Drawn)-1e-9)
				largest, err := b.LargestDevice(p.Hot, p.Metal, min(table.Value, p.Ampacity))
				require.NoError(t, err)
				require.LessOrEqual(t, r.Device, largest.Value)
				require.False(t, p.Wet && (p.Method == edition.NMB || p.Method == edition.SER))
			}
		}
	})
}
