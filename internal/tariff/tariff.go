package tariff

import (
	"errors"
	"fmt"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Tariff is a utility's prices. It does not change once read.
type Tariff struct {
	Label    string // its id
	Name     string
	Utility  string
	Sector   string
	Currency unit.Currency
	EVOnly   bool // for charging alone, on a meter of its own
	Periods  []Period
	Weekday  Schedule
	Weekend  Schedule
	Adder    [12]float64 // added to every tier's rate in a month, per kWh
	Fixed    Charge
	Least    Charge // of the bill
	Credit   Charge // taken off the bill, such as for charging overnight
	Flat     Demand // of the highest hour of the month
	Timed    Demand // of the highest hour in each of its periods
	Source   *working.Source
}

// Period is a price of energy, in tiers by the energy of the period in a month.
type Period struct {
	Name  string // "peak"; empty in the published format
	Tiers []Tier
}

// Tier is a step of a price, in the currency's major unit per kWh.
type Tier struct {
	Rate  float64
	Adj   float64 // added to Rate
	Most  float64 // kWh a month up to which it holds; 0 for the last
	Daily bool    // Most is kWh a day
	Sell  float64 // credit for a kWh given to the grid
}

func (t Tier) price() float64 { return t.Rate + t.Adj }

// Schedule is the index of the period of each hour of each month, January and
// the hour from midnight first.
type Schedule [12][24]uint8

// Charge is an amount in the currency's major unit, by month, day or year.
type Charge struct {
	Amount float64
	Per    Per
}

// Per is what a charge is counted by.
type Per uint8

// A charge is by month unless it says otherwise.
const (
	Month Per = iota
	Day
	Year
)

// of is a charge for a month of so many days.
func (c Charge) of(days int) float64 {
	switch c.Per {
	case Day:
		return c.Amount * float64(days)
	case Year:
		return c.Amount / 12
	}
	return c.Amount
}

// Demand is a charge for the highest hour, per kW, by its own periods.
type Demand struct {
	Rates   []float64 // of each period; none at all without such a charge
	Weekday Schedule
	Weekend Schedule
}

// tariffs and tiers beyond these are no household's.
const (
	mostPeriods = 64
	mostTiers   = 24
	mostPrice   = 10   // per kWh
	mostCharge  = 1000 // per month, or per kW
)

func (t *Tariff) check() error {
	err := errors.Join(
		inside("label", len(t.Label), 1, 200, "characters"),
		inside("energyratestructure", len(t.Periods), 1, mostPeriods, "periods"),
		t.Fixed.check("fixedchargefirstmeter"), t.Least.check("mincharge"), t.Credit.check("credit"),
		t.Weekday.check("energyweekdayschedule", len(t.Periods)),
		t.Weekend.check("energyweekendschedule", len(t.Periods)),
		t.Flat.check("flatdemand"), t.Timed.check("demand"),
	)
	for i, a := range t.Adder {
		err = errors.Join(err, price(fmt.Sprintf("fueladjustmentsmonthly[%d]", i), a))
	}
	for i, p := range t.Periods {
		err = errors.Join(err, p.check(fmt.Sprintf("energyratestructure[%d]", i)))
	}
	return err
}

// check refuses tiers that overlap or leave energy without a price.
func (p Period) check(field string) error {
	if err := inside(field, len(p.Tiers), 1, mostTiers, "tiers"); err != nil {
		return err
	}
	before := 0.0
	for i, t := range p.Tiers {
		at := fmt.Sprintf("%s[%d]", field, i)
		if err := errors.Join(price(at+".rate", t.Rate), price(at+".adj", t.Adj), price(at+".sell", t.Sell)); err != nil {
			return err
		}
		last := i == len(p.Tiers)-1
		switch {
		case last && t.Most != 0:
			return fault.Invalid(at+".max", t.Most, "no max in the last tier: energy above it would have no price")
		case !last && !(t.Most > before && t.Most < 1e9):
			return fault.Invalid(at+".max", t.Most, fmt.Sprintf("above %v, where the tier before ends: tiers must not overlap", before))
		case t.Daily != p.Tiers[0].Daily && !last:
			return fault.Invalid(at+".unit", "another unit", "one unit for all tiers of a period")
		}
		before = t.Most
	}
	return nil
}

func (s *Schedule) check(field string, periods int) error {
	for m := range s {
		for h, p := range s[m] {
			if int(p) >= periods {
				return fault.Invalid(fmt.Sprintf("%s[%d][%d]", field, m, h), p, fmt.Sprintf("a period from 0 to %d: every hour needs a price", periods-1))
			}
		}
	}
	return nil
}

func (c Charge) check(field string) error {
	if !unit.Finite(c.Amount) || c.Amount < 0 || c.Amount > mostCharge*12 {
		return fault.Invalid(field, c.Amount, fmt.Sprintf("0 to %d", mostCharge*12))
	}
	return nil
}

func (d *Demand) check(field string) error {
	if len(d.Rates) == 0 {
		return nil
	}
	if len(d.Rates) > mostPeriods {
		return inside(field+"ratestructure", len(d.Rates), 1, mostPeriods, "periods")
	}
	for i, r := range d.Rates {
		if !unit.Finite(r) || r < 0 || r > mostCharge {
			return fault.Invalid(fmt.Sprintf("%sratestructure[%d]", field, i), r, fmt.Sprintf("0 to %d per kW", mostCharge))
		}
	}
	return errors.Join(d.Weekday.check(field+"weekdayschedule", len(d.Rates)), d.Weekend.check(field+"weekendschedule", len(d.Rates)))
}

func price(field string, v float64) error {
	if !unit.Finite(v) || v < -mostPrice || v > mostPrice {
		return fault.Invalid(field, v, fmt.Sprintf("%d to %d per kWh", -mostPrice, mostPrice))
	}
	return nil
}

func inside(field string, v, low, high int, what string) error {
	if v < low || v > high {
		return fault.Invalid(field, v, fmt.Sprintf("%d to %d %s", low, high, what))
	}
	return nil
}
