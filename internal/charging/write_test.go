package charging_test

import (
	"bytes"
	"testing"

	"daybreak/internal/charging"

	"github.com/stretchr/testify/require"
)

// Every row of the published file goes through our own form unchanged: what was
// unsure is unsure there too.
func TestWhatIsWrittenIsReadTheSame(t *testing.T) {
	p := tables(t).Priors
	first, err := charging.ReadListed(publishedRows(t), "vehicles.csv", p)
	require.NoError(t, err)
	require.NotEmpty(t, first.Listed)
	var out bytes.Buffer
	require.NoError(t, charging.WriteListed(&out, first.Listed))
	again, err := charging.ReadListed(&out, "ours.csv", p)
	require.NoError(t, err)
	require.Empty(t, again.Refused)
	require.Len(t, again.Listed, len(first.Listed))
	for i, l := range again.Listed {
		l.Source = first.Listed[i].Source
		require.Equal(t, first.Listed[i], l)
	}
}
