package tariff_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"testing/fstest"

	"daybreak/internal/tariff"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

// What is written prices every hour of every month as what was read.
func TestWhatIsWrittenPricesTheSame(t *testing.T) {
	hours := func(p string) string { return "[" + strings.Repeat(p+",", 23) + "1]" }
	months := func(p string) string { return "[" + strings.Repeat(hours(p)+",", 11) + hours("0") + "]" }
	in := `[{"label":"two: one","energyratestructure":[[{"rate":0.1,"adj":0.02,"max":9.5,"unit":"kWh daily"},{"rate":0.2,"unit":"kWh daily"}],[{"rate":0.3,"sell":0.04}]],
	 "fueladjustmentsmonthly":[0,0.01,0,0,0,0,0,0,0,0,0,-0.01],"mincharge":50,"minchargeunits":"$/year",
	 "energyweekdayschedule":` + months("1") + `,"energyweekendschedule":` + months("0") + `}]`
	usd, ok := unit.CurrencyOf("USD", 2)
	require.True(t, ok)
	want, err := tariff.ReadPublished(strings.NewReader(in), "rates.json", usd)
	require.NoError(t, err)
	var out bytes.Buffer
	n, err := tariff.Write(&out, "rates.json", want)
	require.NoError(t, err)
	require.Equal(t, 1, n)
	got, err := tariff.Load(fstest.MapFS{"a.yaml": {Data: out.Bytes()}})
	require.NoError(t, err, out.String())
	require.Len(t, got, 1)
	require.Equal(t, want[0].Label, got[0].Label)
	require.Equal(t, want[0].Least, got[0].Least)
	require.Equal(t, want[0].Source, got[0].Source)
	for m := range 12 {
		for h := range 24 {
			for _, pair := range [][2]uint8{{want[0].Weekday[m][h], got[0].Weekday[m][h]}, {want[0].Weekend[m][h], got[0].Weekend[m][h]}} {
				a, b := want[0].Periods[pair[0]].Tiers, got[0].Periods[pair[1]].Tiers
				require.Len(t, b, len(a))
				for i := range a {
					require.InDelta(t, a[i].Rate+a[i].Adj+want[0].Adder[m], b[i].Rate, 1e-9)
					require.Equal(t, a[i].Most, b[i].Most)
					require.Equal(t, a[i].Daily, b[i].Daily)
					require.Equal(t, a[i].Sell, b[i].Sell)
				}
			}
		}
	}
}

func TestTheSecondTariffOfAFileIsNamedByItsLine(t *testing.T) {
	one := "label: a\ncurrency: USD\nsource: invented\nstatus: engineering judgement\nperiods:\n  all: [{rate: 0.1}]\nseasons:\n" +
		"  - months: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]\n    weekday: [{hours: 0 to 24, period: all}]\n"
	_, err := tariff.Load(fstest.MapFS{"a.yaml": {Data: []byte(one + "---\n" + strings.Replace(one, "USD", "none", 1))}})
	require.ErrorContains(t, err, "a.yaml:11: currency")
	_, err = tariff.Load(fstest.MapFS{"a.yaml": {Data: []byte(one + "---\n" + one)}})
	require.ErrorContains(t, err, "each label once")
	_, err = tariff.Load(fstest.MapFS{"a.yaml": {Data: []byte(one + "---\nlabl: b\n")}})
	require.ErrorContains(t, err, "labl")
	_, err = tariff.Load(fstest.MapFS{"a.yaml": {Data: nil}})
	require.ErrorContains(t, err, "a.yaml")
}

func FuzzWhatIsWrittenLoads(f *testing.F) {
	day := "[" + strings.Repeat("0,", 23) + "0]"
	year := "[" + strings.Repeat(day+",", 11) + day + "]"
	f.Add("a", "name: x", 0.1, 0.02, 9.5)
	f.Add("- ---\n#", "\u0085\ufeff", 9.99, 0.01, 1e8)
	f.Fuzz(func(t *testing.T, label, name string, rate, adj, most float64) {
		text, err := json.Marshal(map[string]any{
			"label": label, "name": name, "energyweekdayschedule": json.RawMessage(year), "energyweekendschedule": json.RawMessage(year),
			"energyratestructure": [][]map[string]float64{{{"rate": rate, "adj": adj, "max": most}, {"rate": rate}}},
		})
		if err != nil {
			return
		}
		usd, _ := unit.CurrencyOf("USD", 2)
		read, err := tariff.ReadPublished(bytes.NewReader(text), "rates.json", usd)
		if err != nil {
			return
		}
		var out bytes.Buffer
		n, _ := tariff.Write(&out, "rates.json", read)
		if n == 0 {
			return
		}
		got, err := tariff.Load(fstest.MapFS{"a.yaml": {Data: out.Bytes()}})
		require.NoError(t, err, out.String())
		require.Equal(t, read[0].Label, got[0].Label)
		require.Equal(t, read[0].Name, got[0].Name)
	})
}
