package tariff

import (
	"math"
	"math/rand/v2"
	"testing"

	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// hourly is a tariff of as many prices as hours.
func hourly(prices [24]float64) *Tariff {
	t := &Tariff{Label: "hourly"}
	t.Currency, _ = unit.CurrencyOf("USD", 2)
	for h, p := range prices {
		t.Periods = append(t.Periods, Period{Tiers: []Tier{{Rate: p}}})
		for m := range 12 {
			t.Weekday[m][h], t.Weekend[m][h] = uint8(h), uint8(h)
		}
	}
	return t
}

func every(kWh float64) (out [12]Need) {
	for i := range out {
		out[i] = Need{unit.KilowattHours(kWh), unit.KilowattHours(kWh)}
	}
	return out
}

// bruteNight tries every way of spreading a need over the hours of a night in
// steps of a kilowatt-hour and returns the least cost.
func bruteNight(cost func(kWh []float64) float64, most []float64, need, step float64) float64 {
	least := math.Inf(1)
	at := make([]float64, len(most))
	var try func(i int, left float64)
	try = func(i int, left float64) {
		if i == len(most) {
			if left < 1e-9 {
				least = min(least, cost(at))
			}
			return
		}
		for x := 0.0; x <= min(most[i], left)+1e-9; x += step {
			at[i] = x
			try(i+1, left-x)
		}
		at[i] = 0
	}
	try(0, need)
	return least
}

// The cheapest hours are the cheapest there are: a year of nights against every
// way to spread each of them.
func TestScheduleIsOptimal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var prices [24]float64
		for h := range prices {
			prices[h] = float64(rapid.IntRange(5, 40).Draw(t, "cents")) / 100
		}
		home := float64(rapid.IntRange(16, 23).Draw(t, "home"))
		length := rapid.IntRange(3, 6).Draw(t, "hours")
		wall := rapid.IntRange(1, 3).Draw(t, "kW")
		need := float64(rapid.IntRange(0, wall*length).Draw(t, "kWh"))
		leave := math.Mod(home+float64(length), 24)
		c := Charging{Year: 2026, Wall: unit.Kilowatts(wall), Need: every(need), Home: Stay{home, leave, home, leave}}
		got, err := Compare(hourly(prices), c, nil)
		require.NoError(t, err)
		most := make([]float64, length)
		for i := range most {
			most[i] = float64(wall)
		}
		night := bruteNight(func(kWh []float64) float64 {
			sum := 0.0
			for i, x := range kWh {
				sum += x * prices[(int(home)+i)%24]
			}
			return sum
		}, most, need, 1)
		require.InDelta(t, 365*night*100, float64(got.Scheduled.Year.Minor), 12) // twelve roundings
		require.LessOrEqual(t, got.Scheduled.Year.Minor, got.Unmanaged.Year.Minor)
		require.InDelta(t, 365*need, float64(got.Scheduled.Energy), 1e-6)
		require.Zero(t, got.Scheduled.Unmet)
	})
}

// With charges for demand: alike nights, so by symmetry the best month repeats
// the best night; steps of half a kilowatt-hour leave a little on the table.
func TestScheduleSparesDemand(t *testing.T) {
	tariff := hourly([24]float64{})
	tariff.Periods = []Period{{Tiers: []Tier{{Rate: 0.079}}}}
	tariff.Weekday, tariff.Weekend = Schedule{}, Schedule{}
	tariff.Flat.Rates = []float64{4.2}
	tariff.Timed.Rates = []float64{0, 9.8}
	for m := range 12 {
		for h := 16; h < 20; h++ {
			tariff.Timed.Weekday[m][h], tariff.Timed.Weekend[m][h] = 1, 1
		}
	}
	for _, need := range []float64{4, 9, 13} {
		c := Charging{Year: 2026, Wall: 3, Need: every(need), Home: Stay{17, 23, 17, 23}}
		for h := range c.House {
			c.House[h] = 0.5
		}
		c.House[17], c.House[18] = 2, 2
		got, err := Compare(tariff, c, nil)
		require.NoError(t, err)
		most := []float64{3, 3, 3, 3, 3, 3}
		month := func(kWh []float64) float64 {
			peak, dear, energy := 0.0, 0.0, 0.0
			for i, x := range kWh {
				load := x + float64(c.House[17+i])
				peak, energy = max(peak, load), energy+x
				if 17+i < 20 {
					dear = max(dear, load)
				}
			}
			return 30*0.079*energy + 4.2*max(peak-2, 0) + 9.8*max(dear-2, 0)
		}
		best := bruteNight(month, most, need, 0.5)
		june := float64(got.Scheduled.ByMonth[5].Minor) / 100
		require.LessOrEqual(t, june, best+0.02, "need %v", need)
		require.InDelta(t, best, june, 0.12*best, "need %v", need)
		require.Less(t, got.Scheduled.Year.Minor, got.Unmanaged.Year.Minor)
	}
	// Nights that need every hour: departure comes before a lower peak.
	full := Charging{Year: 2026, Wall: 3, Need: every(18), Home: Stay{17, 23, 17, 23}}
	got, err := Compare(tariff, full, nil)
	require.NoError(t, err)
	require.Zero(t, got.Scheduled.Unmet)
	require.Equal(t, got.Unmanaged.Year, got.Scheduled.Year)
	require.InDelta(t, float64(got.Scheduled.Year.Minor)/(365*18), got.Scheduled.PerKWh(), 1e-9)
	require.Zero(t, Cost{}.PerKWh())
}

