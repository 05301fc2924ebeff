package charging

import (
	"errors"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Precondition is warming the cabin at the plug before leaving.
type Precondition struct {
	Energy  unit.KilowattHours // in all
	Wall    unit.KilowattHours // what the plug carries while it lasts
	Battery unit.KilowattHours // what the battery gives, since the plug cannot
}

// preconditioning by outdoor temperature: nothing from 59 °F up, then straight
// between these points.
var preconditioning = [...]struct{ outdoorF, kWh float64 }{{-4, 2.6}, {14, 1.8}, {32, 1.0}, {59, 0}}

const (
	preconditionHours = 0.5
	preconditionKW    = 5.5 // 3 to 8 kW for 10 to 30 minutes
)

// Preconditioning is what warming the cabin takes on a morning, and how much of
// it the plug carries: 7 kW all of it, 1.44 kW about a quarter.
//
// Source: cabin energy at 32, 14 and −4 °F, peak 3 to 8 kW for 10 to 30 min
// (from memory)
func Preconditioning(outdoor unit.Fahrenheit, wall unit.Kilowatts, sheet *working.Sheet) (Precondition, error) {
	if err := errors.Join(within("outdoor_f", outdoor, -80, 140, "°F"), within("wall_kw", wall, 0, 50, "kW")); err != nil {
		return Precondition{}, err
	}
	f, kWh := float64(outdoor), 0.0
	switch first := preconditioning[0]; {
	case f <= first.outdoorF:
		kWh = first.kWh
	default:
		for i := 1; i < len(preconditioning); i++ {
			a, b := preconditioning[i-1], preconditioning[i]
			if f <= b.outdoorF {
				kWh = a.kWh + (b.kWh-a.kWh)*(f-a.outdoorF)/(b.outdoorF-a.outdoorF)
				break
			}
		}
	}
	hours := min(kWh/preconditionKW, preconditionHours)
	p := Precondition{Energy: unit.KilowattHours(kWh)}
	p.Wall = min(unit.KilowattHours(float64(wall)*hours), p.Energy)
	p.Battery = p.Energy - p.Wall
	sheet.Add(working.Step{
		Rule:   "charging.precondition.energy",
		In:     working.In(working.Num("outdoor", outdoor, "°F"), working.Num("wall", p.Wall, "kWh"), working.Num("battery", p.Battery, "kWh")),
		Out:    working.Num("energy", p.Energy, "kWh"),
		Source: preconditionModel,
	})
	return p, nil
}

// Average is what the plug carries on a morning on average, where a share of
// them from 0 to 1 is warmed.
//
// Source: as at Preconditioning
func (p Precondition) Average(share float64, sheet *working.Sheet) (unit.KilowattHours, error) {
	if !unit.Finite(share) || share < 0 || share > 1 {
		return 0, fault.Invalid("charging.precondition_share", share, "0 to 1")
	}
	average := unit.KilowattHours(float64(p.Wall) * share)
	sheet.Add(working.Step{
		Rule:   "charging.precondition.average",
		In:     working.In(working.Num("wall", p.Wall, "kWh"), working.Num("share", share, "")),
		Out:    working.Num("average", average, "kWh"),
		Source: preconditionModel,
	})
	return average, nil
}
