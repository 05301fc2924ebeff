package pricing_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"daybreak/internal/panel"
	"daybreak/internal/pricing"

	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the printed bills anew; read the difference as prose")

// sheetOf prints a bill so that an estimator can add it by hand.
func sheetOf(title string, b pricing.Bill) string {
	var s strings.Builder
	plain := func(minor int64) string { return strings.Fields(b.Money(minor).String())[0] }
	row := func(left string, t pricing.Triple) {
		fmt.Fprintf(&s, "%-62s %10s %10s %10s\n", left, plain(t[0]), plain(t[1]), plain(t[2]))
	}
	fmt.Fprintf(&s, "%s\n\n%-62s %10s %10s %10s\n", title, "", "low", "likely", "high")
	for _, l := range b.Lines {
		note := ""
		if l.Hours != nil {
			note = fmt.Sprintf(" (%s %s %s h)", l.Hours[0], l.Hours[1], l.Hours[2])
		}
		if p := l.Purchase; p != nil {
			note = fmt.Sprintf(" (%d ft used, %d bought)", p.Used, p.Bought)
		}
		row(fmt.Sprintf("%7s × %-6s %s%s", l.Quantity, l.Unit, l.Code, note), l.Amount)
	}
	row("subtotal", b.Subtotal)
	row("permit: "+b.Permits.Jurisdiction+", "+b.Permits.Kind, b.Permit)
	row("tax: "+b.Taxes.Kind+" "+b.Taxes.Rate, b.Tax)
	row("total", b.Total)
	fmt.Fprintf(&s, "P10 %.2f  P50 %.2f  P90 %.2f\n", b.AllIn.P10/100, b.AllIn.Mean/100, b.AllIn.P90/100)
	row(fmt.Sprintf("ten more feet than the %v assumed", b.FeetAssumed), b.TenMoreFeet)
	if u := b.Utility; u != nil {
		fmt.Fprintf(&s, "utility: %d to %d weeks, likely %d; %s\n", u.Weeks[0], u.Weeks[2], u.Weeks[1], strings.Join(u.Steps, ", "))
	}
	for _, a := range b.Asides {
		row("not in the total: "+a.What, a.Amount)
	}
	for _, f := range b.Findings {
		fmt.Fprintln(&s, f.Key, f.Date)
	}
	return s.String()
}

func TestPrintedDemoBills(t *testing.T) {
	book := demo(t)
	for _, c := range []struct {
		file, postal, date string
		work               pricing.Work
	}{
		{"garage_alder_bay", "00010", "2026-11-25", garage()},
		{"garage_next_year", "00010", "2027-02-01", garage()},
		{"garage_expired", "00010", "2027-08-01", garage()},
		{"brick_harbor_point", "00012", "2026-11-25", brick()},
		{"trench_alder_county", "00020", "2026-11-25", trench()},
		{"upgrade_gull_islands", "00030", "2026-11-25", upgrade()},
		{"plaster_alder_bay", "00011", "2026-11-25", plasterJob()},
		{"subpanel_alder_bay", "00010", "2026-11-25", fullPanel(t)},
		{"detached_garage_alder_county", "00020", "2026-11-25", detachedGarage()},
		{"dryer_shared_alder_bay", "00010", "2026-11-25", dryerShared(t)},
		{"carport_alder_county", "00021", "2026-11-25", carport()},
		{"upgrade_underground_harbor_point", "00012", "2026-11-25", serviceUpgrade(t, 100, 200, pricing.House{
			Feed: "ug", Lateral: 60, Surge: true, EmergencyDisconnect: true, WaterPipes: 1, GasPipes: 1,
		})},
		{"upgrade_400_gull_islands", "00030", "2026-11-25", serviceUpgrade(t, 200, 400, pricing.House{Surge: true, EmergencyDisconnect: true})},
		{"fuses_alder_bay", "00010", "2026-11-25", remedy(panel.NewPanelboard, pricing.House{Surge: true}).Work},
		{"tandems_alder_bay", "00010", "2026-11-25", garage().With(remedy(panel.TandemBreakers, pricing.House{}).Work)},
		{"nothing", "00011", "2026-11-25", pricing.Work{}},
	} {
		t.Run(c.file, func(t *testing.T) {
			place, err := book.At(c.postal, date(t, c.date))
			require.NoError(t, err)
			bill, err := pricing.Price(book, c.work, place, nil)
			require.NoError(t, err)
			got := sheetOf(fmt.Sprintf("%s, postal code %s, %s", strings.ReplaceAll(c.file, "_", " "), c.postal, c.date), bill)
			path := filepath.Join("testdata", "bills", c.file+".txt")
			if *update {
				require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
			}
			want, err := os.ReadFile(path)
			require.NoError(t, err)
			require.Equal(t, string(want), got)
		})
	}
}
