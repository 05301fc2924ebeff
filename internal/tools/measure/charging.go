package main

import (
	"io/fs"
	"math"
	"math/rand/v2"
	"testing"

	"daybreak/internal/charging"
	"daybreak/internal/readiness"
	"daybreak/internal/shop/alderbay"
	"daybreak/internal/tariff"
)

// chainError is what the chain errs by, and so what drawing must reach.
const chainError = 0.001

// years measures a year of one way of charging: days short, against drawing
// days until the standard error is as small, and cost in the cheapest hours.
func years() ([]row, error) {
	in, err := coldCommute()
	if err != nil {
		return nil, err
	}
	model, err := readiness.Prepare(in.Car, in.Driver, in.Year)
	if err != nil {
		return nil, err
	}
	r, err := model.Assess(in.Option, nil)
	if err != nil {
		return nil, err
	}
	one := testing.Benchmark(func(b *testing.B) {
		for b.Loop() {
			_, _ = model.Assess(in.Option, nil)
		}
	})
	whole := testing.Benchmark(func(b *testing.B) {
		for b.Loop() {
			_, _ = readiness.Assess(in, nil)
		}
	})
	rng, deficit, short := rand.New(rand.NewPCG(1, 2)), 0.0, 0
	drawn := testing.Benchmark(func(b *testing.B) {
		for b.Loop() {
			deficit, short = drawYear(&in, rng, deficit, short)
		}
	})
	needed := math.Pow(r.Spread.SD/(chainError*float64(r.Short)), 2)
	faster := needed * float64(drawn.NsPerOp()) / float64(whole.NsPerOp())

	demo, err := fs.Sub(alderbay.Files(), "tariffs")
	if err != nil {
		return nil, err
	}
	tariffs, err := tariff.Load(demo)
	if err != nil {
		return nil, err
	}
	year := tariff.Charging{Year: 2026, Wall: 7.68, Home: tariff.Stay{WeekdayHome: 18, WeekdayLeave: 7, WeekendHome: 18, WeekendLeave: 9}}
	for i := range year.Need {
		year.Need[i] = tariff.Need{Weekday: 11, Weekend: 9}
	}
	cost := testing.Benchmark(func(b *testing.B) {
		for b.Loop() {
			_, _ = tariff.Compare(&tariffs[1], year, nil)
		}
	})
	return []row{
		timed("days short in a year, one option of a driver", one, 1000),
		timed("days short in a year, driver and option", whole, 0),
		{what: "days short in a year, to 0.1 %", against: "drawing days", value: faster, unit: ratio, gate: 500, gated: true},
		timed("a year of charging at once and in the cheapest hours", cost, 5000),
	}, nil
}

// timed is a row in microseconds; it is gated when it has a most.
func timed(what string, took testing.BenchmarkResult, most float64) row {
	return row{what: what, against: "–", value: float64(took.NsPerOp()) / 1000, unit: "µs", gate: most, gated: most > 0}
}

// coldCommute is 33 miles a day at Level 1 in a cold place: days short all the
// winter through.
func coldCommute() (readiness.Input, error) {
	all, err := charging.Load(charging.Embedded())
	if err != nil {
		return readiness.Input{}, err
	}
	place, err := all.Climates.Station("Minneapolis-St. Paul")
	if err != nil {
		return readiness.Input{}, err
	}
	year, err := readiness.YearOf(place.Mean, all.Season, charging.Mid)
	if err != nil {
		return readiness.Input{}, err
	}
	driver, err := readiness.EveryDay(33, 10)
	return readiness.Input{
		Car:    readiness.Car{Usable: 56, Limit: 0.9, Reserve: 0.15, Consumption: 30},
		Driver: driver, Year: year, Option: readiness.Option{Wall: 1.44},
	}, err
}

// drawYear walks a year of drawn days from a deficit.
func drawYear(in *readiness.Input, rng *rand.Rand, deficit float64, short int) (float64, int) {
	d := in.Driver.Weekday
	mu := math.Log(float64(d.Mean)) - d.Sigma*d.Sigma/2
	room := float64(in.Car.Usable) * (in.Car.Limit - in.Car.Reserve)
	for m, days := range [12]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31} {
		month := in.Year[m]
		perMile := float64(in.Car.Consumption) / 100 * 0.9 * month.Multiplier
		gain := month.Losses.Share * float64(in.Option.Wall-month.Losses.Overhead) * float64(in.Driver.Window.Weeknight)
		for range days {
			if rng.Float64() >= d.Idle {
				deficit += perMile * math.Exp(mu+d.Sigma*rng.NormFloat64())
			}
			if deficit > room {
				deficit, short = room, short+1
			}
			if rng.Float64() < in.Driver.PlugIn {
				deficit = max(deficit-gain, 0)
			}
		}
	}
	return deficit, short
}
