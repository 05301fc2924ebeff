package charging_test

import (
	"bytes"
	"strings"
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

func FuzzWhatIsWrittenIsRead(f *testing.F) {
	const head = "id,label,kwh_per_100mi,electric_range_mi,petrol_backup,charge240_h,year,dc_inlet,dc_peak_kw\n"
	for _, rows := range []string{"a,b,30,200,no,8.25,2025,,\n", "\"#a\",b,30,200,no,,,,\n", "a,\"b\r\r\n,\"\"#\",3e1,200,yes,1.5e1,,none,0\n", " \ufeffa,\\.,30,200,no,5.,,,\n"} {
		f.Add(rows)
	}
	p := tables(f).Priors
	f.Fuzz(func(t *testing.T, rows string) {
		first, err := charging.ReadListed(strings.NewReader(head+rows), "a.csv", p)
		if err != nil {
			return
		}
		var out bytes.Buffer
		require.NoError(t, charging.WriteListed(&out, first.Listed))
		again, err := charging.ReadListed(&out, "b.csv", p)
		require.NoError(t, err)
		require.Empty(t, again.Refused)
		require.Len(t, again.Listed, len(first.Listed))
	})
}
