package unit

import (
	"fmt"
	"time"
)

// Date is a calendar date without hour or zone, from year 1 to 9999. The zero
// value is no date. Dates compare with [Date.Before]; two equal dates are ==.
type Date struct {
	Year  int16
	Month uint8
	Day   uint8
}

// ParseDate reads "2026-11-25" and reports false for anything else, and for a
// day that no calendar has.
//
// Source: ISO 8601, calendar date, extended form.
func ParseDate(s string) (Date, bool) {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil || t.Year() < 1 {
		return Date{}, false
	}
	return Date{int16(t.Year()), uint8(t.Month()), uint8(t.Day())}, true
}

// IsZero reports whether d is no date.
func (d Date) IsZero() bool { return d == Date{} }

// Before reports whether d lies before o.
func (d Date) Before(o Date) bool {
	if d.Year != o.Year {
		return d.Year < o.Year
	}
	if d.Month != o.Month {
		return d.Month < o.Month
	}
	return d.Day < o.Day
}

// Plus gives the date a number of days later, or earlier when negative.
func (d Date) Plus(days int) Date {
	t := time.Date(int(d.Year), time.Month(d.Month), int(d.Day)+days, 0, 0, 0, 0, time.UTC)
	return Date{int16(t.Year()), uint8(t.Month()), uint8(t.Day())}
}

// String prints the date as it is read, "" for no date.
func (d Date) String() string {
	if d.IsZero() {
		return ""
	}
	return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day)
}
