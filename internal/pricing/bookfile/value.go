package bookfile

import (
	"slices"
	"strconv"
	"strings"

	"daybreak/internal/unit"

	"github.com/cockroachdb/apd/v3"
	"go.yaml.in/yaml/v3"
)

// scalar gives the text of a single value.
func (n Node) scalar(accepted string) (string, bool) {
	if n.n == nil {
		return "", false
	}
	if n.n.Kind != yaml.ScalarNode || n.n.Tag == "!!null" {
		n.Fault(n.shape(), accepted)
		return "", false
	}
	return n.n.Value, true
}

// IsNull reports whether the value is written as nothing.
func (n Node) IsNull() bool { return n.n != nil && n.n.Kind == yaml.ScalarNode && n.n.Tag == "!!null" }

// IsList reports whether the value is a list.
func (n Node) IsList() bool { return n.n != nil && n.n.Kind == yaml.SequenceNode }

// Text gives a text that is not empty, of at most 400 bytes.
func (n Node) Text() string {
	s, ok := n.scalar("a text")
	if ok && (strings.TrimSpace(s) == "" || len(s) > 400) {
		n.Fault(s, "a text of 1 to 400 bytes")
		return ""
	}
	return s
}

// Word gives one of a closed list of words.
func (n Node) Word(accepted ...string) string {
	s, ok := n.scalar(strings.Join(accepted, ", "))
	if !ok || slices.Contains(accepted, s) {
		return s
	}
	n.Fault(s, strings.Join(accepted, ", "))
	return ""
}

// Whole gives a whole number within bounds.
func (n Node) Whole(least, most int) int {
	accepted := strconv.Itoa(least) + " to " + strconv.Itoa(most)
	s, ok := n.scalar(accepted)
	if !ok {
		return 0
	}
	v, err := strconv.Atoi(s)
	if err != nil || v < least || v > most {
		n.Fault(s, "a whole number, "+accepted)
		return 0
	}
	return v
}

// Flag gives yes or no.
func (n Node) Flag() bool {
	return n.Word("true", "false") == "true"
}

// Date gives a calendar date.
func (n Node) Date() unit.Date {
	s, ok := n.scalar("a date, 2026-07-01")
	if !ok {
		return unit.Date{}
	}
	d, ok := unit.ParseDate(s)
	if !ok {
		n.Fault(s, "a date, 2026-07-01")
	}
	return d
}

// Decimal gives a decimal number written without exponent, with at most the
// given digits after the point, within bounds that are decimals themselves.
func (n Node) Decimal(digits int, least, most string) *apd.Decimal {
	accepted := least + " to " + most + ", at most " + strconv.Itoa(digits) + " decimals"
	s, ok := n.scalar(accepted)
	if !ok {
		return new(apd.Decimal)
	}
	d, ok := decimal(s)
	if !ok || int(d.Exponent) < -digits || d.Cmp(bound(least)) < 0 || d.Cmp(bound(most)) > 0 {
		n.Fault(s, accepted)
		return new(apd.Decimal)
	}
	return d
}

// Scaled gives a decimal as a whole count of its last digit: 0.0825 with four
// digits is 825.
func (n Node) Scaled(digits int, least, most string) int64 {
	d := n.Decimal(digits, least, most)
	v := new(apd.BigInt).Set(&d.Coeff)
	for e := int(d.Exponent); e > -digits; e-- {
		v.Mul(v, apd.NewBigInt(10))
	}
	if d.Negative {
		v.Neg(v)
	}
	if !v.IsInt64() {
		n.Fault(d.String(), "a smaller number")
		return 0
	}
	return v.Int64()
}

// decimal reads digits with at most one point; "1e9", "NaN" and "+1" are not
// how a price is written.
func decimal(s string) (*apd.Decimal, bool) {
	body := strings.TrimPrefix(s, "-")
	whole, frac, point := strings.Cut(body, ".")
	if len(body) > 40 || whole == "" || (point && frac == "") || !digitsOnly(whole) || !digitsOnly(frac) {
		return nil, false
	}
	d, _, err := apd.NewFromString(s)
	return d, err == nil
}

func digitsOnly(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return true
}

// bound reads a bound, which is a literal of the caller.
func bound(s string) *apd.Decimal {
	d, ok := decimal(s)
	if !ok {
		panic("bookfile: the bound " + s + " is no decimal")
	}
	return d
}
