package quote

import (
	"daybreak/internal/charging"
	"daybreak/internal/circuit"
	"daybreak/internal/circuit/outlet"
	"daybreak/internal/panel"
	"daybreak/internal/unit"
)

// usualTop is the largest setting taken as best fit without a wish for more.
//
// Source: decision of this project; 32 A refills nearly every day's driving.
const usualTop = unit.Amps(32)

// managedTop is the largest managed setting taken as best fit.
const managedTop = unit.Amps(40)

// growTop is the largest setting shown as room to grow.
const growTop = unit.Amps(48)

// spareShare is the part of the capacity that must be left for a new circuit
// to be best fit.
const spareShare = 0.02

// carried reports whether the panel carries an option as it is offered.
func (o *Option) carried() bool {
	switch {
	case o.Panel == nil:
		return true
	case o.Managed:
		return o.Panel.Managed.Holds
	}
	return o.Panel.Verdict == panel.Fits
}

// buildable reports whether the option can be priced and built as designed.
func (o *Option) buildable() bool {
	if !o.Possible || !o.Priced {
		return false
	}
	if o.Way == ExistingOutlet && len(o.Unpriced) > 0 {
		return false // what is behind it is not known well enough to price
	}
	return o.Circuit == nil || o.Circuit.Outcome == circuit.Designed
}

// offerable leaves out what asks for a load to go, a shared circuit or a new
// service: see [weighing.remedies].
func (o *Option) offerable() bool { return o.Taken == nil && o.buildable() && o.carried() }

func (o *Option) existing240() bool {
	return o.Way == ExistingOutlet && o.Level == charging.Level2
}

// choice holds the indexes of the options shown; −1 for none.
type choice struct{ enough, best, grow int }

// choose picks the three options by one stated rule.
//
// *Enough for now* is the cheapest offerable way that refills the
// 90th-percentile weekday of the coldest month in the plug-in window; where
// none does, the one with the most power. *Best fit* is a sound existing 240 V
// circuit that meets the need; else the same as enough where Level 1 is enough
// for a hybrid or no new wire may be planned; else the largest new circuit up
// to 32 A, or up to a told wish, that the panel carries with 2 % to spare;
// else energy-managed up to 40 A. *Room to grow* is the largest setting up to
// 48 A that fits, not above the next standard one over the car's own limit, or
// that can be managed within that limit, when it is larger.
func (w *weighing) choose() choice {
	c := choice{enough: w.cheapest(func(o *Option) bool { return o.RefillsWorst })}
	if c.enough < 0 {
		c.enough = w.strongest(func(*Option) bool { return true })
	}
	if c.enough < 0 {
		return choice{-1, -1, -1}
	}
	c.best = w.bestFit(c.enough)
	c.grow = w.strongest(func(o *Option) bool {
		return o.newLevel2() && o.Setting <= growTop && (!o.Managed || o.Setting <= w.carTakes())
	})
	if c.grow >= 0 && w.options[c.grow].power() <= w.options[c.best].power() {
		c.grow = -1
	}
	return c
}

func (w *weighing) bestFit(enough int) int {
	if i := w.soundCircuit(); i >= 0 {
		return i
	}
	first := &w.options[enough]
	if first.Level == charging.Level1 && first.RefillsWorst && w.car.hybrid || !w.mayWire {
		return enough
	}
	if i := w.withRoom(); i >= 0 {
		return i
	}
	if i := w.strongest(func(o *Option) bool {
		return o.newLevel2() && o.Managed && o.Setting <= managedTop
	}); i >= 0 {
		return i
	}
	return enough
}

// soundCircuit is a 240 V circuit that is there already and meets the need; −1
// for none. A contact that has been hot is taken out rather than replaced,
// where that is possible: the charger is wired in.
func (w *weighing) soundCircuit() int {
	if i := w.cheapest(func(o *Option) bool {
		return o.existing240() && o.RefillsWorst && o.Outlet.Word == outlet.Stop && o.OutletWay.Kind == outlet.WiredIn
	}); i >= 0 {
		return i
	}
	return w.cheapest(func(o *Option) bool {
		return o.existing240() && o.RefillsWorst && o.OutletWay.Lasting
	})
}

// withRoom is the largest new circuit within reach that the panel carries with
// some of its capacity to spare; −1 for none.
func (w *weighing) withRoom() int {
	return w.strongest(func(o *Option) bool {
		return o.newLevel2() && !o.Managed && o.Setting <= w.reach() && o.spare() >= spareShare
	})
}

// reach is the largest setting taken as best fit: the usual one, or a told wish.
func (w *weighing) reach() unit.Amps {
	if wish := w.wished(); wish > 0 {
		return max(min(wish, largest[len(largest)-1]), ladder[0])
	}
	return usualTop
}

// wished is the output the household asked for; 0 when it asked for none.
func (w *weighing) wished() unit.Amps { return or(w.facts.Wishes.OutputAmps, 0) }

// carTakes is the car's own limit by its plate, with half an ampere of rounding.
func (w *weighing) carTakes() unit.Amps { return max(w.need.CarAmps, w.car.acAmps) + 0.5 }

func (o *Option) newLevel2() bool { return o.Way != ExistingOutlet && o.Level == charging.Level2 }

// spare is the part of the capacity left by the reading that decides.
func (o *Option) spare() float64 {
	if o.Panel == nil || o.Panel.Capacity.Amps <= 0 {
		return 1
	}
	return float64(o.Panel.Spare) / float64(o.Panel.Capacity.Amps)
}

// power ranks options by what they offer: volts × setting.
func (o *Option) power() unit.VoltAmps { return o.Setting.Times(o.Volts) }

// cheapest is the offerable option of least likely price; −1 for none.
func (w *weighing) cheapest(want func(*Option) bool) int {
	best := -1
	for i := range w.options {
		o := &w.options[i]
		if !o.offerable() || !want(o) {
			continue
		}
		if best < 0 || o.likely() < w.options[best].likely() ||
			o.likely() == w.options[best].likely() && o.power() < w.options[best].power() {
			best = i
		}
	}
	return best
}

// strongest is the offerable option of most power, the cheaper at a tie; −1
// for none.
func (w *weighing) strongest(want func(*Option) bool) int {
	best := -1
	for i := range w.options {
		o := &w.options[i]
		if !o.offerable() || !want(o) {
			continue
		}
		if best < 0 || o.power() > w.options[best].power() ||
			o.power() == w.options[best].power() && o.likely() < w.options[best].likely() {
			best = i
		}
	}
	return best
}

// likely is the priced figure, minor units.
func (o *Option) likely() int64 { return o.Bill.Total[1] }

// needsPuttingRight reports whether an option rests on an outlet that may not
// be used before work is done on it.
func (o *Option) needsPuttingRight() bool {
	return o.Outlet != nil && (o.Outlet.Word == outlet.Stop || o.Outlet.Word == outlet.NeedsWork) && len(o.OutletWay.Work) > 0
}
