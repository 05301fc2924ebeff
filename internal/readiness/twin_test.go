package readiness

import (
	"math"
	"math/rand/v2"
	"testing"

	"daybreak/internal/charging"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

// counts is what a simulated year comes to.
type counts struct{ short, missing, gained, other, still, morning float64 }

// simulate walks years day by day with drawn distances: the slow plain twin of
// the chain. It returns the mean year and the standard error and deviation of
// its short days, from batches of seven years, in which the weeks run through
// the calendar.
func simulate(in Input, seed uint64, batches int) (mean counts, standardError, deviation float64) {
	rng := rand.New(rand.NewPCG(seed, 1))
	room, x, k := in.Car.room(), 0.0, 0
	var batch, year []float64
	for b := range batches + 1 {
		inBatch := 0.0
		for range 7 {
			inYear := 0.0
			for month, days := range daysOf {
				for range days {
					c := &counts{}
					x = simulateDay(in, rng, room, x, k%7, month, c)
					k++
					inYear += c.short
					if b > 0 {
						mean.short += c.short
						mean.missing += c.missing
						mean.gained += c.gained
						mean.other += c.other
						mean.still += c.still
						mean.morning += c.morning
					}
				}
			}
			if b > 0 {
				year = append(year, inYear)
			}
			inBatch += inYear / 7
		}
		if b > 0 {
			batch = append(batch, inBatch)
		}
	}
	years := float64(7 * batches)
	for _, p := range []*float64{&mean.short, &mean.missing, &mean.gained, &mean.other, &mean.still} {
		*p /= years
	}
	mean.morning /= years * 365
	return mean, spreadAround(batch, mean.short) / math.Sqrt(float64(batches)), spreadAround(year, mean.short)
}

func spreadAround(values []float64, mean float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += (v - mean) * (v - mean)
	}
	return math.Sqrt(sum / float64(len(values)-1))
}

func simulateDay(in Input, rng *rand.Rand, room, x float64, weekday, month int, c *counts) float64 {
	d, m := in.Driver, in.Year[month]
	day := d.Weekday
	if weekday > 4 {
		day = d.Weekend
	}
	c.morning = x
	miles := 0.0
	if rng.Float64() >= day.Idle {
		miles = float64(day.Fixed)
		if day.Mean > 0 {
			miles += math.Exp(math.Log(float64(day.Mean)) - day.Sigma*day.Sigma/2 + day.Sigma*rng.NormFloat64())
		}
	}
	x += miles * in.Car.perMile() * m.Multiplier
	if x > room {
		c.short, c.missing, x = 1, x-room, room
	}
	if weekday <= 4 && rng.Float64() < d.Other.Share {
		c.other = min(x, float64(d.Other.Energy))
		x -= c.other
	}
	if rng.Float64() < in.pluggedAt(x) {
		window := d.Window.Weeknight
		if weekday == friday || weekday == saturday {
			window = d.Window.Weekend
		}
		gain := m.batteryKW(in.Option.Wall) * float64(window)
		c.gained = min(x, gain)
		if x > gain {
			c.still = 1
		}
		x -= c.gained
	}
	return x
}

func twins() map[string]Input {
	weekly := Driver{
		Weekday: charging.Day{Fixed: 25, Mean: 10, Sigma: 0.9}, Weekend: charging.Day{Mean: 45, Sigma: 1, Idle: 0.25},
		Window: Window{Weeknight: 9, Weekend: 14}, PlugIn: 0.95, Below: 1,
	}
	away, work, lazy := weekly, weekly, weekly
	away.Away = 0.1
	work.Other = Elsewhere{Share: 0.4, Energy: 8}
	lazy.Below = 0.6
	same := weekly
	same.Weekday = charging.Day{Fixed: 48, Sigma: 0.9}
	car := Car{Usable: 60, Limit: 0.9, Reserve: 0.15, Consumption: 30}
	cold := steady(north, 0.93)
	for i := range cold {
		cold[i].Losses.Overhead = 0.15
	}
	return map[string]Input{
		"level 1, week":       {car, weekly, cold, Option{Wall: 1.44}},
		"nights away":         {car, away, cold, Option{Wall: 3.84}},
		"charging at work":    {car, work, cold, Option{Wall: 1.44}},
		"plugs in when low":   {car, lazy, cold, Option{Wall: 7.2}},
		"overload":            {Car{Usable: 130, Limit: 0.9, Reserve: 0.15, Consumption: 48}, weekly, cold, Option{Wall: 1.44}},
		"no charging at home": {car, weekly, cold, Option{Wall: 0}},
		"always as far":       {car, same, cold, Option{Wall: 1.92}},
		"small battery":       {Car{Usable: 10.9, Limit: 1, Reserve: 0.1, Consumption: 27}, weekly, cold, Option{Wall: 1.44}},
	}
}

