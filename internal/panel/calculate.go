package panel

import (
	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

const allMethods = methodSet(1<<methodCount - 1)

// Calculate says whether the supply carries the dwelling with its chargers, by
// every method the edition permits, and what would help where it does not.
// What cannot be worked with is refused by name; a load that does not fit is a
// result. With a sheet kept, the result holds the worksheets and the sheet
// their lines and the verdict.
//
// Source: NEC article 220 (120 in 2026), 230.42, 230.79, 408.36, 625.42, 705.12.
func Calculate(in Input, sheet *working.Sheet) (Result, error) {
	if err := in.check(allMethods); err != nil {
		return Result{}, err
	}
	var res Result
	in.find(&res)
	if res.Verdict != Fits || res.Spaces.Verdict == SpacesByTandem || res.Spaces.Verdict == SpacesBySubpanel || in.Protection != Breakers {
		res.Measures = in.measures(&res)
	}
	if sheet.Keeping() {
		kept := in // the worksheets hold on to it; without a sheet nothing does
		kept.write(&res, sheet)
	}
	return res, nil
}

// find fills everything but the measures and the working.
func (in *Input) find(res *Result) {
	res.Capacity = in.Supply.Capacity()
	res.Deciding = in.run(res.Capacity.Amps, &res.Methods)
	d := &res.Methods[res.Deciding]
	res.Verdict, res.Bare, res.Reading = d.Verdict, d.Verdict, d.reading()
	res.Total, res.Spare = d.Amps[res.Reading], d.spare(res.Capacity.Amps)
	if in.Management.Kind != Unmanaged {
		res.Managed = in.checkManaged(res)
		if res.Managed.Holds {
			res.Verdict, res.Reading = Fits, Continuous
			res.Total = in.Management.Setpoint * unit.Amps(in.Rules.management.factor)
			res.Spare = res.Capacity.Amps - res.Total
		}
	}
	res.Spaces = in.checkSpaces()
	res.Bus = in.checkBus()
	res.Cautions = in.cautions(res)
	res.Odd = in.oddities()
	res.UnseenArea = in.unseenArea(res)
}

// By calculates by one method alone and judges it, whether or not it would
// decide. Only what that method reads has to be there.
func By(in Input, m Method) (Outcome, error) {
	if m >= methodCount {
		return Outcome{}, fault.Invalid("method", int(m), "one of "+join(methodNames[:]))
	}
	if err := in.check(1 << m); err != nil {
		return Outcome{}, err
	}
	t := in.tally()
	out := in.outcome(m, &t)
	if out.Refusal == Permitted {
		out.judge(in.Supply.Capacity().Amps)
		out.Decides = in.deciders().has(m)
	}
	return out, nil
}

// checkManaged: the setpoint is a continuous load; the house alone must fit,
// since management can take away no more than the charger; and so must what
// the charger falls back to when the signal is lost.
func (in *Input) checkManaged(res *Result) ManagedCheck {
	r, capacity := in.Rules, res.Capacity.Amps
	m := ManagedCheck{Kind: in.Management.Kind, MaxSetpoint: r.MaxSetpoint(capacity), Source: r.management.src}
	base, ok := in.least(&res.Methods)
	if !ok || in.Management.Setpoint <= 0 || in.Management.Setpoint > m.MaxSetpoint+slack {
		return m
	}
	_, fallback := r.chargerVA(float64(in.Management.FailSafe) * float64(in.Volts))
	if in.Management.FailSafe == 0 {
		fallback = 0
	}
	m.Holds = va(base+fallback).At(in.Volts) <= capacity+slack
	return m
}

// least is the smallest load without new chargers by any deciding method.
func (in *Input) least(all *[methodCount]Outcome) (base float64, ok bool) {
	for m := range methodCount {
		o := &all[m]
		if o.Decides && (!ok || float64(o.Base) < base) {
			base, ok = float64(o.Base), true
		}
	}
	return base, ok
}
