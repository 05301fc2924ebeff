package panel

import (
	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// Capacity is the least of a supply's ratings; a tie goes to the one named
// first in [Limit].
//
// Source: NEC 230.79, 230.90, 310.12, 408.36.
func (s Ratings) Capacity() Capacity {
	c := Capacity{s.Service, ByService}
	for _, x := range [...]Capacity{{s.Conductors, ByConductors}, {s.Main, ByMain}, {s.Bus, ByBus}, {s.Meter, ByMeter}} {
		if x.Amps < c.Amps {
			c = x
		}
	}
	return c
}

// ServiceConductors are the sizes for a dwelling service of 100 to 400 A, or a
// feeder that carries the whole dwelling, where nothing derates them.
type ServiceConductors struct {
	Rating    unit.Amps // the row of the table
	Copper    string
	Aluminium string
	LeastAmps unit.Amps // 83 % of the rating asked for
}

// ServiceConductors gives the conductors for a rating: the first row not below
// it. Ratings above the table are refused.
//
// Source: NEC Table 310.12 (310.15(B)(7) in 2017).
func (r *Rules) ServiceConductors(rating unit.Amps) (ServiceConductors, error) {
	for _, row := range r.conductors.rows {
		if rating > 0 && float64(rating) <= row.amps {
			return ServiceConductors{unit.Amps(row.amps), row.cu, row.al, rating * unit.Amps(r.conductors.factor)}, nil
		}
	}
	return ServiceConductors{}, fault.Invalid("rating", float64(rating), "above 0 to 400 A")
}

// ConductorsServe gives the rating that conductors of this ampacity may serve
// when they carry a whole dwelling: the largest standard device of which the
// ampacity is at least 83 %. False when none is.
//
// Source: NEC 310.12.
func (r *Rules) ConductorsServe(ampacity unit.Amps) (unit.Amps, bool) {
	best := 0.0
	for _, row := range r.conductors.rows {
		if float64(ampacity)+1e-9 >= row.amps*r.conductors.factor {
			best = row.amps
		}
	}
	return unit.Amps(best), best > 0
}

// NextDevice is the next standard overcurrent device at or above a current,
// and false above 400 A.
//
// Source: NEC 240.6(A).
func (r *Rules) NextDevice(a unit.Amps) (unit.Amps, bool) {
	for _, d := range r.devices.amps {
		if float64(a) <= d+1e-9 {
			return unit.Amps(d), true
		}
	}
	return 0, false
}

// LeastService is the least rating of a one-family service for a calculated
// load: the next standard device, never below the edition's least service;
// 0 above 400 A.
//
// Source: NEC 230.79(C), 230.42(B), 240.6(A).
func (r *Rules) LeastService(load unit.Amps) unit.Amps {
	d, ok := r.NextDevice(load)
	if !ok {
		return 0
	}
	return max(d, unit.Amps(r.service.oneFamily))
}

// Feeder is the least rating of a feeder: other load plus 125 % of the
// continuous load, and the device for it (0 above 400 A).
//
// Source: NEC 215.2(A)(1), 215.3.
func (r *Rules) Feeder(other, continuous unit.Amps) (least, device unit.Amps) {
	least = other + continuous*unit.Amps(r.continuous.factor)
	device, _ = r.NextDevice(least)
	return least, device
}

// WholeAmps rounds a calculated current as the code allows for printing: a
// fraction below 0.5 is dropped. Verdicts never use it.
//
// Source: NEC 220.5(B).
func WholeAmps(a unit.Amps) int { return int(float64(a) + 0.5) }

// LineLoad is one ungrounded conductor of a feeder: the currents on it and the
// largest motor among them, which is taken at 125 %.
type LineLoad struct {
	Amps         []unit.Amps
	LargestMotor unit.Amps
}

// LineAmps is the current of the line with 25 % of its largest motor.
//
// Source: NEC 430.24, as Annex D example D1(b) counts by line.
func (r *Rules) LineAmps(l LineLoad) unit.Amps {
	sum := l.LargestMotor * unit.Amps(r.motors.adder)
	for _, a := range l.Amps {
		sum += a
	}
	return sum
}

// MaxSetpoint is the most an energy management system may hold the service to:
// the setpoint is a continuous load.
//
// Source: NEC 220.70 (2023), 120.7 (2026), 625.42, 750.30.
func (r *Rules) MaxSetpoint(capacity unit.Amps) unit.Amps {
	return capacity / unit.Amps(r.management.factor)
}

// WelderKind is how a welder makes its current.
type WelderKind uint8

// The welders.
const (
	NonMotorWelder WelderKind = iota
	MotorGeneratorWelder
)

// WelderConductorAmps is the least ampacity of the conductors of one arc
// welder, by its rated primary current and duty cycle in percent, taken to the
// next row up. A charger's conductors are never sized so.
//
// Source: NEC 630.11(A).
func (r *Rules) WelderConductorAmps(primary unit.Amps, dutyPercent float64, kind WelderKind) (unit.Amps, error) {
	if !(dutyPercent > 0 && dutyPercent <= 100) || !(primary >= 0 && primary <= 1000) {
		return 0, fault.Invalid("duty_pct", dutyPercent, "above 0 to 100 %, and a primary current of 0 to 1000 A")
	}
	for _, row := range r.welder.rows {
		if dutyPercent <= row[0] {
			return primary * unit.Amps(row[1+min(int(kind), 1)]), nil
		}
	}
	return primary, nil
}
