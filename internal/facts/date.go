package facts

import (
	"fmt"
	"time"
)

// Date is a calendar day, comparable with ==. Its zero value is no day.
type Date struct{ packed int32 } // year·10000 + month·100 + day

// NewDate returns the day, and false when the calendar has no such day or the
// year lies outside 1900 to 9999.
func NewDate(year, month, day int) (Date, bool) {
	if year < 1900 || year > 9999 || month < 1 || month > 12 || day < 1 || day > 31 {
		return Date{}, false
	}
	t := time.Date(year, time.Month(month), day, 0, 0, 0, 0, time.UTC)
	if t.Day() != day {
		return Date{}, false
	}
	return Date{int32(year*10000 + month*100 + day)}, true
}

// ParseDate reads a day in the form 2026-11-25 (ISO 8601), and false when it
// is not one.
func ParseDate(s string) (Date, bool) {
	if len(s) != 10 {
		return Date{}, false
	}
	t, err := time.Parse(time.DateOnly, s)
	if err != nil {
		return Date{}, false
	}
	return NewDate(t.Year(), int(t.Month()), t.Day())
}

// Year is the year of the day.
func (d Date) Year() int { return int(d.packed) / 10000 }

// Month is 1 to 12.
func (d Date) Month() int { return int(d.packed) / 100 % 100 }

// Day is the day of the month.
func (d Date) Day() int { return int(d.packed) % 100 }

// IsZero reports whether it is no day at all.
func (d Date) IsZero() bool { return d.packed == 0 }

// Before reports whether d lies before e.
func (d Date) Before(e Date) bool { return d.packed < e.packed }

// String prints the day as 2026-11-25.
func (d Date) String() string {
	if d.IsZero() {
		return ""
	}
	return fmt.Sprintf("%04d-%02d-%02d", d.Year(), d.Month(), d.Day())
}
