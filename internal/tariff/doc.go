// Package tariff says what a year of charging costs, plugged in and charging
// at once or left to the cheapest hours that still meet departure.
//
// A [Tariff] has the structure of the US utility rate database: periods of
// tiers, a schedule of periods by month and hour for weekdays and weekends,
// fixed and least charges, and charges for the highest demand. [ReadPublished]
// reads that format in its published field names, [Load] our own, whose hours
// are written as people say them, and [Write] writes that; all refuse what has
// gaps or overlaps, and what cannot be honoured, by name.
//
// Read [Tariff.Bill] first: a month's bill of hourly energy. Then [Compare]: a
// year of charging both ways, as what it adds to the household's bill. Within a
// period, tiers count that period's own energy; the format's readers differ
// there, and with one period it is the month's. A bill is summed exactly and
// rounded once, half up, to the minor unit.
//
// The hours chosen are the cheapest there are, exactly, where energy is priced
// by hour. With charges for demand, hours of dearer demand are spared first,
// and then the month's peak is lowered as far as that pays. Hours are the
// utility's local clock; the format knows no holidays and no daylight saving.
//
// The room does not say which tariff a household may have.
package tariff
