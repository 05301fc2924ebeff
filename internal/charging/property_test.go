package charging_test

import (
	"math"
	"testing"

	"daybreak/internal/charging"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func drawSession(t *rapid.T) charging.Session {
	outdoor := unit.Fahrenheit(rapid.Float64Range(-40, 110).Draw(t, "outdoor"))
	s := charging.Session{
		Usable: unit.KilowattHours(rapid.Float64Range(5, 250).Draw(t, "usable")),
		From:   float64(rapid.IntRange(0, 1000).Draw(t, "from")) / 1000,
		Wall:   unit.Kilowatts(rapid.Float64Range(1.2, 22).Draw(t, "wall")),
		Losses: charging.LossesAt(outdoor),
	}
	s.To = max(s.From, float64(rapid.IntRange(0, 1000).Draw(t, "to"))/1000)
	if rapid.Bool().Draw(t, "tapers") {
		s.Taper = charging.UsualTaper()
	}
	if rapid.Bool().Draw(t, "stood in the cold") {
		heat, err := charging.ColdStartHeat(s.Usable, outdoor)
		require.NoError(t, err)
		s.Heating = heat
	}
	return s
}

// The closed form against ten-thousand small steps, which are slow and plain.
func TestSessionAgreesWithSmallSteps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSession(t)
		c, err := charging.ChargeTime(s, nil)
		require.NoError(t, err)
		want := plainHours(s)
		require.InDelta(t, want, float64(c.Hours), 0.002+want*0.002)
	})
}

func plainHours(s charging.Session) float64 {
	accepts := func(soc float64) float64 {
		switch {
		case s.Taper == (charging.Taper{}) || soc < 0.925:
			return math.Inf(1)
		case soc < 0.97:
			return 19.2 + (7.2-19.2)*(soc-0.925)/0.045
		}
		return 7.2 + (2.16-7.2)*(soc-0.97)/0.03
	}
	if s.To == s.From {
		return 0
	}
	heat, soc, hours := float64(s.Heating), s.From, 0.0
	overhead := float64(s.Losses.Overhead)
	whole := (s.To - s.From) * float64(s.Usable) / float64(s.Wall) / 10000
	for soc < s.To {
		wall, step := float64(s.Wall), whole
		if heat > 0 {
			heater := min(2, wall-overhead)
			step = min(step, heat/heater)
			heat = max(heat-heater*step, 0)
			wall -= heater
		}
		soc += max(s.Losses.Share*(min(wall, accepts(soc))-overhead), 0) * step / float64(s.Usable)
		hours += step
	}
	return hours
}

func TestMorePowerNeverTakesLonger(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSession(t)
		slow, err := charging.ChargeTime(s, nil)
		require.NoError(t, err)
		s.Wall += unit.Kilowatts(rapid.Float64Range(0, 10).Draw(t, "more"))
		fast, err := charging.ChargeTime(s, nil)
		require.NoError(t, err)
		require.LessOrEqual(t, float64(fast.Hours), float64(slow.Hours)*(1+1e-9)+1e-9)
	})
}

// Energy balance: what leaves the wall is battery, losses and heat.
func TestWallEnergyIsBatteryLossesAndHeat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSession(t)
		c, err := charging.ChargeTime(s, nil)
		require.NoError(t, err)
		require.GreaterOrEqual(t, float64(c.Wall), float64(c.Battery))
		require.LessOrEqual(t, float64(c.Wall), float64(s.Wall)*float64(c.Hours)*(1+1e-6)+1e-6)
		if s.Taper == (charging.Taper{}) {
			require.InDelta(t, float64(s.Wall)*float64(c.Hours), float64(c.Wall), 1e-6*(1+float64(c.Wall)))
		}
	})
}

func TestCurveEndsAtTheTarget(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSession(t)
		c, err := charging.ChargeTime(s, nil)
		require.NoError(t, err)
		require.InDelta(t, s.From, c.After(0), 1e-9)
		require.InDelta(t, s.To, c.After(c.Hours), 1e-6)
		a := rapid.Float64Range(0, 1).Draw(t, "a")
		b := rapid.Float64Range(a, 1).Draw(t, "b")
		require.LessOrEqual(t, c.After(c.Hours*unit.Hours(a)), c.After(c.Hours*unit.Hours(b))+1e-9)
	})
}

func TestPowerIsTheLeastAndNamesIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		caps := [5]charging.Cap[unit.Amps]{}
		least := math.Inf(1)
		volts := rapid.SampledFrom([]float64{120, 208, 240}).Draw(t, "volts")
		for i := range caps {
			switch rapid.IntRange(0, 2).Draw(t, "state") {
			case 0:
				caps[i] = charging.Unknown[unit.Amps]()
			case 1:
				caps[i] = charging.None[unit.Amps]()
			default:
				a := rapid.Float64Range(6, 100).Draw(t, "amps")
				caps[i] = charging.At(unit.Amps(a))
				if i < 2 {
					a *= 0.8
				}
				least = min(least, a*volts/1000)
			}
		}
		kw := rapid.Float64Range(1, 20).Draw(t, "onboard")
		least = min(least, kw, kw/240*volts)
		r, err := charging.Power(charging.Limits{
			Supply: unit.Volts(volts), Breaker: caps[0], Receptacle: caps[1], Setting: caps[2], Cable: caps[3], Managed: caps[4],
			OnboardKW: charging.At(unit.Kilowatts(kw)),
		}, nil)
		require.NoError(t, err)
		require.InDelta(t, least, float64(r.Wall), 1e-6)
		require.NotZero(t, r.Binding)
		for i, c := range caps {
			require.Equal(t, c == charging.Unknown[unit.Amps](), r.Open.Has(charging.Limit(i+1)))
		}
		require.False(t, r.Open.Has(r.Binding))
	})
}

