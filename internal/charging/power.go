package charging

import (
	"errors"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Rate is the power a car draws at the wall, and what holds it there.
type Rate struct {
	Wall    unit.Kilowatts // at the wall
	Amps    unit.Amps      // the current that is, at Supply
	Supply  unit.Volts
	Level   Level
	Binding Limit    // the least limit; at a tie the one upstream
	Open    LimitSet // limits that are there but unknown: Wall may be less
}

// continuousShare of a device's rating is what a continuous load may draw.
const continuousShare = 0.8

// tie is how close two limits are taken for equal, relative.
const tie = 1e-9

// Power is the least of all limits, in kilowatts at the wall, with the binding
// one named. Unknown limits are left out and named in Rate.Open, except that
// an unknown AC current limit of the car is its on-board power at 240 V. It
// faults a limit that is not above zero or beyond what exists, and a question
// in which nothing limits.
//
// Source: NEC 625.41, 625.42 (continuous load); SAE J1772
func Power(l Limits, sheet *working.Sheet) (Rate, error) {
	if err := l.check(); err != nil {
		return Rate{}, err
	}
	r := Rate{Supply: l.Supply, Level: LevelOf(l.Supply)}
	r.device(Circuit, l.Breaker, "charging.power.circuit", sheet)
	r.device(Receptacle, l.Receptacle, "charging.power.receptacle", sheet)
	r.current(Setting, l.Setting, "charging.power.setting", sheet)
	r.current(Cable, l.Cable, "charging.power.cable", sheet)
	r.current(Managed, l.Managed, "charging.power.managed", sheet)
	r.onboard(l, sheet)
	if r.Binding == 0 {
		return Rate{}, fault.Invalid("limits", "none known", "at least one limit in amps or kilowatts")
	}
	r.Amps = unit.Amps(float64(r.Wall) * 1000 / float64(r.Supply))
	sheet.Add(working.Step{
		Rule:   "charging.power.least",
		In:     working.In(working.Word("limit", r.Binding.Word()), working.Num("supply", r.Supply, "V"), working.Num("current", r.Amps, "A")),
		Out:    working.Num("power", r.Wall, "kW"),
		Source: continuousLoad,
	})
	return r, nil
}

func (l Limits) check() error {
	return errors.Join(
		within("supply_volts", l.Supply, 100, 300, "V"),
		checked(l.Breaker, "breaker_amps", 400, "A"),
		checked(l.Receptacle, "receptacle_amps", 400, "A"),
		checked(l.Setting, "setting_amps", 400, "A"),
		checked(l.Cable, "cable_amps", 400, "A"),
		checked(l.Managed, "managed_amps", 400, "A"),
		checked(l.OnboardKW, "onboard_kw", 50, "kW"),
		checked(l.OnboardAmps, "onboard_amps", 400, "A"),
	)
}

// device takes 80 % of a circuit's or receptacle's rating.
func (r *Rate) device(which Limit, c Cap[unit.Amps], rule string, sheet *working.Sheet) {
	rating, known := c.Value()
	if !known {
		r.open(which, c.state)
		return
	}
	kw := kilowatts(continuousShare*float64(rating), r.Supply)
	sheet.Add(working.Step{
		Rule:   rule,
		In:     working.In(working.Num("rating", rating, "A"), working.Num("supply", r.Supply, "V")),
		Out:    working.Num("power", kw, "kW"),
		Source: continuousLoad,
	})
	r.least(which, kw)
}

func (r *Rate) current(which Limit, c Cap[unit.Amps], rule string, sheet *working.Sheet) {
	amps, known := c.Value()
	if !known {
		r.open(which, c.state)
		return
	}
	kw := kilowatts(float64(amps), r.Supply)
	sheet.Add(working.Step{
		Rule:   rule,
		In:     working.In(working.Num("current", amps, "A"), working.Num("supply", r.Supply, "V")),
		Out:    working.Num("power", kw, "kW"),
		Source: powerOfCurrent,
	})
	r.least(which, kw)
}

// onboard takes the car's power and its current. A charger limited in current
// loses 13 % at 208 V; one limited in power does not. Without data the current
// is what the power draws at 240 V.
func (r *Rate) onboard(l Limits, sheet *working.Sheet) {
	kw, knownKW := l.OnboardKW.Value()
	if knownKW {
		sheet.Add(working.Step{
			Rule:   "charging.power.onboard",
			Out:    working.Num("power", kw, "kW"),
			Source: powerOfCurrent,
		})
		r.least(OnboardPower, kw)
	} else {
		r.open(OnboardPower, l.OnboardKW.state)
	}
	amps := l.OnboardAmps
	if knownKW && amps.state == capUnknown {
		amps = At(unit.Amps(float64(kw) * 1000 / labelVolts))
	}
	r.current(OnboardCurrent, amps, "charging.power.onboard_current", sheet)
}

// labelVolts is the supply of the US label test and of on-board ratings.
const labelVolts = 240

func (r *Rate) open(which Limit, s capState) {
	if s == capUnknown {
		r.Open |= 1 << which
	}
}

func (r *Rate) least(which Limit, kw unit.Kilowatts) {
	if r.Binding == 0 || float64(kw) < float64(r.Wall)*(1-tie) {
		r.Wall, r.Binding = kw, which
	}
}

func kilowatts(amps float64, supply unit.Volts) unit.Kilowatts {
	return unit.Kilowatts(amps * float64(supply) / 1000)
}
