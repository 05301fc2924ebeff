package wire

import (
	"math"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/pricing"
	"daybreak/internal/quote"
	"daybreak/internal/unit"
)

func money(minor int64, c unit.Currency) *daybreakv1.Money {
	return &daybreakv1.Money{CurrencyCode: c.Code(), MinorUnits: minor}
}

// span is a range of prices and how people say it.
func span(low, likely, high int64, c unit.Currency) *daybreakv1.PriceRange {
	text := quote.Rounded(low, c.Code())
	if to := quote.Rounded(high, c.Code()); to != text {
		text += " to " + to
	}
	return &daybreakv1.PriceRange{Low: money(low, c), Likely: money(likely, c), High: money(high, c), Text: text}
}

// spread is a range whose ends are statistics of a bill.
func spread(s pricing.Spread, likely int64, c unit.Currency) *daybreakv1.PriceRange {
	return span(whole(s.P10), likely, whole(s.P90), c)
}

func whole(x float64) int64 { return int64(math.RoundToEven(x)) }

// decimal prints a count of parts of one as an exact decimal.
func decimal(n int64, parts float64) string {
	digits := 0
	for p := parts; p > 1; p /= 10 {
		digits++
	}
	return unit.Print(float64(n)/parts, digits)
}
