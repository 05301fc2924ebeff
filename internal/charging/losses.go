package charging

import (
	"errors"

	"daybreak/internal/unit"
)

// Losses turns wall power into battery power: a share of what is left after
// the car's own electronics have taken theirs.
type Losses struct {
	Share    float64        // of the power above Overhead that reaches the battery; above 0 to 1
	Overhead unit.Kilowatts // pumps, computers and keeping the battery warm; 0 to 5 kW
}

const (
	chargerShare      = 0.93
	mildOverheadKW    = 0.15
	coldOverheadKW    = 0.30
	deepColdKW        = 1.0
	coldBelowF        = 20
	deepColdFromF     = 0
	deepColdReachedF  = -20
	heatingStartsF    = 32
	fullHeatingF      = -4
	heatAt20FkWh      = 1.0
	heatAtDeepColdKWh = 4.0
	heatedPackKWh     = 60
	heaterKW          = 2.0
)

// LossesAt is the usual loss at an outdoor temperature: 0.93 of the power
// above 0.15 kW, above 0.30 kW below 20 °F; below 0 °F keeping the battery
// warm rises to 1 kW at −20 °F, which at Level 1 leaves little.
//
// Source: IEEE SusTech 2014 comparison of Level 1 and Level 2 efficiency,
// fitted (from memory); battery heating of 0.2 to 2 kW while charging (engineering judgement)
func LossesAt(outdoor unit.Fahrenheit) Losses {
	f := float64(outdoor)
	overhead := mildOverheadKW
	switch {
	case f < deepColdFromF:
		cold := min((deepColdFromF-f)/(deepColdFromF-deepColdReachedF), 1)
		overhead = coldOverheadKW + (deepColdKW-coldOverheadKW)*cold
	case f < coldBelowF:
		overhead = coldOverheadKW
	}
	return Losses{Share: chargerShare, Overhead: unit.Kilowatts(overhead)}
}

// Battery is the power that reaches the battery, never below zero, and its
// share of the wall power.
func (l Losses) Battery(wall unit.Kilowatts) (unit.Kilowatts, float64, error) {
	if err := errors.Join(l.check(), above("wall_kw", wall, 0, 50, "kW")); err != nil {
		return 0, 0, err
	}
	kw := l.battery(float64(wall))
	return unit.Kilowatts(kw), kw / float64(wall), nil
}

func (l Losses) battery(wallKW float64) float64 {
	return max(l.Share*(wallKW-float64(l.Overhead)), 0)
}

func (l Losses) check() error {
	return errors.Join(above("efficiency", l.Share, 0, 1, "as a share"), within("overhead_kw", l.Overhead, 0, 5, "kW"))
}

// ColdStartHeat is the wall energy a battery that has stood in the cold takes
// before it charges at full power: none from 32 °F up, 1 kWh at 20 °F rising
// to 4 kWh at −4 °F for a 60 kWh battery, and in proportion for others from a
// quarter to twice of that. A battery just driven needs none.
//
// Source: 1 to 4 kWh an event below 20 °F (from memory); spread over
// temperature and size by engineering judgement
func ColdStartHeat(usable unit.KilowattHours, outdoor unit.Fahrenheit) (unit.KilowattHours, error) {
	err := errors.Join(checkUsable(usable), within("outdoor_f", outdoor, -80, 140, "°F"))
	if err != nil {
		return 0, err
	}
	f, kwh := float64(outdoor), 0.0
	switch {
	case f <= coldBelowF:
		cold := min((coldBelowF-f)/(coldBelowF-fullHeatingF), 1)
		kwh = heatAt20FkWh + (heatAtDeepColdKWh-heatAt20FkWh)*cold
	case f < heatingStartsF:
		kwh = heatAt20FkWh * (heatingStartsF - f) / (heatingStartsF - coldBelowF)
	}
	size := min(max(float64(usable)/heatedPackKWh, 0.25), 2)
	return unit.KilowattHours(kwh * size), nil
}

func checkUsable(usable unit.KilowattHours) error {
	return above("usable_kwh", usable, 0, 500, "kWh")
}
