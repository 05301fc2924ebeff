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

func drawJob(t *rapid.T) circuit.Job {
	kinds := []circuit.SegmentKind{circuit.OpenFraming, circuit.Fished, circuit.Attic, circuit.CrawlSpace, circuit.Surface, circuit.Outside}
	job := circuit.Job{
		Setting:    unit.Amps(rapid.SampledFrom([]float64{6, 8, 12, 16, 20, 24, 28, 30, 32, 36, 40, 44, 48, 56, 64, 72, 80}).Draw(t, "setting")),
		Volts:      rapid.SampledFrom([]unit.Volts{120, 208, 240}).Draw(t, "volts"),
		Means:      rapid.SampledFrom([]edition.SettingMeans{edition.RatingPlate, edition.RestrictedAccess, edition.AppSlider}).Draw(t, "means"),
		Fastening:  rapid.SampledFrom([]edition.Fastening{edition.FixedInPlace, edition.CordConnected}).Draw(t, "fastening"),
		Connection: rapid.SampledFrom([]circuit.Connection{circuit.AnyConnection, circuit.WantReceptacle, circuit.WantHardwired}).Draw(t, "connection"),
		Place:      rapid.SampledFrom([]edition.Place{edition.Indoor, edition.Garage, edition.Outdoor}).Draw(t, "place"),
		Terminals:  rapid.SampledFrom([]edition.Marking{edition.Unmarked, edition.Marked75}).Draw(t, "terminals"),
		Ambient:    unit.Celsius(rapid.Float64Range(-20, 75).Draw(t, "ambient")),
		Concrete:   rapid.Bool().Draw(t, "concrete"),
		Methods:    circuit.MethodSet(rapid.IntRange(0, 7).Draw(t, "methods")),
	}
	if rapid.Bool().Draw(t, "shared raceway") {
		job.OtherCurrentCarrying = rapid.IntRange(0, 6).Draw(t, "others")
	}
	for range rapid.IntRange(1, 4).Draw(t, "stretches") {
		job.Route.Segments = append(job.Route.Segments, circuit.Segment{Kind: rapid.SampledFrom(kinds).Draw(t, "kind"), Feet: unit.Feet(rapid.IntRange(0, 90).Draw(t, "feet"))})
	}
	job.Route.PanelDrop = unit.Feet(rapid.IntRange(0, 8).Draw(t, "panel drop"))
	job.Route.DeviceDrop = unit.Feet(rapid.IntRange(0, 8).Draw(t, "device drop"))
	return job
}

// Whatever the household, a design keeps the limits, read here from the tables
// by their own questions and not from the designer's checks.
func TestEveryDesignKeepsTheLimits(t *testing.T) {
	books := []*nec.Book{book(t, 2017), book(t, 2020), book(t, 2023), book(t, 2026)}
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.SampledFrom(books).Draw(t, "book")
		job := drawJob(t)
		r, err := circuit.Design(b, job, nil)
		require.NoError(t, err)
		if r.Outcome == circuit.Impossible {
			require.NotEmpty(t, r.WouldDo)
			require.NotZero(t, r.Reason)
			require.Less(t, r.MostHere, job.Setting)
			return
		}
		require.Equal(t, circuit.Designed, r.Outcome)
		require.LessOrEqual(t, float64(r.Load)*1.25, float64(r.Device)+1e-9, "80 % of the device")
		require.True(t, r.Hardwired || r.Receptacle.Amps >= r.Device)
		if r.Load > 40 {
			require.True(t, r.Hardwired)
		}
		feet := 0.0
		for i := range r.Candidates {
			c := &r.Candidates[i]
			require.Zero(t, c.Fails)
			require.LessOrEqual(t, c.DropPercent, 3+1e-9)
			for k := range c.Parts {
				if p := &c.Parts[k]; p.Method != 0 {
					keepsPartLimits(t, b, &job, &r, p)
				}
			}
		}
		for _, n := range r.Takeoff.Needs {
			if n.Item == circuit.CableItem || n.Item == circuit.RacewayItem {
				feet += n.Quantity
			}
		}
		want := float64(job.Route.PanelDrop + job.Route.DeviceDrop)
		for _, s := range job.Route.Segments {
			want += float64(s.Feet)
		}
		require.InDelta(t, want, feet, 1e-9, "the take-off is as long as the route")
		require.InDelta(t, want, float64(r.Takeoff.RouteFeet), 1e-9)
	})
}

func keepsPartLimits(t *rapid.T, b *nec.Book, job *circuit.Job, r *circuit.Result, p *circuit.Part) {
	column := unit.Celsius(60)
	if job.Terminals == edition.Marked75 && !p.Method.Cable() {
		column = 75
	}
	table, err := b.TableAmpacity(p.Hot, edition.Copper, column)
	require.NoError(t, err)
	require.GreaterOrEqual(t, float64(table.Value), 1.25*float64(r.Load)-1e-9, "terminals")
	base, err := b.TableAmpacity(p.Hot, edition.Copper, 90)
	require.NoError(t, err)
	heat, err := b.AmbientFactor(90, job.Ambient)
	require.NoError(t, err)
	together := 2
	if !p.Method.Cable() {
		together += job.OtherCurrentCarrying
	}
	share, err := b.AdjustmentFactor(together)
	require.NoError(t, err)
	carries := float64(base.Value) * heat.Value * share.Value
	require.GreaterOrEqual(t, carries, float64(r.Load)-1e-9, "conditions")
	if next, err := b.NextDevice(unit.Amps(min(carries, float64(table.Value)))); err == nil {
		require.LessOrEqual(t, r.Device, next.Value, "protection: at most the next size up")
	}
	ground, err := b.GroundingConductor(r.Device, edition.Copper)
	require.NoError(t, err)
	require.GreaterOrEqual(t, p.Ground.Rank(), min(ground.Value.Rank(), p.Hot.Rank()))
	require.LessOrEqual(t, p.Ground.Rank(), p.Hot.Rank(), "never larger than the hots")
	if p.Method.Cable() {
		require.False(t, p.Wet || job.Concrete, "cable stays dry, and out of concrete")
		largest, err := b.MethodSizes(p.Method, edition.Copper)
		require.NoError(t, err)
		require.LessOrEqual(t, p.Hot.Rank(), largest.Value.Largest.Rank(), "cable ends at 2 AWG")
		return
	}
	require.LessOrEqual(t, p.FillPercent, 40+1e-9)
	require.NotEmpty(t, p.Trade)
}

