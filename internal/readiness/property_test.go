package readiness

import (
	"math"
	"math/rand/v2"
	"testing"

	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func drawn(t *rapid.T) Input {
	return some(rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "household"), 3)))
}

// atMost allows for the error of the arithmetic, which is larger where a
// commute is alike every day.
func atMost(t *rapid.T, what string, in Input, less, more Days) {
	error := 0.001
	if in.Driver.Weekday.Fixed > 0 {
		error = 0.01
	}
	if float64(less) > float64(more)*(1+2*error)+0.004 {
		t.Fatalf("%s: %v short days became %v", what, more, less)
	}
}

// More power, a longer window, a larger battery or a milder climate never leave
// more days short; nor does plugging in more often.
func TestMoreNeverLeavesShorter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawn(t)
		before, err := Assess(in, nil)
		require.NoError(t, err)
		by := rapid.Float64Range(1, 1.5).Draw(t, "by")
		for what, change := range map[string]func(*Input){
			"more power":      func(in *Input) { in.Option.Wall *= unit.Kilowatts(by) },
			"longer window":   func(in *Input) { in.Driver.Window.Weeknight *= unit.Hours(by) },
			"larger battery":  func(in *Input) { in.Car.Usable *= unit.KilowattHours(by) },
			"smaller reserve": func(in *Input) { in.Car.Reserve /= by },
			"plugged in more": func(in *Input) { in.Driver.PlugIn = min(in.Driver.PlugIn*by, 1) },
			"milder climate": func(in *Input) {
				for i := range in.Year {
					in.Year[i].Multiplier /= by
				}
			},
		} {
			more := in
			change(&more)
			after, err := Assess(more, nil)
			require.NoError(t, err)
			atMost(t, what, in, after.Short, before.Short)
			atMost(t, what+", no option cures", in, after.Uncurable, before.Uncurable)
		}
	})
}

// Energy is conserved: what days need is what nights, work and the road give.
func TestEnergyBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawn(t)
		in.Driver.Away = rapid.Float64Range(0, 0.3).Draw(t, "away")
		in.Driver.Other = Elsewhere{Share: rapid.Float64Range(0, 1).Draw(t, "share"), Energy: 6}
		m, err := Prepare(in.Car, in.Driver, in.Year)
		require.NoError(t, err)
		r, err := m.Assess(in.Option, nil)
		require.NoError(t, err)
		need := 0.0
		for i, days := range daysOf {
			k := m.fine.kernels
			need += float64(days) * (5*k[m.fine.of[i][0]].average + 2*k[m.fine.of[i][1]].average) / 7
		}
		require.InEpsilon(t, need, float64(r.Public+r.Home+r.Elsewhere), 0.002)
		require.InDelta(t, float64(r.Short), float64(r.Caused+r.Habit+r.Uncurable), 1e-9)
		require.GreaterOrEqual(t, r.Caused, Days(0))
		require.GreaterOrEqual(t, r.Habit, Days(0))
		require.LessOrEqual(t, float64(r.Short), 365.0)
		require.InDelta(t, 0.5, r.Morning, 0.5)
	})
}

// Weights keep total and mean of a day exactly, as far as the room reaches.
func TestWeightsKeepTotalAndMean(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawn(t)
		d := needOf(in.Driver.Weekday, in.Car.perMile())
		room := float64(rapid.IntRange(5, 120).Draw(t, "room"))
		k := kernelOf(d, room, 48)
		start, evening := make([]float64, 49), make([]float64, 49)
		start[0] = 1
		k.drive(start, evening)
		total, mean := 0.0, 0.0
		for i, c := range evening {
			require.GreaterOrEqual(t, c, -1e-12)
			total += c
			mean += c * float64(i) * room / 48
		}
		require.InDelta(t, 1, total, 1e-9)
		require.InDelta(t, d.average()-k.missing[0], mean, 1e-6*room)
	})
}

// The four-at-a-time sum is the plain one.
func TestDriveIsThePlainSum(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 5))
	k := kernelOf(needOf(yearly, 0.27), 42, 24)
	in, out := make([]float64, 25), make([]float64, 25)
	for i := range in {
		in[i] = rng.Float64()
	}
	k.drive(in, out)
	for j := range 24 {
		sum := 0.0
		for i := 0; i <= j; i++ {
			sum += in[i] * k.weights[24-(j-i)]
		}
		require.InDelta(t, sum, out[j], 1e-12)
	}
}

// A quantile is the least count that a share of years does not exceed.
func TestSpreadShapes(t *testing.T) {
	for _, c := range []struct{ mean, variance float64 }{{4.66, 4.58}, {15.4, 33.5}, {33.5, 76.3}, {0.2, 0.2}, {300, 40}, {360, 4}} {
		s := spreadOf(c.mean, c.variance)
		require.InDelta(t, math.Sqrt(c.variance), s.SD, 1e-9)
		require.LessOrEqual(t, float64(s.Low), c.mean)
		require.GreaterOrEqual(t, float64(s.High)+1, c.mean)
		require.InDelta(t, c.mean-1.28*s.SD, float64(s.Low), 1.5)
		require.InDelta(t, c.mean+1.28*s.SD, float64(s.High), 1.5)
	}
	require.Equal(t, Spread{}, spreadOf(0, 0))
}
