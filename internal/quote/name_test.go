package quote

import (
	"strings"
	"testing"

	"daybreak/internal/facts"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// One misheard symbol, or two neighbours changed over, is noticed.
// Source: Crockford, Base 32 encoding, check symbol modulo 37.
func TestAReferenceKnowsWhenItIsMisread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ref := Reference(rapid.StringMatching("[0-9a-f]{64}").Draw(t, "fingerprint"))
		require.Len(t, ref, 11)
		require.True(t, ReferenceHolds(ref))
		require.True(t, ReferenceHolds(strings.ToLower(strings.ReplaceAll(ref, "-", " "))))
		plain := strings.ReplaceAll(ref, "-", "")
		i := rapid.IntRange(0, 8).Draw(t, "place")
		c := symbols[rapid.IntRange(0, len(symbols)-1).Draw(t, "symbol")]
		if plain[i] != c {
			require.False(t, ReferenceHolds(plain[:i]+string(c)+plain[i+1:]), "%s read with %c at %d", ref, c, i)
		}
		if j := rapid.IntRange(0, 6).Draw(t, "pair"); plain[j] != plain[j+1] {
			b := []byte(plain)
			b[j], b[j+1] = b[j+1], b[j]
			require.False(t, ReferenceHolds(string(b)), "%s with two changed over", ref)
		}
	})
}

func TestWhatIsNoReferenceIsRefused(t *testing.T) {
	for _, bad := range []string{"", "-", "ABCD", "7KT4-ATPM-8-8", "7KT4-ATPU-8", "7KT4-ATPM-é", strings.Repeat("0", 1000)} {
		require.False(t, ReferenceHolds(bad), "%q", bad)
	}
	require.Empty(t, Reference("not hexadecimal"))
	require.Empty(t, Reference("ab"))
}

// The fingerprint names what was told, the date and the books.
func TestAFingerprintChangesWithAnyToldLeaf(t *testing.T) {
	day := unit.Date{Year: 2026, Month: 11, Day: 25}
	books := []Revision{{"prices", "1", "aa"}}
	var nothing facts.Facts
	base := Fingerprint(&nothing, day, books)
	require.Equal(t, base, Fingerprint(&nothing, day, books))
	seen := map[string]string{base: "nothing told"}
	for _, l := range facts.Leaves() {
		var f facts.Facts
		l.At(&f).DeriveNumber(l.High, 0)
		if v := l.At(&f).Value(); v != nil {
			require.NoError(t, l.At(&f).Tell(v), l.Path)
			mark := Fingerprint(&f, day, books)
			require.Empty(t, seen[mark], "%s and %s", seen[mark], l.Path)
			seen[mark] = l.Path
		}
	}
	require.NotEqual(t, base, Fingerprint(&nothing, day.Plus(1), books))
	require.NotEqual(t, base, Fingerprint(&nothing, day, []Revision{{"prices", "1", "ab"}}))
}
