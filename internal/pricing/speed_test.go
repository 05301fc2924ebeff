package pricing_test

import (
	"testing"

	"daybreak/internal/panel"
	"daybreak/internal/pricing"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

// A band prices hundreds of draws: the short way allocates for its two
// arguments at most, whatever the work.
func TestEstimateHardlyAllocates(t *testing.T) {
	book := demo(t)
	place := demoPlace(t, book, "00010")
	for name, work := range map[string]pricing.Work{"garage": garage(), "brick": brick(), "detached": detachedGarage(), "subpanel": fullPanel(t)} {
		require.LessOrEqual(t, testing.AllocsPerRun(50, func() {
			_, _ = pricing.Estimate(book, work, place)
		}), 2.0, name)
	}
}

func BenchmarkEstimate(b *testing.B) {
	book := demo(b)
	place := demoPlace(b, book, "00010")
	for _, c := range []struct {
		name string
		work pricing.Work
	}{{"garage", garage()}, {"brick", brick()}, {"detached garage", detachedGarage()}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, _ = pricing.Estimate(book, c.work, place)
			}
		})
	}
}

func BenchmarkPrice(b *testing.B) {
	book := demo(b)
	place := demoPlace(b, book, "00010")
	for _, c := range []struct {
		name  string
		sheet *working.Sheet
	}{{"lines", nil}, {"lines and working", &working.Sheet{}}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if c.sheet != nil {
					c.sheet.Steps = c.sheet.Steps[:0]
				}
				_, _ = pricing.Price(book, brick(), place, c.sheet)
			}
		})
	}
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		demo(b)
	}
}

// A band also turns each draw's take-off into work.
func BenchmarkFromTakeoff(b *testing.B) {
	r := cableThenRaceway(b)
	site := hardwired(16)
	b.ReportAllocs()
	for b.Loop() {
		_ = pricing.FromTakeoff(&r.Takeoff, site)
	}
}

// A panel measure is turned into work once a draw at most.
func BenchmarkFromMeasure(b *testing.B) {
	m, h := panel.Measure{Kind: panel.Subpanel}, pricing.House{}
	b.ReportAllocs()
	for b.Loop() {
		_ = pricing.FromMeasure(&m, &h)
	}
}