// The chain meets its simulated twin within four standard errors; what is
// counted besides within one part in a hundred.
func TestChainMeetsItsMonteCarloTwin(t *testing.T) {
	seed := uint64(11)
	for name, in := range twins() {
		seed++
		t.Run(name, func(t *testing.T) {
			r, err := Assess(in, nil)
			require.NoError(t, err)
			got, se, sd := simulate(in, seed, 150)
			t.Logf("chain %.3f simulated %.3f ± %.3f; spread %.2f and %.2f", r.Short, got.short, se, r.Spread.SD, sd)
			require.InDelta(t, got.short, float64(r.Short), 4*se+0.001*got.short)
			require.InDelta(t, sd, r.Spread.SD, 0.12*sd+0.1)
			require.InDelta(t, got.missing, float64(r.Public), 0.05*got.missing+5)
			require.InDelta(t, got.gained, float64(r.Home), 0.01*got.gained+1)
			require.InDelta(t, got.other, float64(r.Elsewhere), 0.02*got.other+1)
			require.InDelta(t, got.still, float64(r.Still), 0.04*got.still+1)
			require.InDelta(t, in.Car.Limit-got.morning/float64(in.Car.Usable), r.Morning, 0.005)
		})
	}
}

// some is a household drawn from what the room is meant for.
func some(rng *rand.Rand) Input {
	average := unit.Miles(8 + 60*rng.Float64())
	d, _ := charging.AverageDay(average)
	in := Input{
		Car: Car{
			Usable: unit.KilowattHours(10 + 130*rng.Float64()), Limit: 0.8 + 0.2*rng.Float64(),
			Reserve: 0.2 * rng.Float64(), Consumption: charging.Consumption(25 + 24*rng.Float64()),
		},
		Driver: Driver{Weekday: d, Weekend: d, Window: Window{8, 8}, PlugIn: 0.6 + 0.4*rng.Float64(), Below: 1},
		Option: Option{Wall: []unit.Kilowatts{1.44, 1.92, 3.84, 7.68, 11.52}[rng.IntN(5)]},
	}
	if rng.IntN(2) == 0 {
		in.Driver.Weekday, _ = charging.Weekday(average)
		in.Driver.Weekend, _ = charging.Weekend(average)
		in.Driver.Window.Weekend = 13
	}
	swing := 0.3 * rng.Float64()
	for i := range in.Year {
		in.Year[i] = Month{1.15 + swing*math.Cos(math.Pi*float64(i)/6), charging.Losses{Share: 0.93, Overhead: 0.15}}
	}
	return in
}

// Halving the cells changes less than 0.1 %, or two thousandths of a day where
// days are rare; less than 1 % where a commute is alike every day.
func TestHalvingTheGridChangesNothing(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	for range 80 {
		in := some(rng)
		most := 0.001
		if in.Driver.Weekday.Fixed > 0 {
			most = 0.01
		}
		require.LessOrEqual(t, halved(t, in), most, "%+v", in)
	}
	for name, in := range publishedInputs() {
		require.Less(t, halved(t, in), 0.001, name)
	}
}

// halved is the relative change from cells of half the size, but for two
// thousandths of a day.
func halved(t *testing.T, in Input) float64 {
	own, err := Assess(in, nil)
	require.NoError(t, err)
	m, err := prepare(in, 2*cellsFor(in))
	require.NoError(t, err)
	half, err := m.Assess(in.Option, nil)
	require.NoError(t, err)
	return max(math.Abs(float64(half.Short-own.Short))-0.002, 0) / float64(half.Short)
}
