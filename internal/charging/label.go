package charging

import (
	"errors"
	"math"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// kWhPerGallon is the label's energy equivalent of a US gallon of petrol.
const kWhPerGallon = 33.705

// MPGe is miles per gallon of petrol equivalent.
//
// Source: 40 CFR 600.311-12 (33.705 kWh a gallon)
func MPGe(c Consumption) (float64, error) {
	if err := c.check(); err != nil {
		return 0, err
	}
	return kWhPerGallon * 100 / float64(c), nil
}

// LabelFull is the wall energy of one full recharge, from the range and rate
// of a label, and the average power that a stated charge time implies. It is
// less than the on-board rating: the time runs to the maker's end of charge.
//
// Source: 40 CFR 600.311-12; SAE J1634
func LabelFull(electricRange unit.Miles, c Consumption, at240 unit.Hours) (unit.KilowattHours, unit.Kilowatts, error) {
	err := errors.Join(above("range_mi", electricRange, 0, 2000, "mi"), c.check(), above("charge240_h", at240, 0, 100, "h"))
	if err != nil {
		return 0, 0, err
	}
	full := float64(electricRange) * c.kWhPerMile()
	return unit.KilowattHours(full), unit.Kilowatts(full / float64(at240)), nil
}

// ImpliedConsumption is the consumption behind a rule of thumb: so many miles
// an hour at such a power. The published ones do not share one.
func ImpliedConsumption(wall unit.Kilowatts, milesPerHour unit.Miles) (Consumption, error) {
	err := errors.Join(above("wall_kw", wall, 0, 50, "kW"), above("mi_per_h", milesPerHour, 0, 1000, "mi/h"))
	if err != nil {
		return 0, err
	}
	return Consumption(float64(wall) * 100 / float64(milesPerHour)), nil
}

// YearAtOnePrice is a year's wall energy and its cost at one price, given in
// minor units (cents) per kilowatt-hour; the cost is rounded half-even once.
// Tariffs with hours and tiers belong to room tariff.
func YearAtOnePrice(annual unit.Miles, c Consumption, minorPerKWh float64, currency unit.Currency) (unit.KilowattHours, unit.Money, error) {
	err := errors.Join(
		within("annual_miles", annual, 0, 200000, "mi"), c.check(),
		within("price_per_kwh", minorPerKWh, 0, 100000, "minor units"),
	)
	if currency.Code() == "" {
		err = errors.Join(err, fault.Invalid("currency", "none", "a currency"))
	}
	if err != nil {
		return 0, unit.Money{}, err
	}
	kwh := float64(annual) * c.kWhPerMile()
	return unit.KilowattHours(kwh), unit.Money{Minor: int64(math.RoundToEven(kwh * minorPerKWh)), Currency: currency}, nil
}
