package facts

import "daybreak/internal/unit"

// Date is the day a Day leaf holds.
type Date = unit.Date

// ParseDate reads a day in the form 2026-11-25 (ISO 8601), and false when it
// is not one.
func ParseDate(s string) (Date, bool) { return unit.ParseDate(s) }

// packed is a day as a number that sorts like it: 20261125.
func packed(d Date) float64 {
	return float64(int(d.Year)*10000 + int(d.Month)*100 + int(d.Day))
}

func unpacked(x float64) Date {
	n := int(x)
	return Date{Year: int16(n / 10000), Month: uint8(n / 100 % 100), Day: uint8(n % 100)}
}
