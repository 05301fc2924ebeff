package unit_test

import (
	"testing"

	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

func TestDatesReadPrintAndCompare(t *testing.T) {
	d, ok := unit.ParseDate("2026-12-31")
	require.True(t, ok)
	require.Equal(t, "2026-12-31", d.String())
	require.Equal(t, "2027-01-01", d.Plus(1).String())
	require.True(t, d.Before(d.Plus(1)))
	require.False(t, d.Before(d))
	require.True(t, d.Plus(-300).Before(d))
	for _, bad := range []string{"", "2026-02-30", "26-02-03", "2026-2-3", "2026-02-03T00:00:00Z"} {
		_, ok := unit.ParseDate(bad)
		require.False(t, ok, bad)
	}
	require.Empty(t, unit.Date{}.String())
}
