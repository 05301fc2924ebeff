package document

import (
	"math/big"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var (
	billRow = regexp.MustCompile(`^  .* ([\d.]+) (?:h|each|ft|set|visit|job|stick|\S+) +(-?[\d.]+) +(-?\d+\.\d\d)$`)
	sumRow  = regexp.MustCompile(`^  (Discount|Subtotal|Permit and inspection|Tax|Total, the priced figure) +(-?\d+\.\d\d)$`)
)

// A reader with nothing but the printed page comes to the same total, cent by
// cent: quantity × price rounded half to even, then the sums.
func TestThePrintedBillAddsUp(t *testing.T) {
	bills := 0
	for _, h := range printHouseholds(t) {
		_, page, there := strings.Cut(h.text, "The price, line by line\n")
		if !there {
			continue
		}
		bills++
		addAgain(t, h.id, page)
	}
	require.GreaterOrEqual(t, bills, 10)
}

// A bill of its own is added again like the first, and both together are the
// sum of their totals.
func TestABillOfItsOwnAddsUpToo(t *testing.T) {
	bills := 0
	for _, h := range printHouseholds(t) {
		for _, page := range strings.Split(h.text, "A bill of its own beside it\n")[1:] {
			bills++
			total := addAgain(t, h.id, page)
			together := regexp.MustCompile(`Both bills together +(\d+\.\d\d)`).FindStringSubmatch(page)
			require.NotNil(t, together, h.id)
			require.Positive(t, rat(t, together[1]).Cmp(total), h.id)
			require.Contains(t, page, "What the utility and the inspector do", h.id)
		}
	}
	require.GreaterOrEqual(t, bills, 4)
}

// addAgain adds one printed bill again and gives its total.
func addAgain(t *testing.T, id, page string) *big.Rat {
	lines, sums := new(big.Rat), map[string]*big.Rat{}
	for _, row := range strings.Split(page, "\n")[1:] {
		if row == "" {
			break
		}
		if m := billRow.FindStringSubmatch(row); m != nil {
			amount := rat(t, m[3])
			require.Equal(t, amount.FloatString(2), halfEven(new(big.Rat).Mul(rat(t, m[1]), rat(t, m[2]))).FloatString(2), "%s: %s", id, row)
			lines.Add(lines, amount)
			continue
		}
		if m := sumRow.FindStringSubmatch(row); m != nil {
			sums[m[1]] = rat(t, m[2])
		}
	}
	require.Contains(t, sums, "Subtotal", id)
	if d := sums["Discount"]; d != nil {
		lines.Sub(lines, d)
	}
	require.Equal(t, sums["Subtotal"].FloatString(2), lines.FloatString(2), id)
	for _, key := range []string{"Permit and inspection", "Tax"} {
		if s := sums[key]; s != nil {
			lines.Add(lines, s)
		}
	}
	require.Equal(t, sums["Total, the priced figure"].FloatString(2), lines.FloatString(2), id)
	return lines
}

func rat(t *testing.T, s string) *big.Rat {
	r, ok := new(big.Rat).SetString(s)
	require.True(t, ok, s)
	return r
}

// halfEven rounds to the cent, a half to the even one.
func halfEven(r *big.Rat) *big.Rat {
	cents := new(big.Rat).Mul(r, big.NewRat(100, 1))
	n, rest := new(big.Int).QuoRem(cents.Num(), cents.Denom(), new(big.Int))
	switch twice := new(big.Int).Lsh(rest, 1); twice.Cmp(cents.Denom()) {
	case 1:
		n.Add(n, big.NewInt(1))
	case 0:
		n.Add(n, new(big.Int).And(n, big.NewInt(1)))
	}
	return new(big.Rat).SetFrac(n, big.NewInt(100))
}

// The page stays within a terminal, and no key or empty brace is left in it.
func TestThePageReadsWhole(t *testing.T) {
	key := regexp.MustCompile(`\b(quote|text|word|standing|role|panel|circuit|pricing|outlet|charging)\.[a-z_]+\.?[a-z_]*\b`)
	for _, h := range printHouseholds(t) {
		if dir := os.Getenv("DAYBREAK_PAGES"); dir != "" {
			require.NoError(t, os.WriteFile(dir+"/"+h.id+".txt", []byte(h.text), 0o644))
		}
		text := regexp.MustCompile(`(?m)^ [▸ ] .*$`).ReplaceAllString(h.text, "") // the list of leaves
		require.NotContains(t, text, "{", h.id)
		if found := key.FindString(text); found != "" && !strings.Contains(found, "_feet") {
			require.Fail(t, "a key is left", "%s: %s", h.id, found)
		}
		for _, row := range strings.Split(h.text, "\n") {
			require.LessOrEqual(t, len([]rune(row)), 132, "%s: %s", h.id, row)
		}
	}
}
