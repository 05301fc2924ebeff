package charging

import (
	"errors"
	"fmt"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Sharer is one of the cars on a shared circuit.
type Sharer struct {
	Need unit.KilowattHours // wall energy wanted, 0 to 1 000
	Most unit.Kilowatts     // what its own charger takes, above 0 to 50
}

// Share says when each car on one circuit is done. The limit is split equally
// over the cars still charging; what a car cannot use goes to the others.
// At most 8 cars.
//
// Source: NEC 625.42(A), load management; equal split is the common policy
func Share(limit unit.Kilowatts, cars []Sharer, sheet *working.Sheet) ([]unit.Hours, error) {
	err := above("limit_kw", limit, 0, 100, "kW")
	if len(cars) == 0 || len(cars) > 8 {
		err = errors.Join(err, fault.Invalid("evs", len(cars), "1 to 8 cars"))
	}
	for i, c := range cars {
		err = errors.Join(err,
			within(fmt.Sprintf("evs[%d].wall_kwh", i), c.Need, 0, 1000, "kWh"),
			above(fmt.Sprintf("evs[%d].max_kw", i), c.Most, 0, 50, "kW"))
	}
	if err != nil {
		return nil, err
	}
	done := make([]unit.Hours, len(cars))
	left := make([]float64, len(cars))
	for i, c := range cars {
		left[i] = float64(c.Need)
	}
	for now := 0.0; ; {
		kw := split(float64(limit), cars, left)
		step := 0.0
		for i := range left {
			if left[i] > 0 && (step == 0 || left[i]/kw[i] < step) {
				step = left[i] / kw[i]
			}
		}
		if step == 0 {
			break
		}
		now += step
		for i := range left {
			if left[i] > 0 {
				left[i] -= kw[i] * step
				if left[i] <= float64(cars[i].Need)*tie {
					left[i], done[i] = 0, unit.Hours(now)
				}
			}
		}
	}
	for i, c := range cars {
		sheet.Add(working.Step{
			Rule:   "charging.share.done",
			In:     working.In(working.Num("car", i+1, ""), working.Num("need", c.Need, "kWh"), working.Num("most", c.Most, "kW"), working.Num("limit", limit, "kW")),
			Out:    working.Num("hours", done[i], "h"),
			Source: equalSplit,
		})
	}
	return done, nil
}

// split gives each car still charging an equal part, hands on what one cannot
// use, and repeats until nothing is left to hand on.
func split(limit float64, cars []Sharer, left []float64) [8]float64 {
	var kw [8]float64
	for {
		hungry := 0
		for i := range cars {
			if left[i] > 0 && kw[i] == 0 {
				hungry++
			}
		}
		if hungry == 0 {
			return kw
		}
		part, full := limit/float64(hungry), false
		for i := range cars {
			if left[i] > 0 && kw[i] == 0 && float64(cars[i].Most) <= part {
				kw[i], full = float64(cars[i].Most), true
				limit -= kw[i]
			}
		}
		if full {
			continue
		}
		for i := range cars {
			if left[i] > 0 && kw[i] == 0 {
				kw[i] = part
			}
		}
		return kw
	}
}

// Simultaneous is how many cars may charge at once where each must be offered
// at least the least current; 6 A is the least the pilot can signal.
//
// Source: SAE J1772, 6 A minimum
func Simultaneous(available, least unit.Amps) (int, error) {
	err := errors.Join(within("available_a", available, 0, 1000, "A"), within("min_a", least, 1, 80, "A"))
	if err != nil {
		return 0, err
	}
	return int(float64(available) / float64(least) * (1 + tie)), nil
}