// byMethod is the smallest hot of a whole-route candidate of a wiring.
func byMethod(r *circuit.Result, m edition.Method, raceway edition.Raceway) (edition.Size, bool) {
	var least edition.Size
	for i := range r.Candidates {
		p := &r.Candidates[i].Parts[0]
		if !r.Candidates[i].Box && p.Method == m && p.Raceway == raceway && (least.None() || p.Hot.Rank() < least.Rank()) {
			least = p.Hot
		}
	}
	return least, !least.None()
}

// More current, more feet or more heat never ends in less copper, by wiring.
func TestMoreNeverTakesLess(t *testing.T) {
	b := book(t, 2023)
	rapid.Check(t, func(t *rapid.T) {
		job := drawJob(t)
		more := job
		switch rapid.IntRange(0, 2).Draw(t, "what grows") {
		case 0:
			more.Setting = min(80, job.Setting+unit.Amps(rapid.IntRange(1, 40).Draw(t, "amps")))
		case 1:
			more.Ambient = min(85, job.Ambient+unit.Celsius(rapid.Float64Range(0, 20).Draw(t, "degrees")))
		case 2:
			more.Route.Segments = append([]circuit.Segment(nil), job.Route.Segments...)
			more.Route.Segments[0].Feet += unit.Feet(rapid.IntRange(0, 200).Draw(t, "feet"))
			if job.Route.Segments[0].Feet == 0 {
				return // a stretch of no feet is no stretch: the ways to wire differ
			}
		}
		// A larger receptacle brings a neutral, not a smaller hot; compare hots.
		less, err := circuit.Design(b, job, nil)
		require.NoError(t, err)
		grown, err := circuit.Design(b, more, nil)
		require.NoError(t, err)
		if less.Outcome != circuit.Designed || grown.Outcome != circuit.Designed {
			return
		}
		require.GreaterOrEqual(t, grown.Device, less.Device)
		for _, w := range []struct {
			m edition.Method
			r edition.Raceway
		}{{edition.NMB, 0}, {edition.THWN2, edition.EMT}, {edition.THWN2, edition.PVC40}, {edition.THWN2, edition.PVC80}} {
			a, ok := byMethod(&less, w.m, w.r)
			z, ok2 := byMethod(&grown, w.m, w.r)
			if ok && ok2 {
				require.GreaterOrEqual(t, z.Rank(), a.Rank())
			}
		}
	})
}

// What Design builds, Allowed lets be set: the two are inverse.
func TestAllowedUndoesDesign(t *testing.T) {
	b := book(t, 2023)
	rapid.Check(t, func(t *rapid.T) {
		job := drawJob(t)
		r, err := circuit.Design(b, job, nil)
		require.NoError(t, err)
		if r.Outcome != circuit.Designed {
			return
		}
		for i := range r.Chosen.Parts {
			p := &r.Chosen.Parts[i]
			if p.Method == 0 {
				continue
			}
			together := 2
			if !p.Method.Cable() {
				together += job.OtherCurrentCarrying
			}
			a, err := circuit.Allowed(b, circuit.Existing{Device: r.Device, Receptacle: r.Receptacle.Config, Marking: job.Terminals,
				Wire: edition.Wire{Method: p.Method, Size: p.Hot, Material: edition.Copper}, Ambient: job.Ambient, CurrentCarrying: together}, nil)
			require.NoError(t, err)
			require.GreaterOrEqual(t, a.Setting, r.Load)
		}
	})
}

func TestDesignAllocatesLittle(t *testing.T) {
	b := book(t, 2023)
	garage, outdoors := plainJob(32), plainJob(40)
	outdoors.Place = edition.Outdoor
	for _, job := range []circuit.Job{garage, outdoors, carport(48)} {
		require.LessOrEqual(t, testing.AllocsPerRun(200, func() {
			if _, err := circuit.Design(b, job, nil); err != nil {
				t.Fatal(err)
			}
		}), 8.0)
	}
	feeder := detachedGarage()
	require.LessOrEqual(t, testing.AllocsPerRun(200, func() {
		if _, err := circuit.DesignFeeder(b, feeder, nil); err != nil {
			t.Fatal(err)
		}
	}), 9.0)
	require.Zero(t, testing.AllocsPerRun(200, func() {
		if _, err := circuit.Allowed(b, circuit.Existing{Device: 50, Receptacle: "14-50"}, nil); err != nil {
			t.Fatal(err)
		}
	}))
}
