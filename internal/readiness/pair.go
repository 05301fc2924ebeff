package readiness

import (
	"errors"

	"daybreak/internal/charging"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// heavyDay is the share of the other car's days that a pair plans for.
const heavyDay = 0.9

// AssessPair counts a year of two cars on one circuit of a power in kW, each
// with its own driver and, as its Option, the most it takes alone. The policy:
// while both charge the circuit is split equally and what one cannot use goes
// to the other; each is planned against a heavy day of the other, which nine
// days of ten do not exceed. Both are home the same hours at least as long as
// the shorter window.
//
// Source: NEC 625.42(A), load management; as at Prepare
func AssessPair(a, b Input, circuit unit.Kilowatts, sheet *working.Sheet) (first, second Result, err error) {
	err = errors.Join(a.check(), b.check(), positive("circuit_kw", float64(circuit), 100, "kW"))
	if err == nil {
		err = errors.Join(positive("option.wall_kw", float64(a.Option.Wall), 50, "kW"), positive("option.wall_kw", float64(b.Option.Wall), 50, "kW"))
	}
	if err != nil {
		return Result{}, Result{}, err
	}
	if first, err = assessBeside(a, b, circuit, sheet); err != nil {
		return Result{}, Result{}, err
	}
	second, err = assessBeside(b, a, circuit, sheet)
	return first, second, err
}

// assessBeside counts one car while the other takes its part of the circuit.
func assessBeside(in, other Input, circuit unit.Kilowatts, sheet *working.Sheet) (Result, error) {
	m, err := Prepare(in.Car, in.Driver, in.Year)
	if err != nil {
		return Result{}, err
	}
	var n nights
	for i := range n {
		weekday, err := heavyWall(other, other.Driver.Weekday, i)
		if err != nil {
			return Result{}, err
		}
		weekend, err := heavyWall(other, other.Driver.Weekend, i)
		if err != nil {
			return Result{}, err
		}
		need := max(weekday, weekend) // of whichever night
		if n[i].weeknight, err = sharedNight(in, other, i, need, circuit, in.Driver.Window.Weeknight); err != nil {
			return Result{}, err
		}
		if n[i].weekend, err = sharedNight(in, other, i, need, circuit, in.Driver.Window.Weekend); err != nil {
			return Result{}, err
		}
	}
	r := m.result(in.Option, &n, sheet)
	sheet.Add(working.Step{
		Rule:   "readiness.pair.night",
		In:     working.In(working.Num("circuit", circuit, "kW"), working.Num("most", in.Option.Wall, "kW"), working.Num("other", other.Option.Wall, "kW")),
		Out:    working.Num("gain", n[in.coldest()].weeknight, "kWh"),
		Source: sharedCircuit,
	})
	return r, nil
}

// coldest is the month in which a mile takes most.
func (in Input) coldest() int {
	at := 0
	for i, m := range in.Year {
		if m.Multiplier > in.Year[at].Multiplier {
			at = i
		}
	}
	return at
}

// heavyWall is the wall energy of a heavy day, at most a whole battery.
func heavyWall(in Input, day charging.Day, month int) (unit.KilowattHours, error) {
	miles, err := day.Quantile(heavyDay)
	if err != nil {
		return 0, err
	}
	m := in.Year[month]
	kWh := min(float64(miles)*in.Car.perMile()*m.Multiplier, in.Car.room())
	kw := m.batteryKW(in.Option.Wall)
	if kw == 0 { // nothing arrives; it asks for power all night
		return endlessNeed, nil
	}
	return min(unit.KilowattHours(kWh*float64(in.Option.Wall)/kw), endlessNeed), nil
}

// endlessNeed keeps a car charging beyond any window.
const endlessNeed = 1000

// sharedNight is what a car gets in a window beside another's need.
func sharedNight(in, other Input, month int, need unit.KilowattHours, circuit unit.Kilowatts, window unit.Hours) (float64, error) {
	alone := min(in.Option.Wall, circuit)
	cars := []charging.Sharer{{Need: need, Most: other.Option.Wall}, {Need: endlessNeed, Most: in.Option.Wall}}
	done, err := charging.Share(circuit, cars, nil)
	if err != nil {
		return 0, err
	}
	together := min(float64(done[0]), float64(window))
	beside := unit.Kilowatts(0)
	if done[0] > 0 {
		beside = max(circuit/2, circuit-other.Option.Wall)
	}
	beside = min(beside, alone)
	m := in.Year[month]
	return m.batteryKW(beside)*together + m.batteryKW(alone)*(float64(window)-together), nil
}