// No way of filling the hours at random is cheaper, on tariffs of any shape
// that price energy by the hour.
func TestNothingRandomIsCheaper(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 3))
	var prices [24]float64
	for h := range prices {
		prices[h] = 0.05 + 0.3*rng.Float64()
	}
	tariff := hourly(prices)
	c := Charging{Year: 2027, Wall: 7.2, Need: every(13.3), Home: Stay{18.25, 6.75, 1, 9.5}}
	y := yearOf(c.Year)
	best := tariff.cost(&c, y, tariff.cheapest(&c, y))
	for range 20 {
		at := make([]float64, y.hours)
		for i := range at {
			at[i] = rng.Float64()
		}
		other := tariff.cost(&c, y, tariff.fill(&c, y, at, nil))
		require.Greater(t, other.Year.Minor, best.Year.Minor)
		require.InDelta(t, float64(best.Energy), float64(other.Energy), 1e-6)
	}
}

// A night ends at departure: energy lies within the hours at the plug and below
// the power there is, and what the hours cannot take is said.
func TestDepartureIsMet(t *testing.T) {
	tariff := hourly([24]float64{3: 0.01})
	c := Charging{Year: 2026, Wall: 1.44, Need: every(20), Home: Stay{18.5, 6.25, 18.5, 6.25}}
	got, err := Compare(tariff, c, nil)
	require.NoError(t, err)
	require.InDelta(t, 365*1.44*11.75, float64(got.Scheduled.Energy), 1e-6)
	require.InDelta(t, 365*(20-1.44*11.75), float64(got.Scheduled.Unmet), 1e-6)
	require.InDelta(t, 365*1.44*0.25, float64(got.Scheduled.ByHour[6]), 1e-6)
	require.InDelta(t, 365*1.44*0.5, float64(got.Scheduled.ByHour[18]), 1e-6)
	require.Zero(t, got.Scheduled.ByHour[12])
}

func TestChargingRefusals(t *testing.T) {
	good := Charging{Year: 2026, Wall: 7.2, Need: every(10), Home: Stay{18, 7, 18, 9}}
	for field, breakIt := range map[string]func(*Charging){
		"year":                func(c *Charging) { c.Year = 0 },
		"wall_kw":             func(c *Charging) { c.Wall = 0 },
		"need[2].weekday_kwh": func(c *Charging) { c.Need[2].Weekday = -1 },
		"need[4].weekend_kwh": func(c *Charging) { c.Need[4].Weekend = unit.KilowattHours(math.NaN()) },
		"house_kw[9]":         func(c *Charging) { c.House[9] = unit.Kilowatts(math.Inf(1)) },
		"home.weekday_leave":  func(c *Charging) { c.Home.WeekdayLeave = 24.5 },
	} {
		bad := good
		breakIt(&bad)
		_, err := Compare(hourly([24]float64{}), bad, nil)
		require.ErrorContains(t, err, field)
	}
}

func BenchmarkScheduledYear(b *testing.B) {
	var prices [24]float64
	for h := range prices {
		prices[h] = 0.1 + 0.01*float64((h*7)%24)
	}
	c := Charging{Year: 2026, Wall: 7.68, Need: every(11), Home: Stay{18.5, 7, 17, 9}}
	for h := range c.House {
		c.House[h] = 0.8
	}
	byHour, byDemand := hourly(prices), hourly(prices)
	byDemand.Flat.Rates = []float64{4.2}
	for name, t := range map[string]*Tariff{"by hour": byHour, "by hour and demand": byDemand} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				_, _ = Compare(t, c, nil)
			}
		})
	}
}
