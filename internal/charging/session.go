package charging

import (
	"errors"
	"math"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Session is one charge from a state of charge to another.
type Session struct {
	Usable  unit.KilowattHours // usable battery energy, above 0 to 500 kWh
	From    float64            // state of charge at the start, 0 to 1
	To      float64            // state of charge wanted, From to 1
	Wall    unit.Kilowatts     // from Rate.Wall, above 0 to 50 kW
	Losses  Losses             // from LossesAt
	Taper   Taper              // from UsualTaper; zero for a flat charge
	Heating unit.KilowattHours // wall energy to warm the battery first, from ColdStartHeat; 0 when warm
}

// Charge is how a session goes.
type Charge struct {
	Battery unit.KilowattHours // put into the battery
	Wall    unit.KilowattHours // taken from the wall, heating included
	Hours   unit.Hours         // plugged in at power until done
	Flat    unit.Hours         // the same without taper and heating
	Stalls  bool               // the power does not reach the battery; Hours and Wall are then zero

	usable float64
	from   float64
	legs   [8]leg
	n      int
}

// leg is a stretch in which battery power changes linearly with state of charge.
type leg struct {
	from, to float64
	kwFrom   float64
	kwTo     float64
	hours    float64
}

// ChargeTime integrates a session over the state of charge: constant wall
// power with its losses, less while the battery is warmed, less again where a
// nearly full battery accepts less. It faults a battery without energy, a
// target below the start, and whatever is not a number.
//
// Source: IEEE SusTech 2014 for the losses (from memory); taper and heating as
// at UsualTaper and ColdStartHeat
func ChargeTime(s Session, sheet *working.Sheet) (Charge, error) {
	if err := s.check(); err != nil {
		return Charge{}, err
	}
	c := Charge{
		Battery: unit.KilowattHours(float64(s.Usable) * (s.To - s.From)),
		usable:  float64(s.Usable),
		from:    s.From,
	}
	battery := s.Losses.battery(float64(s.Wall))
	sheet.Add(working.Step{
		Rule:   "charging.time.battery_energy",
		In:     working.In(working.Num("usable", s.Usable, "kWh"), working.Num("from", s.From*100, "%"), working.Num("to", s.To*100, "%")),
		Out:    working.Num("energy", c.Battery, "kWh"),
		Source: lossModel,
	})
	sheet.Add(working.Step{
		Rule:   "charging.time.battery_power",
		In:     working.In(working.Num("wall", s.Wall, "kW"), working.Num("share", s.Losses.Share, ""), working.Num("overhead", s.Losses.Overhead, "kW")),
		Out:    working.Num("power", battery, "kW"),
		Source: lossModel,
	})
	if s.To > s.From && battery == 0 {
		c.Stalls = true
		return c, nil
	}
	soc, warmed := c.warm(s)
	c.run(s, float64(s.Wall), soc, math.Inf(1))
	if c.Stalls {
		return c, nil
	}
	if battery > 0 {
		c.Flat = unit.Hours(float64(c.Battery) / battery)
	}
	spent := warmed
	for _, l := range c.legs[:c.n] {
		c.Hours += unit.Hours(l.hours)
	}
	c.Wall = unit.KilowattHours(float64(c.Battery)/s.Losses.Share + float64(s.Losses.Overhead)*float64(c.Hours) + spent)
	c.show(s, sheet)
	return c, nil
}

// warm runs the stretch in which heating takes its part of the wall power. It
// returns the state of charge reached and the energy spent on heat.
func (c *Charge) warm(s Session) (soc, spentKWh float64) {
	if s.Heating == 0 || s.To == s.From {
		return s.From, 0
	}
	spare := float64(s.Wall) - float64(s.Losses.Overhead)
	heater := min(heaterKW, spare)
	hours := float64(s.Heating) / heater
	left := float64(s.Wall) - heater
	if s.Losses.battery(left) <= 1e-9 {
		c.add(leg{from: s.From, to: s.From, hours: hours})
		return s.From, float64(s.Heating)
	}
	soc, took := c.run(s, left, s.From, hours)
	return soc, heater * took
}

// run charges at a wall power from a state of charge until the target is
// reached or the hours are spent; it returns where it got and how long it took.
func (c *Charge) run(s Session, wallKW, soc, hours float64) (reached, took float64) {
	bends, n := s.Taper.bends(wallKW)
	for i := 0; i <= n && soc < s.To && took < hours; i++ {
		end := s.To
		if i < n {
			end = min(bends[i], s.To)
		}
		if end <= soc {
			continue
		}
		l := leg{
			from: soc, to: end,
			kwFrom: s.Losses.battery(min(wallKW, s.Taper.accepts(soc))),
			kwTo:   s.Losses.battery(min(wallKW, s.Taper.accepts(end))),
		}
		if i == 0 { // before acceptance is the limit
			l.kwTo = l.kwFrom
		}
		if l.kwTo <= 0 {
			c.Stalls = true
			return soc, took
		}
		l.hours = l.whole(c.usable)
		if left := hours - took; l.hours > left {
			l.to = l.after(left, c.usable)
			l.kwTo = l.kwFrom + (l.kwTo-l.kwFrom)*(l.to-l.from)/(end-l.from)
			l.hours = left
		}
		c.add(l)
		soc, took = l.to, took+l.hours
	}
	return soc, took
}

func (c *Charge) add(l leg) {
	c.legs[c.n] = l
	c.n++
}

// whole is how long a leg takes: energy over power, with power falling in a
// straight line over the state of charge.
func (l leg) whole(usable float64) float64 {
	energy := usable * (l.to - l.from)
	if math.Abs(l.kwFrom-l.kwTo) < 1e-9*l.kwFrom {
		return energy / l.kwFrom
	}
	return energy * math.Log(l.kwFrom/l.kwTo) / (l.kwFrom - l.kwTo)
}

// after is the state of charge some hours into a leg.
func (l leg) after(hours, usable float64) float64 {
	if l.kwFrom == 0 || l.to == l.from {
		return l.from
	}
	slope := (l.kwTo - l.kwFrom) / (l.to - l.from)
	if math.Abs(l.kwFrom-l.kwTo) < 1e-9*l.kwFrom {
		return min(l.from+l.kwFrom*hours/usable, l.to)
	}
	kw := l.kwFrom * math.Exp(slope*hours/usable)
	return min(l.from+(kw-l.kwFrom)/slope, l.to)
}

// After is the state of charge that many hours after the start: what is
// reached by a departure, and the curve to plot.
func (c Charge) After(hours unit.Hours) float64 {
	soc, left := c.from, float64(hours)
	for _, l := range c.legs[:c.n] {
		if !(left > 0) {
			return soc
		}
		if left < l.hours {
			return l.after(left, c.usable)
		}
		soc, left = l.to, left-l.hours
	}
	return soc
}

// Slower is how many times longer the session takes than a flat charge.
func (c Charge) Slower() float64 {
	if c.Flat == 0 {
		return 1
	}
	return float64(c.Hours / c.Flat)
}

func (s Session) check() error {
	err := errors.Join(
		checkUsable(s.Usable),
		within("soc_from", s.From, 0, 1, "as a share"),
		within("soc_to", s.To, 0, 1, "as a share"),
		above("wall_kw", s.Wall, 0, 50, "kW"),
		within("heating_kwh", s.Heating, 0, 50, "kWh"),
		s.Losses.check(),
	)
	if err == nil && s.To < s.From {
		err = fault.Invalid("soc_to", s.To, "at least the state of charge at the start")
	}
	return err
}

func (c Charge) show(s Session, sheet *working.Sheet) {
	if s.Heating > 0 {
		sheet.Add(working.Step{
			Rule:   "charging.time.heating",
			Out:    working.Num("energy", s.Heating, "kWh"),
			Source: coldModel,
		})
	}
	source := lossModel
	if c.Hours > c.Flat {
		source = taperModel
	}
	sheet.Add(working.Step{
		Rule:   "charging.time.hours",
		In:     working.In(working.Num("energy", c.Battery, "kWh"), working.Num("flat", c.Flat, "h"), working.Num("wall", c.Wall, "kWh")),
		Out:    working.Num("hours", c.Hours, "h"),
		Source: source,
	})
}
