package tariff

import (
	"errors"
	"fmt"
	"math"
	"time"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// calendar is what a bill must know of a month.
type calendar struct {
	month int // 0 is January
	days  int
	first int // weekday of its first day, 0 is Monday
}

func monthOf(year int, month int) calendar {
	begin := time.Date(year, time.Month(month+1), 1, 0, 0, 0, 0, time.UTC)
	return calendar{month: month, days: begin.AddDate(0, 1, -1).Day(), first: (int(begin.Weekday()) + 6) % 7}
}

func (c calendar) weekend(day int) bool { return (c.first+day)%7 >= 5 }

// Bill is the bill of a month for energy by the hour: 24 values in kWh for each
// day of the month, what is given to the grid below zero.
//
// Source: structure of the US utility rate database
func (t *Tariff) Bill(year int, month time.Month, kWh []float64) (unit.Money, error) {
	if month < time.January || month > time.December {
		return unit.Money{}, fault.Invalid("month", int(month), "1 to 12")
	}
	if err := inside("year", year, 1970, 2200, "as a year"); err != nil {
		return unit.Money{}, err
	}
	c := monthOf(year, int(month)-1)
	if len(kWh) != 24*c.days {
		return unit.Money{}, fault.Invalid("kwh", fmt.Sprintf("%d hours", len(kWh)), fmt.Sprintf("%d hours", 24*c.days))
	}
	var err error
	for i, v := range kWh {
		if !unit.Finite(v) || math.Abs(v) > 1000 {
			err = errors.Join(err, fault.Invalid(fmt.Sprintf("kwh[%d]", i), v, "−1 000 to 1 000 kWh in an hour"))
		}
	}
	if err != nil {
		return unit.Money{}, err
	}
	return t.money(t.bill(c, kWh)), nil
}

// money rounds an amount once, half up.
func (t *Tariff) money(amount float64) unit.Money {
	minor := amount * float64(pow10(t.Currency.Digits()))
	return unit.Money{Minor: int64(math.Floor(minor + 0.5 + 1e-7)), Currency: t.Currency}
}

// bill is the exact amount.
func (t *Tariff) bill(c calendar, kWh []float64) float64 {
	var used, given [mostPeriods]float64
	for d := range c.days {
		row := &t.Weekday[c.month]
		if c.weekend(d) {
			row = &t.Weekend[c.month]
		}
		for h, v := range kWh[24*d : 24*d+24] {
			if v < 0 {
				given[row[h]] -= v
			} else {
				used[row[h]] += v
			}
		}
	}
	sum := 0.0
	for i := range t.Periods {
		sum += t.Periods[i].cost(used[i], t.Adder[c.month], c.days) - given[i]*t.Periods[i].Tiers[0].Sell
	}
	sum += t.Flat.cost(c, kWh) + t.Timed.cost(c, kWh)
	sum += t.Fixed.of(c.days)
	return max(sum, t.Least.of(c.days)) - t.Credit.of(c.days)
}

// cost of a period's energy, tier by tier.
func (p *Period) cost(kWh, adder float64, days int) float64 {
	sum, from := 0.0, 0.0
	for _, tier := range p.Tiers {
		to := kWh
		if most := tier.most(days); most > 0 {
			to = min(kWh, most)
		}
		if to > from {
			sum += (to - from) * (tier.price() + adder)
			from = to
		}
	}
	return sum
}

func (t Tier) most(days int) float64 {
	if t.Daily {
		return t.Most * float64(days)
	}
	return t.Most
}

// cost of the highest hour of each period of a demand charge.
func (d *Demand) cost(c calendar, kWh []float64) float64 {
	if len(d.Rates) == 0 {
		return 0
	}
	var peak [mostPeriods]float64
	for day := range c.days {
		row := d.row(c, day)
		for h, v := range kWh[24*day : 24*day+24] {
			peak[row[h]] = max(peak[row[h]], v)
		}
	}
	sum := 0.0
	for i, r := range d.Rates {
		sum += r * peak[i]
	}
	return sum
}

func (d *Demand) row(c calendar, day int) *[24]uint8 {
	if c.weekend(day) {
		return &d.Weekend[c.month]
	}
	return &d.Weekday[c.month]
}
