package wire

import (
	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/quote"
	"daybreak/internal/shop"
	"daybreak/internal/tariff"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Tariff is a tariff of the shop's place.
func Tariff(t *tariff.Tariff) *daybreakv1.CatalogueTariff {
	out := &daybreakv1.CatalogueTariff{
		Name: tariffName(t), Text: t.Name, Utility: t.Utility, CurrencyCode: t.Currency.Code(), ChargingOnly: t.EVOnly,
		Fixed: charge(t.Fixed), Least: charge(t.Least), Credit: charge(t.Credit),
	}
	for _, p := range t.Periods {
		period := &daybreakv1.TariffPeriod{Text: p.Name}
		for _, tier := range p.Tiers {
			one := &daybreakv1.TariffTier{Price: tier.Rate + tier.Adj, Daily: tier.Daily}
			if tier.Most > 0 {
				one.UpToKwh = &tier.Most
			}
			period.Tiers = append(period.Tiers, one)
		}
		out.Periods = append(out.Periods, period)
	}
	for m := range t.Weekday {
		out.Months = append(out.Months, &daybreakv1.TariffMonth{Weekday: places(t.Weekday[m]), Weekend: places(t.Weekend[m])})
	}
	if t.Source != nil {
		out.Publication, out.Status = t.Source.Publication, status(t.Source.Status)
	}
	return out
}

func places(hours [24]uint8) []int32 {
	out := make([]int32, len(hours))
	for h, p := range hours {
		out[h] = int32(p)
	}
	return out
}

// charge is an amount beside energy; nil where there is none.
func charge(c tariff.Charge) *daybreakv1.TariffCharge {
	if c.Amount == 0 {
		return nil
	}
	return &daybreakv1.TariffCharge{Amount: c.Amount, ChargedBy: daybreakv1.ChargedBy(c.Per) + 1}
}

// Revision names a book as it was loaded.
func Revision(r shop.Revision) *daybreakv1.BookRevision {
	return &daybreakv1.BookRevision{Book: r.Book, Revision: r.Name, Digest: r.Digest}
}

// leastSaid is the smallest saving that is said as an amount, in minor units:
// amounts are said to the nearest ten.
const leastSaid = 500

// OptionCosts is a year of one way of charging on each tariff, in their order.
func (w *Words) OptionCosts(wall unit.Kilowatts, tariffs []tariff.Tariff, all []tariff.Comparison, steps []working.Step) *daybreakv1.OptionCosts {
	out := &daybreakv1.OptionCosts{WallKw: float64(wall), Working: w.Working(steps)}
	for i, c := range all {
		year := &daybreakv1.TariffYear{
			Tariff: tariffName(&tariffs[i]), Text: tariffs[i].Name, Summary: w.say("tariff.same"),
			Unmanaged: cost(&c.Unmanaged), Scheduled: cost(&c.Scheduled), Saves: money(c.Saves.Minor, c.Saves.Currency),
		}
		switch {
		case c.Saves.Minor >= leastSaid:
			year.Summary = w.say("tariff.saves", working.Word("saves", quote.Rounded(c.Saves.Minor, c.Saves.Currency.Code())))
		case c.Saves.Minor > 0:
			year.Summary = w.say("tariff.little")
		}
		out.Tariffs = append(out.Tariffs, year)
	}
	return out
}

func cost(c *tariff.Cost) *daybreakv1.ChargingCost {
	month := c.PerMonth()
	out := &daybreakv1.ChargingCost{
		Year: money(c.Year.Minor, c.Year.Currency), PerMonth: money(month.Minor, month.Currency),
		EnergyKwh: float64(c.Energy), UnmetKwh: float64(c.Unmet), MinorUnitsPerKwh: c.PerKWh(),
	}
	for _, m := range c.ByMonth {
		out.Months = append(out.Months, money(m.Minor, m.Currency))
	}
	for _, kWh := range c.ByHour {
		out.HourKwh = append(out.HourKwh, float64(kWh))
	}
	return out
}
