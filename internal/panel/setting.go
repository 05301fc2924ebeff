package panel

import (
	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// Steps says which settings are tried.
type Steps uint8

const (
	// StandardSteps are the outputs the trade pairs with a device: 16 on 20, 32 on 40.
	StandardSteps Steps = iota
	// FineSteps are four fifths of every standard device.
	FineSteps
)

// Want bounds a search for a setting.
type Want struct {
	AtMost     unit.Amps // 0 to 80 A; the car's limit, a wish, the rule's own cap
	SpareShare float64   // of the capacity to be left over, 0 to 0.5; best fit wants 0.02
	Steps      Steps
	Methods    []Method // nil for the methods that decide
}

// LargestSetting finds the largest setting of one charger on the supply's full
// volts whose verdict is [Fits] with the share to spare. False when none does.
// The chargers of the input are set aside.
//
// Source: NEC 220.82, 220.83, 220.87; the share is a shop rule.
func LargestSetting(in Input, w Want) (unit.Amps, bool, error) {
	if !(w.AtMost >= 0 && w.AtMost <= 80) {
		return 0, false, fault.Invalid("at_most", float64(w.AtMost), "0 to 80 A")
	}
	if !(w.SpareShare >= 0 && w.SpareShare <= 0.5) {
		return 0, false, fault.Invalid("spare_share", w.SpareShare, "0 to 0.5")
	}
	in.Chargers = nil
	methods := allMethods
	if w.Methods != nil {
		methods = 0
		for _, m := range w.Methods {
			methods |= 1 << m
		}
	}
	if err := in.check(methods); err != nil {
		return 0, false, err
	}
	base, ok := in.leastBy(w.Methods)
	if !ok {
		return 0, false, nil
	}
	capacity := float64(in.Supply.Capacity().Amps) * (1 - w.SpareShare) * float64(in.Volts)
	a, ok := in.largest(base, capacity, w)
	return a, ok, nil
}

// leastBy is the smallest load without chargers by the methods asked for, or
// by those that decide.
func (in *Input) leastBy(only []Method) (base float64, ok bool) {
	if only == nil {
		var all [methodCount]Outcome
		in.run(in.Supply.Capacity().Amps, &all)
		return in.least(&all)
	}
	t := in.tally()
	for _, m := range only {
		if m >= methodCount {
			continue
		}
		o := in.outcome(m, &t)
		if o.Refusal == Permitted && (!ok || float64(o.Base) < base) {
			base, ok = float64(o.Base), true
		}
	}
	return base, ok
}

// largest walks the settings down; outside the bracket a charger's load simply
// adds to the base, so one pass over the list is exact.
func (in *Input) largest(base, limitVA float64, w Want) (unit.Amps, bool) {
	steps := in.Rules.setting.standard
	if w.Steps == FineSteps {
		steps = in.Rules.setting.fine
	}
	for i := len(steps) - 1; i >= 0; i-- {
		if steps[i] > float64(w.AtMost) {
			continue
		}
		_, cont := in.Rules.chargerVA(steps[i] * float64(in.Volts))
		if base+cont <= limitVA+slack {
			return unit.Amps(steps[i]), true
		}
	}
	return 0, false
}

// NextSetting is the smallest standard setting at or above a current, such as a
// car's limit, and false above the last.
func (r *Rules) NextSetting(a unit.Amps) (unit.Amps, bool) {
	for _, s := range r.setting.standard {
		if s >= float64(a) {
			return unit.Amps(s), true
		}
	}
	return 0, false
}

// Settings lists the settings of a kind of steps, smallest first.
func (r *Rules) Settings(s Steps) []unit.Amps {
	list := r.setting.standard
	if s == FineSteps {
		list = r.setting.fine
	}
	out := make([]unit.Amps, len(list))
	for i, a := range list {
		out[i] = unit.Amps(a)
	}
	return out
}
