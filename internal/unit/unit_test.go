package unit_test

import (
	"math"
	"math/big"
	"testing"

	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestMoneyPrintsItsMinorDigits(t *testing.T) {
	for _, c := range []struct {
		code   string
		digits int
		minor  int64
		want   string
	}{
		{"USD", 2, -5, "-0.05 USD"},
		{"JPY", 0, 1200, "1200 JPY"},
		{"KWD", 3, 1234567, "1234.567 KWD"},
	} {
		cur, ok := unit.CurrencyOf(c.code, c.digits)
		require.True(t, ok)
		require.Equal(t, c.want, unit.Money{Minor: c.minor, Currency: cur}.String())
	}
	_, ok := unit.CurrencyOf("usd", 2)
	require.False(t, ok)
}

// The clever 128-bit routine against big rationals, which are slow and plain.
func TestRoundRatioAgreesWithBigRationals(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Int64().Draw(t, "a")
		b := rapid.Int64Range(-1_000_000, 1_000_000).Draw(t, "b")
		c := rapid.OneOf(rapid.Int64Range(1, 64), rapid.Int64Range(1, math.MaxInt64), rapid.Int64Range(-50, -1)).Draw(t, "c")
		for _, mode := range []unit.Rounding{unit.HalfEven, unit.HalfUp} {
			got, ok := unit.RoundRatio(a, b, c, mode)
			want := plainRound(a, b, c, mode)
			require.Equal(t, want.IsInt64() && want.Int64() != math.MinInt64, ok)
			if ok {
				require.Equal(t, want.Int64(), got)
			}
		}
	})
}

func plainRound(a, b, c int64, mode unit.Rounding) *big.Int {
	n := new(big.Int).Mul(big.NewInt(a), big.NewInt(b))
	d := big.NewInt(c)
	sign := n.Sign() * d.Sign()
	n.Abs(n)
	d.Abs(d)
	q, r := new(big.Int).QuoRem(n, d, new(big.Int))
	switch r.Lsh(r, 1).Cmp(d) {
	case 1:
		q.Add(q, big.NewInt(1))
	case 0:
		if mode == unit.HalfUp || q.Bit(0) == 1 {
			q.Add(q, big.NewInt(1))
		}
	}
	if sign < 0 {
		q.Neg(q)
	}
	return q
}

func TestPrintIsCanonical(t *testing.T) {
	require.Equal(t, "1.5", unit.Print(unit.Feet(1.50), 3))
	require.Equal(t, "0", unit.Print(unit.Feet(-0.0001), 2))
	require.Equal(t, "120", unit.Print(unit.Volts(120), 0))
}
