package tariff

import (
	"fmt"

	"daybreak/internal/fault"
)

// flat reads the charge for a month's highest hour whatever its time.
func (p *published) flat(t *Tariff) error {
	if len(p.Flat) == 0 {
		return nil
	}
	if len(p.FlatMonths) != 12 {
		return fault.Invalid("flatdemandmonths", len(p.FlatMonths), "12 months")
	}
	rates, err := demandRates(p.Flat, p.FlatUnit, "flatdemand")
	if err != nil {
		return err
	}
	t.Flat.Rates = rates
	for m, i := range p.FlatMonths {
		if i < 0 || i >= len(rates) {
			return fault.Invalid(fmt.Sprintf("flatdemandmonths[%d]", m), i, fmt.Sprintf("0 to %d", len(rates)-1))
		}
		for h := range 24 {
			t.Flat.Weekday[m][h], t.Flat.Weekend[m][h] = uint8(i), uint8(i)
		}
	}
	return nil
}

// timed reads the charge for the highest hour within each of its periods.
func (p *published) timed(t *Tariff) error {
	if len(p.Demand) == 0 {
		return nil
	}
	if p.Window != 0 && p.Window != 15 && p.Window != 30 && p.Window != 60 {
		return fault.Invalid("demandwindow", p.Window, "15, 30 or 60 minutes")
	}
	var err error
	if t.Timed.Rates, err = demandRates(p.Demand, p.DemandUnit, "demandrate"); err != nil {
		return err
	}
	if t.Timed.Weekday, err = scheduleOf(p.DemandDays, "demandweekdayschedule"); err != nil {
		return err
	}
	t.Timed.Weekend, err = scheduleOf(p.DemandEnds, "demandweekendschedule")
	return err
}

func demandRates(periods [][]publishedTier, units, field string) ([]float64, error) {
	if units != "kW" && units != "" {
		return nil, fault.Invalid(field+"unit", units, "kW")
	}
	var out []float64
	for i, tiers := range periods {
		if len(tiers) != 1 {
			return nil, fault.Invalid(fmt.Sprintf("%sstructure[%d]", field, i), fmt.Sprintf("%d tiers", len(tiers)), "one tier: a household's demand is priced at one rate")
		}
		out = append(out, tiers[0].Rate+tiers[0].Adj)
	}
	return out, nil
}
