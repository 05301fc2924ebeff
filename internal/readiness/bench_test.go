package readiness

import (
	"math"
	"testing"
	"time"

	"daybreak/internal/charging"
)

// One option of a prepared driver, one option and its driver, and a driver
// alone; R4 is the published case with season, all days alike.
func BenchmarkOptionYear(b *testing.B) {
	commuter := publishedInputs()["R4"]
	commuter.Driver.Weekday = charging.Day{Fixed: 25, Mean: 10, Sigma: 0.9}
	for name, in := range map[string]Input{"R4": publishedInputs()["R4"], "commuter": commuter} {
		m, err := Prepare(in.Car, in.Driver, in.Year)
		if err != nil {
			b.Fatal(err)
		}
		level2 := in.Option
		level2.Wall = 7.68
		b.Run(name+"/level1", func(b *testing.B) {
			for b.Loop() {
				_, _ = m.Assess(in.Option, nil)
			}
		})
		b.Run(name+"/level2", func(b *testing.B) {
			for b.Loop() {
				_, _ = m.Assess(level2, nil)
			}
		})
		b.Run(name+"/prepare", func(b *testing.B) {
			for b.Loop() {
				_, _ = Prepare(in.Car, in.Driver, in.Year)
			}
		})
		b.Run(name+"/whole", func(b *testing.B) {
			for b.Loop() {
				_, _ = Assess(in, nil)
			}
		})
	}
}

// How many times faster than drawing days until the standard error is as small
// as the chain's error, 0.1 % of R4. Years needed are (sd ÷ error)².
func BenchmarkAgainstMonteCarlo(b *testing.B) {
	in := publishedInputs()["R4"]
	m, err := Prepare(in.Car, in.Driver, in.Year)
	if err != nil {
		b.Fatal(err)
	}
	took := func(times int, work func()) float64 {
		begin := time.Now()
		for range times {
			work()
		}
		return float64(time.Since(begin)) / float64(times)
	}
	chain := took(200, func() { _, _ = Assess(in, nil) })
	perYear := took(20, func() { simulate(in, 9, 2) }) / 21 // a batch to settle and two to count
	r, err := m.Assess(in.Option, nil)
	if err != nil {
		b.Fatal(err)
	}
	years := math.Pow(r.Spread.SD/(0.001*float64(r.Short)), 2)
	for b.Loop() {
		_, _ = Assess(in, nil)
	}
	b.ReportMetric(years*perYear/chain, "times")
	b.ReportMetric(chain/1e6, "ms/option-year")
	b.ReportMetric(years, "years-drawn")
}
