package unit

import (
	"fmt"
	"math/bits"
)

// Currency is an ISO 4217 code with its number of minor digits. The zero value
// is no currency. Obtain one with [CurrencyOf].
type Currency struct {
	code   [3]byte
	digits uint8
}

// CurrencyOf returns the currency of an ISO 4217 code and its minor digits
// (0, 2 or 3), or false when the code is not three capital letters or the
// digits are none of these.
func CurrencyOf(code string, digits int) (Currency, bool) {
	if len(code) != 3 || (digits != 0 && digits != 2 && digits != 3) {
		return Currency{}, false
	}
	c := Currency{digits: uint8(digits)}
	for i := range 3 {
		if code[i] < 'A' || code[i] > 'Z' {
			return Currency{}, false
		}
		c.code[i] = code[i]
	}
	return c, true
}

// Code returns the ISO 4217 code, or "" for no currency.
func (c Currency) Code() string {
	if c.code[0] == 0 {
		return ""
	}
	return string(c.code[:])
}

// Digits returns the number of minor digits: 2 for cents.
func (c Currency) Digits() int { return int(c.digits) }

// Money is an exact amount: a whole number of a currency's minor units.
type Money struct {
	Minor    int64
	Currency Currency
}

// Plus adds two amounts of one currency. It panics on different currencies,
// which no data can cause: a price book has exactly one.
func (m Money) Plus(o Money) Money {
	if m.Currency != o.Currency {
		panic(fmt.Sprintf("unit: adding %s to %s", o.Currency.Code(), m.Currency.Code()))
	}
	return Money{m.Minor + o.Minor, m.Currency}
}

// String prints the amount as digits with its code, such as "1234.50 USD".
func (m Money) String() string {
	n, sign := m.Minor, ""
	if n < 0 {
		n, sign = -n, "-"
	}
	d := m.Currency.Digits()
	if d == 0 {
		return fmt.Sprintf("%s%d %s", sign, n, m.Currency.Code())
	}
	scale := int64(1)
	for range d {
		scale *= 10
	}
	return fmt.Sprintf("%s%d.%0*d %s", sign, n/scale, d, n%scale, m.Currency.Code())
}

// Rounding says what becomes of an exact half.
type Rounding uint8

const (
	// HalfEven sends a half to the even neighbour; the rule of bill lines.
	HalfEven Rounding = iota
	// HalfUp sends a half away from zero; the rule of US sales tax rows.
	HalfUp
)

// RoundRatio returns a*b/c rounded to a whole number, computed exactly in 128
// bits. It reports false when c is zero or the result does not fit an int64.
func RoundRatio(a, b, c int64, mode Rounding) (int64, bool) {
	if c == 0 {
		return 0, false
	}
	neg := (a < 0) != (b < 0) != (c < 0)
	ua, ub, uc := magnitude(a), magnitude(b), magnitude(c)
	hi, lo := bits.Mul64(ua, ub)
	if hi >= uc {
		return 0, false
	}
	q, r := bits.Div64(hi, lo, uc)
	twice := r * 2
	above := r > uc-r
	half := r != 0 && twice == uc && r == uc-r
	if above || (half && (mode == HalfUp || q%2 == 1)) {
		q++
	}
	if q > 1<<63-1 {
		return 0, false
	}
	if neg {
		return -int64(q), true
	}
	return int64(q), true
}

func magnitude(x int64) uint64 {
	if x < 0 {
		return uint64(-(x + 1)) + 1
	}
	return uint64(x)
}
