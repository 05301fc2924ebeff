package pricing

import (
	"math/big"
	"slices"
	"strings"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// Rate is a fraction of an amount, exact to nine decimals.
type Rate struct {
	num, den int64
	text     string
}

// ParseRate reads a decimal fraction such as "0.0825", at most most and with
// at most nine decimals. The field names it in the fault.
func ParseRate(field, text string, most int) (Rate, error) {
	whole, frac, _ := strings.Cut(text, ".")
	r, ok := new(big.Rat).SetString(text)
	if len(whole) > 3 || len(frac) > 9 || strings.ContainsAny(text, "eE/+_") || !ok || r.Sign() < 0 ||
		r.Cmp(big.NewRat(int64(most), 10)) > 0 {
		return Rate{}, fault.Invalid(field, text, "a fraction of 0 to "+big.NewRat(int64(most), 10).FloatString(1)+
			"; 8.25 looks like a percentage, write 0.0825")
	}
	return Rate{r.Num().Int64(), r.Denom().Int64(), text}, nil
}

// Of gives the rate's share of an amount, rounded once.
func (r Rate) Of(minor int64, mode unit.Rounding) int64 {
	if r.num == 0 {
		return 0
	}
	v, _ := unit.RoundRatio(minor, r.num, r.den, mode)
	return v
}

// String gives the rate as it was written.
func (r Rate) String() string { return r.text }

func (r Rate) float() float64 {
	if r.num == 0 {
		return 0
	}
	return float64(r.num) / float64(r.den)
}

// Policy turns a cost into a selling price: "margin" is cost / (1 − rate),
// "markup" is cost × (1 + rate), "cost" and "list" leave it as it stands. A
// margin of 35 % is a markup of 53.85 %; the two are not to be swapped.
type Policy struct {
	Kind   string
	factor *big.Rat
}

// PolicyKinds are the words a price class may use.
var policyKinds = []string{"margin", "markup", "cost", "list"}

// NewPolicy makes a policy. A margin is 0 to below 1, a markup 0 to 10; the
// field names the rate in the fault.
func NewPolicy(field, kind, rate string) (Policy, error) {
	one := big.NewRat(1, 1)
	if !slices.Contains(policyKinds, kind) {
		return Policy{}, fault.Invalid(field, kind, strings.Join(policyKinds, ", "))
	}
	if kind == "cost" || kind == "list" {
		return Policy{kind, one}, nil
	}
	r, ok := new(big.Rat).SetString(rate)
	if len(rate) > 40 || strings.ContainsAny(rate, "eE/+_") || !ok || r.Sign() < 0 {
		return Policy{}, fault.Invalid(field, rate, "a fraction of 0 or more")
	}
	if kind == "margin" {
		if r.Cmp(one) >= 0 {
			return Policy{}, fault.Invalid(field, rate, "a margin of 0 to below 1")
		}
		return Policy{kind, new(big.Rat).Inv(new(big.Rat).Sub(one, r))}, nil
	}
	if r.Cmp(big.NewRat(10, 1)) > 0 {
		return Policy{}, fault.Invalid(field, rate, "a markup of 0 to 10")
	}
	return Policy{kind, new(big.Rat).Add(one, r)}, nil
}

// Price gives the unit price of a cost in minor units, half to even. It is
// rounded before it is multiplied by a quantity: only so can a buyer re-add
// the print.
func (p Policy) Price(cost int64) (int64, bool) {
	return roundHalfEven(new(big.Rat).Mul(big.NewRat(cost, 1), p.factor))
}

// roundHalfEven rounds a rational that is not negative; false beyond 10¹².
func roundHalfEven(r *big.Rat) (int64, bool) {
	q, rest := new(big.Int).QuoRem(r.Num(), r.Denom(), new(big.Int))
	switch rest.Lsh(rest, 1).Cmp(r.Denom()) {
	case 1:
		q.Add(q, big.NewInt(1))
	case 0:
		if q.Bit(0) == 1 {
			q.Add(q, big.NewInt(1))
		}
	}
	if !q.IsInt64() || q.Int64() > largestAmount {
		return 0, false
	}
	return q.Int64(), true
}

// largestAmount keeps a bill of the most lines, each of the longest length at
// the largest unit price, within an int64.
const largestAmount = 1_000_000_000_000

// Allocate spreads a total over weights by largest remainder: floor shares,
// then one minor unit to the largest remainders, ties to the earlier. Negative
// totals go by sign; when no weight is above zero all weigh alike.
//
// Source: largest-remainder apportionment, as common in invoicing.
func Allocate(total int64, weights []int64) []int64 {
	shares := make([]int64, len(weights))
	if len(weights) == 0 || total == 0 {
		return shares
	}
	allocate(total, weights, shares)
	return shares
}

// allocate writes the shares of a total into a slice as long as the weights.
func allocate(total int64, weights, shares []int64) {
	sum := new(big.Int)
	equal := true
	for _, w := range weights {
		if w > 0 {
			sum.Add(sum, big.NewInt(w))
			equal = false
		}
	}
	weight := func(i int) *big.Int {
		if equal {
			return big.NewInt(1)
		}
		return big.NewInt(max(weights[i], 0))
	}
	if equal {
		sum.SetInt64(int64(len(weights)))
	}
	left := new(big.Int).Abs(big.NewInt(total))
	remainders := make([]*big.Int, len(weights))
	order := make([]int, len(weights))
	part := new(big.Int).Set(left)
	for i := range weights {
		q, r := new(big.Int).QuoRem(new(big.Int).Mul(part, weight(i)), sum, new(big.Int))
		shares[i], remainders[i], order[i] = q.Int64(), r, i
		left.Sub(left, q)
	}
	slices.SortStableFunc(order, func(a, b int) int { return remainders[b].Cmp(remainders[a]) })
	for _, i := range order[:left.Int64()] {
		shares[i]++
	}
	if total < 0 {
		for i := range shares {
			shares[i] = -shares[i]
		}
	}
}
