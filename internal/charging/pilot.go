package charging

import (
	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// Signal is what a control pilot's duty cycle tells the car.
type Signal struct {
	Amps    unit.Amps // the most it may draw; 0 when it may not
	Digital bool      // the limit is agreed over a digital link instead
}

// PilotAmps reads a duty cycle of 0 to 100 %. 85 % belongs to the lower band.
//
// Source: SAE J1772 and IEC 61851-1 Annex A, duty cycle to current (the two
// linear bands verified second-hand, the edges from memory)
func PilotAmps(dutyPercent float64) (Signal, error) {
	d := dutyPercent
	if err := within("duty_pct", d, 0, 100, "%"); err != nil {
		return Signal{}, err
	}
	switch {
	case d >= 3 && d <= 7:
		return Signal{Digital: true}, nil
	case d < 8 || d > 97:
		return Signal{}, nil
	case d < 10:
		return Signal{Amps: 6}, nil
	case d <= 85:
		return Signal{Amps: unit.Amps(d * 0.6)}, nil
	case d <= 96:
		return Signal{Amps: unit.Amps((d - 64) * 2.5)}, nil
	}
	return Signal{Amps: 80}, nil
}

const (
	lowestPilotAmps  = 6
	lowBandEndAmps   = 51
	highBandFromAmps = 52.5
	highestPilotAmps = 80
)

// PilotDuty is the duty cycle that signals a setting of 6 to 80 A. What lies
// between 51 and 52.5 A cannot be signalled and is rounded down to 51 A.
//
// Source: SAE J1772 and IEC 61851-1 Annex A
func PilotDuty(setting unit.Amps) (float64, error) {
	a := float64(setting)
	if !unit.Finite(setting) || a < lowestPilotAmps || a > highestPilotAmps {
		return 0, fault.Invalid("setting_amps", a, "6 to 80 A")
	}
	if a >= highBandFromAmps {
		return a/2.5 + 64, nil
	}
	return min(a, lowBandEndAmps) / 0.6, nil
}
