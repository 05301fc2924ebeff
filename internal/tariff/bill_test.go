package tariff_test

import (
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"daybreak/internal/tariff"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

func usd(t testing.TB) unit.Currency {
	t.Helper()
	c, ok := unit.CurrencyOf("USD", 2)
	require.True(t, ok)
	return c
}

func invented(t testing.TB) map[string]*tariff.Tariff {
	t.Helper()
	f, err := os.Open("testdata/bills.json")
	require.NoError(t, err)
	defer f.Close()
	list, err := tariff.ReadPublished(f, "bills.json", usd(t))
	require.NoError(t, err)
	require.Len(t, list, 6)
	out := map[string]*tariff.Tariff{}
	for i := range list {
		out[list[i].Label] = &list[i]
	}
	return out
}

// Bills of six invented tariffs, worked by counting hours.
func TestPublishedBills(t *testing.T) {
	var doc struct {
		Load struct {
			Base      [24]float64 `json:"base_kw_by_hour"`
			Managed   [24]float64 `json:"ev_managed_kw_by_hour"`
			Unmanaged [24]float64 `json:"ev_unmanaged_kw_by_hour"`
		} `json:"load"`
		Bills []struct {
			Tariff   string   `json:"tariff"`
			Month    string   `json:"month"`
			Load     string   `json:"load"`
			Bill     float64  `json:"bill_usd"`
			Marginal *float64 `json:"ev_marginal_usd"`
		} `json:"bills"`
	}
	raw, err := os.ReadFile("testdata/bills.json")
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(raw, &doc))
	all := invented(t)
	var none, vacant [24]float64
	for h := range vacant {
		vacant[h] = 1.0 / 24 // 30 kWh in June
	}
	loads := map[string][2]*[24]float64{
		"base": {&doc.Load.Base, &none}, "base_plus_ev_managed": {&doc.Load.Base, &doc.Load.Managed},
		"base_plus_ev_unmanaged": {&doc.Load.Base, &doc.Load.Unmanaged}, "ev_managed_only": {&none, &doc.Load.Managed},
		"ev_unmanaged_only": {&none, &doc.Load.Unmanaged}, "vacant: 30 kWh in the month": {&vacant, &none},
	}
	require.Len(t, doc.Bills, 35)
	without := map[string]unit.Money{}
	for _, c := range doc.Bills {
		t.Run(c.Tariff+" "+c.Month+" "+c.Load, func(t *testing.T) {
			month, err := time.Parse("2006-01", c.Month)
			require.NoError(t, err)
			load, known := loads[c.Load]
			require.True(t, known)
			var hours []float64
			for range month.AddDate(0, 1, -1).Day() {
				for h := range 24 {
					hours = append(hours, load[0][h]+load[1][h])
				}
			}
			got, err := all[c.Tariff].Bill(month.Year(), month.Month(), hours)
			require.NoError(t, err)
			require.Equal(t, cents(c.Bill), got.Minor)
			if c.Load == "base" {
				without[c.Tariff+c.Month] = got
			}
			if c.Marginal != nil { // bills are rounded, their difference is within a cent
				require.InDelta(t, cents(*c.Marginal), got.Minor-without[c.Tariff+c.Month].Minor, 1)
			}
		})
	}
}

func cents(usd float64) int64 { return int64(math.Round(usd * 100)) }

func TestGivingToTheGridIsCredited(t *testing.T) {
	const rate = `{"label":"solar","energyratestructure":[[{"rate":0.2,"sell":0.05}]],"energyweekdayschedule":%,"energyweekendschedule":%}`
	list, err := tariff.ReadPublished(strings.NewReader(strings.ReplaceAll(rate, "%", rows("0"))), "solar.json", usd(t))
	require.NoError(t, err)
	hours := make([]float64, 24*30)
	hours[12], hours[20] = -10, 4
	got, err := list[0].Bill(2026, time.June, hours)
	require.NoError(t, err)
	require.Equal(t, cents(4*0.2-10*0.05), got.Minor)
}

// rows is a schedule of one period in JSON.
func rows(period string) string {
	row := "[" + strings.TrimSuffix(strings.Repeat(period+",", 24), ",") + "]"
	return "[" + strings.TrimSuffix(strings.Repeat(row+",", 12), ",") + "]"
}

// Tiers by the day and charges by the year, worked by hand: 30 days of 20 kWh,
// 10 a day at 0.10 and the rest at 0.30, 24 a year.
func TestDailyTiersAndYearlyCharges(t *testing.T) {
	const rate = `{"label":"daily","energyratestructure":[[{"rate":0.1,"max":10,"unit":"kWh daily"},{"rate":0.3,"unit":"kWh daily"}]],` +
		`"energyweekdayschedule":%,"energyweekendschedule":%,"fixedchargefirstmeter":24,"fixedchargeunits":"$/year","fueladjustmentsmonthly":[0,0,0,0,0,0.01,0,0,0,0,0,0]}`
	list, err := tariff.ReadPublished(strings.NewReader(strings.ReplaceAll(rate, "%", rows("0"))), "daily.json", usd(t))
	require.NoError(t, err)
	hours := make([]float64, 24*30)
	for d := range 30 {
		hours[24*d+12] = 20
	}
	for month, want := range map[time.Month]float64{time.April: 30 + 90 + 2, time.June: 30 + 90 + 2 + 6} {
		got, err := list[0].Bill(2026, month, hours)
		require.NoError(t, err)
		require.Equal(t, cents(want), got.Minor)
	}
}

func TestBillRefusals(t *testing.T) {
	flat := invented(t)["invented-flat"]
	good := make([]float64, 24*30)
	_, err := flat.Bill(2026, 13, good)
	require.ErrorContains(t, err, "month")
	_, err = flat.Bill(2026, time.July, good)
	require.ErrorContains(t, err, "744 hours")
	_, err = flat.Bill(-1, time.June, good)
	require.ErrorContains(t, err, "year")
	good[7] = math.NaN()
	_, err = flat.Bill(2026, time.June, good)
	require.ErrorContains(t, err, "kwh[7]")
}
