package tariff

import (
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Cost is what a year of charging adds to a household's bill.
type Cost struct {
	Year    unit.Money
	ByMonth [12]unit.Money
	Energy  unit.KilowattHours
	Unmet   unit.KilowattHours // needed and beyond what the nights can take; charged elsewhere, not in Year
	ByHour  [24]unit.KilowattHours
}

// PerMonth is a twelfth of the year, rounded half up.
func (c Cost) PerMonth() unit.Money {
	return unit.Money{Minor: (2*c.Year.Minor + 12) / 24, Currency: c.Year.Currency}
}

// PerKWh is the mean price in minor units; 0 without energy.
func (c Cost) PerKWh() float64 {
	if c.Energy <= 0 {
		return 0
	}
	return float64(c.Year.Minor) / float64(c.Energy)
}

// Comparison is a year of charging on one tariff, both ways.
type Comparison struct {
	Tariff    string // its label
	Unmanaged Cost   // plug in and charge
	Scheduled Cost   // the cheapest hours that still meet departure
	Saves     unit.Money
}

// Compare costs a year of charging on a tariff. Each night puts back what the
// day before took, as far as its hours reach; both ways deliver the same
// energy. Where charging alone stands on the tariff's meter, its fixed charges
// count as well.
//
// Source: structure of the US utility rate database
func Compare(t *Tariff, c Charging, sheet *working.Sheet) (Comparison, error) {
	if err := c.check(); err != nil {
		return Comparison{}, err
	}
	if t.EVOnly {
		c.House = [24]unit.Kilowatts{}
	}
	y := yearOf(c.Year)
	out := Comparison{
		Tariff:    t.Label,
		Unmanaged: t.cost(&c, y, c.atOnce(y)),
		Scheduled: t.cost(&c, y, t.cheapest(&c, y)),
	}
	if out.Scheduled.Year.Minor > out.Unmanaged.Year.Minor { // tiers in several periods are only ordered
		out.Scheduled = out.Unmanaged
	}
	out.Saves = unit.Money{Minor: out.Unmanaged.Year.Minor - out.Scheduled.Year.Minor, Currency: t.Currency}
	out.show(t, sheet)
	return out, nil
}

// CompareAll costs a year on every tariff, in their order.
func CompareAll(tariffs []Tariff, c Charging, sheet *working.Sheet) ([]Comparison, error) {
	out := make([]Comparison, 0, len(tariffs))
	for i := range tariffs {
		one, err := Compare(&tariffs[i], c, sheet)
		if err != nil {
			return nil, err
		}
		out = append(out, one)
	}
	return out, nil
}

// cost is the bill with charging less the bill without, month by month; each
// is rounded as a bill is, and the year is their sum.
func (t *Tariff) cost(c *Charging, y *year, p plan) Cost {
	out := Cost{Year: unit.Money{Currency: t.Currency}, Unmet: unit.KilowattHours(p.unmet)}
	with := make([]float64, 31*24)
	for m, cal := range y.months {
		hours := with[:24*cal.days]
		for i := range hours {
			hours[i] = c.house(i)
		}
		before := 0.0
		if !t.EVOnly {
			before = t.bill(cal, hours)
		}
		for i, kWh := range p.kWh[y.from[m] : y.from[m]+24*cal.days] {
			hours[i] += kWh
			out.Energy += unit.KilowattHours(kWh)
			out.ByHour[i%24] += unit.KilowattHours(kWh)
		}
		out.ByMonth[m] = t.money(t.bill(cal, hours) - before)
		out.Year = out.Year.Plus(out.ByMonth[m])
	}
	return out
}

func (o *Comparison) show(t *Tariff, sheet *working.Sheet) {
	if !sheet.Keeping() {
		return
	}
	major := func(m unit.Money) float64 { return float64(m.Minor) / float64(pow10(m.Currency.Digits())) }
	code := t.Currency.Code()
	sheet.Add(working.Step{
		Rule:   "tariff.year.unmanaged",
		In:     working.In(working.Word("tariff", t.Name), working.Num("energy", o.Unmanaged.Energy, "kWh")),
		Out:    working.Num("cost", major(o.Unmanaged.Year), code),
		Source: t.Source,
	})
	sheet.Add(working.Step{
		Rule:   "tariff.year.scheduled",
		In:     working.In(working.Word("tariff", t.Name), working.Num("energy", o.Scheduled.Energy, "kWh"), working.Num("saves", major(o.Saves), code)),
		Out:    working.Num("cost", major(o.Scheduled.Year), code),
		Source: t.Source,
	})
	if o.Unmanaged.Unmet > 0 {
		sheet.Add(working.Step{
			Rule:   "tariff.year.unmet",
			Out:    working.Num("energy", o.Unmanaged.Unmet, "kWh"),
			Source: t.Source,
		})
	}
}

func pow10(digits int) int64 {
	out := int64(1)
	for range digits {
		out *= 10
	}
	return out
}