// More kilowatts, a longer window, a milder climate never turn enough into not enough.
func TestEnoughIsMonotone(t *testing.T) {
	all := tables(t)
	rapid.Check(t, func(t *rapid.T) {
		day, err := charging.Weekday(unit.Miles(rapid.Float64Range(0, 200).Draw(t, "miles")))
		require.NoError(t, err)
		var mean charging.Months
		for i := range mean {
			mean[i] = unit.Fahrenheit(rapid.Float64Range(-20, 68).Draw(t, "mean"))
		}
		w := charging.WorstWeekday{Day: day, Consumption: 30, Usable: 75, Mean: mean,
			Window: unit.Hours(rapid.Float64Range(1, 20).Draw(t, "window"))}
		r := charging.Rate{Wall: unit.Kilowatts(rapid.Float64Range(1, 11).Draw(t, "kw")), Level: charging.Level2}
		hours := func() float64 {
			fill, need, err := charging.RefillsWorstWeekday(r, w, all.Season, nil)
			require.NoError(t, err)
			require.LessOrEqual(t, float64(need.Energy), 75*1.12+1e-9)
			require.Equal(t, fill.Fits, float64(r.Wall) >= float64(need.Level2)*(1-1e-9))
			return float64(fill.Hours) / float64(w.Window)
		}
		before := hours()
		switch rapid.IntRange(0, 2).Draw(t, "what") {
		case 0:
			r.Wall++
		case 1:
			w.Window++
		case 2:
			for i := range w.Mean {
				w.Mean[i] = min(w.Mean[i]+5, 68)
			}
		}
		require.LessOrEqual(t, hours(), before*(1+1e-9))
	})
}

func TestDayQuantileInvertsItsShare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := charging.Day{
			Fixed: unit.Miles(rapid.Float64Range(0, 60).Draw(t, "fixed")), Mean: unit.Miles(rapid.Float64Range(1, 60).Draw(t, "mean")),
			Sigma: rapid.Float64Range(0.3, 1.2).Draw(t, "sigma"), Idle: rapid.Float64Range(0, 0.5).Draw(t, "idle"),
		}
		p := rapid.Float64Range(d.Idle+0.01, 0.995).Draw(t, "p")
		miles, err := d.Quantile(p)
		require.NoError(t, err)
		back, err := d.ShareWithin(miles)
		require.NoError(t, err)
		require.InDelta(t, p, back, 1e-6)
	})
}

// Worked example: 12 000 miles a year, 12 % of days unused, sigma 0.8
// (computed from the lognormal's closed form).
func TestAverageDayAgainstItsClosedForm(t *testing.T) {
	d, err := charging.AverageDay(12000.0 / 365)
	require.NoError(t, err)
	require.InDelta(t, 37.3599, float64(d.Mean), 1e-3)
	for miles, exceeded := range map[unit.Miles]float64{30: 0.44997, 50: 0.22235, 100: 0.05148, 200: 0.00626} {
		share, err := d.ShareWithin(miles)
		require.NoError(t, err)
		require.InDelta(t, exceeded*0.88, 1-share, 1e-5)
	}
	require.InDelta(t, 12000.0/365, float64(d.Average()), 1e-9)
}

func TestSharedCircuitGivesEachItsEnergyWithinTheLimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		limit := rapid.Float64Range(1.5, 20).Draw(t, "limit")
		var cars []charging.Sharer
		sum, longest := 0.0, 0.0
		for range rapid.IntRange(1, 8).Draw(t, "cars") {
			need, most := rapid.Float64Range(0, 80).Draw(t, "need"), rapid.Float64Range(1, 20).Draw(t, "most")
			cars = append(cars, charging.Sharer{Need: unit.KilowattHours(need), Most: unit.Kilowatts(most)})
			sum += need
			longest = max(longest, need/min(most, limit))
		}
		done, err := charging.Share(unit.Kilowatts(limit), cars, nil)
		require.NoError(t, err)
		last := 0.0
		for i, h := range done {
			require.GreaterOrEqual(t, float64(h), float64(cars[i].Need)/min(float64(cars[i].Most), limit)*(1-1e-6))
			last = max(last, float64(h))
		}
		require.GreaterOrEqual(t, last, max(sum/limit, longest)*(1-1e-6))
	})
}

func TestPilotRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		amps := unit.Amps(rapid.Float64Range(6, 80).Draw(t, "amps"))
		duty, err := charging.PilotDuty(amps)
		require.NoError(t, err)
		s, err := charging.PilotAmps(duty)
		require.NoError(t, err)
		if amps > 51 && amps < 52.5 {
			amps = 51
		}
		require.InDelta(t, float64(amps), float64(s.Amps), 1e-6)
	})
	for _, duty := range []float64{0, 2.9, 7.5, 97.5, 100} {
		s, err := charging.PilotAmps(duty)
		require.NoError(t, err)
		require.Equal(t, charging.Signal{}, s, "%v %%: no charging allowed (SAE J1772, from memory)", duty)
	}
}
