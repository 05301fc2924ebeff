package readiness

import (
	"math"
	"testing"

	"daybreak/internal/charging"
	"daybreak/internal/tools/vectortest"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

type published struct {
	Season struct {
		Values [12]float64 `json:"values"`
	} `json:"season_multiplier_by_month"`
	Cases []struct {
		ID      string    `json:"id"`
		Exact   float64   `json:"exact"`
		ByMonth []float64 `json:"exact_by_month"`
		Theta   float64   `json:"theta"`
		MC      struct {
			Short   float64 `json:"short_days_per_year"`
			SE      float64 `json:"se"`
			Missing float64 `json:"shortfall_kwh_per_year"`
		} `json:"mc"`
		Spread struct {
			SD  float64 `json:"sd"`
			P10 int     `json:"p10"`
			P90 int     `json:"p90"`
		} `json:"one_year_spread"`
	} `json:"cases"`
}

func readPublished(t testing.TB) published {
	var p published
	if tt, ok := t.(*testing.T); ok {
		vectortest.Read(tt, "reliability.json", &p)
	}
	return p
}

// steady is a year of one multiplier and a loss that is a share alone.
func steady(multipliers [12]float64, share float64) Year {
	var y Year
	for i, m := range multipliers {
		y[i] = Month{Multiplier: m, Losses: charging.Losses{Share: share}}
	}
	return y
}

var (
	even = [12]float64{1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1}
	// The season of Minneapolis-St. Paul as reliability.json prints it.
	north = [12]float64{1.49867, 1.42933, 1.27111, 1.12222, 1.02944, 0.98, 0.98, 0.98, 1.01333, 1.10978, 1.26111, 1.444}
	// Mean 37.3599 mi gives the logarithmic mean 3.3006 of the published cases.
	yearly = charging.Day{Mean: 37.3599, Sigma: 0.8, Idle: 0.12}
)

// Inputs of the cases that a household can have, in its own terms: 30 kWh/100 mi
// is 0.27 kWh a mile in the battery; 1.44 kW at 0.83 for 10 h is 11.952 kWh.
func publishedInputs() map[string]Input {
	level1 := Driver{Weekday: yearly, Weekend: yearly, Window: Window{10, 10}, PlugIn: 0.95, Below: 1}
	always := level1
	always.PlugIn = 1
	sedan := Car{Usable: 42, Limit: 1, Consumption: 30}
	return map[string]Input{
		"R1": {sedan, always, steady(even, 1), Option{Wall: 50}},
		"R3": {sedan, level1, steady(even, 0.83), Option{Wall: 1.44}},
		"R4": {sedan, level1, steady(north, 0.83), Option{Wall: 1.44}},
		"R5": {
			Car{Usable: 28, Limit: 1, Consumption: 26 / batteryOfWall},
			Driver{
				Weekday: charging.Day{Fixed: 40, Mean: 8, Sigma: 0.9}, Weekend: charging.Day{Mean: 30, Sigma: 1, Idle: 0.25},
				Window: Window{8, 8}, PlugIn: 0.6, Below: 1,
			},
			steady(north, 0.88), Option{Wall: 3.328},
		},
	}
}

// reliability.json: R1 by its closed form, R3 to R5 by the 280-cell solution
// extrapolated, each within 0.1 %; and each within three standard errors of the
// simulation printed there.
func TestVectorReliability(t *testing.T) {
	inputs := publishedInputs()
	for _, c := range readPublished(t).Cases {
		in, ours := inputs[c.ID]
		if !ours {
			require.Equal(t, "R2", c.ID, "a case that no test reads")
			continue
		}
		t.Run(c.ID, func(t *testing.T) {
			r, err := Assess(in, nil)
			require.NoError(t, err)
			require.InEpsilon(t, c.Exact, float64(r.Short), 0.001)
			require.InDelta(t, c.MC.Short, float64(r.Short), 3*c.MC.SE)
			require.InEpsilon(t, c.MC.Missing, float64(r.Public), 0.005)
			require.InEpsilon(t, c.Spread.SD, r.Spread.SD, 0.015)
			require.InDelta(t, c.Spread.P10, r.Spread.Low, 1)
			require.InDelta(t, c.Spread.P90, r.Spread.High, 1)
			for i, want := range c.ByMonth {
				require.InEpsilon(t, want, float64(r.ByMonth[i].Short), 0.005, "month %d", i+1)
			}
		})
	}
}

// exponential is the need of R2: nothing on some days, else exponential.
type exponential struct{ idle, mean float64 }

func (e exponential) average() float64 { return (1 - e.idle) * e.mean }
func (e exponential) at(x float64) (share, integral float64) {
	return 1 - (1-e.idle)*math.Exp(-x/e.mean), x - (1-e.idle)*e.mean*(1-math.Exp(-x/e.mean))
}

// R2: theta solves ln(1-q + q/(1-a·theta)) = theta·G, and days whose morning
// deficit and need pass u are [(1-q)(1-a·theta)+q]·exp(-theta·u). The chain on
// a room of twelve times u, hardly cut off, meets it; the chain cut off at u
// stays below it.
func TestVectorReliabilityClosedForm(t *testing.T) {
	p := readPublished(t)
	want := p.Cases[1]
	require.Equal(t, "R2", want.ID)
	const a, q, gain, u = 9.0, 0.88, 12.0, 42.0
	low, high := 1e-6, 1/a-1e-9
	for range 200 {
		theta := (low + high) / 2
		if math.Log(1-q+q/(1-a*theta)) < theta*gain {
			low = theta
		} else {
			high = theta
		}
	}
	closed := 365 * ((1-q)*(1-a*low) + q) * math.Exp(-low*u)
	require.InDelta(t, want.Theta, low, 1e-8)
	require.InDelta(t, want.Exact, closed, 1e-4)

	build := func(room float64, n int) *grid {
		g := &grid{n: n, h: room / float64(n), alike: true, kernels: []kernel{kernelOf(exponential{1 - q, a}, room, n)}}
		for range n + 1 {
			g.plugged = append(g.plugged, 1)
		}
		return g
	}
	var every nights
	for i := range every {
		every[i].weeknight, every[i].weekend = gain, gain
	}
	wide := build(12*u, 960)
	chance := make([]float64, wide.n+1)
	r := wide.begin(&every)
	for range 400 {
		r.period(0)
	}
	copy(chance, r.chance)
	open := 0.0
	for i, c := range chance {
		share, _ := exponential{1 - q, a}.at(u - float64(i)*wide.h)
		if float64(i)*wide.h > u {
			share = 0
		}
		open += 365 * c * (1 - share)
	}
	require.InEpsilon(t, closed, open, 0.001)

	cut := 0.0
	for _, month := range build(u, 48).year(&every, 0) {
		cut += month[shortDays]
	}
	require.Less(t, cut, closed)
}

func TestSeasonOfTheVectorsIsOurs(t *testing.T) {
	p := readPublished(t)
	all, err := charging.Load(charging.Embedded())
	require.NoError(t, err)
	station, err := all.Climates.Station("Minneapolis-St. Paul")
	require.NoError(t, err)
	y, err := YearOf(station.Mean, all.Season, charging.Mid)
	require.NoError(t, err)
	for i, want := range p.Season.Values {
		require.InDelta(t, want, y[i].Multiplier, 1e-5)
		require.Equal(t, north[i], want)
	}
	require.Equal(t, unit.Kilowatts(0.30), y[0].Losses.Overhead)
}
