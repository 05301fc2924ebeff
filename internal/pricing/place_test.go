package pricing_test

import (
	"testing"

	"daybreak/internal/pricing"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

func TestTheTaxRowFollowsTheDate(t *testing.T) {
	book := demo(t)
	for _, c := range []struct{ on, rate, finding string }{
		{"2026-12-31", "0.0825", ""},
		{"2027-01-01", "0.0850", ""},
		{"2027-07-01", "0.0850", "pricing.book_expired"},
		{"2026-06-30", "0.0825", "pricing.book_not_yet"},
		{"2025-12-31", "0.0825", "pricing.book_not_yet"},
	} {
		place, err := book.At("00010", date(t, c.on))
		require.NoError(t, err)
		require.Equal(t, c.rate, place.Tax().Rate, c.on)
		bill, err := pricing.Price(book, garage(), place, nil)
		require.NoError(t, err)
		require.Positive(t, bill.Total[pricing.Likely], "an expired book still states its prices")
		if c.finding == "" {
			require.Empty(t, bill.Findings)
			continue
		}
		require.Equal(t, c.finding, bill.Findings[0].Key)
	}
	place, err := book.At("00010", date(t, "2025-12-31"))
	require.NoError(t, err)
	bill, err := pricing.Price(book, garage(), place, nil)
	require.NoError(t, err)
	require.Equal(t, "pricing.tax_row_not_in_force", bill.Findings[1].Key)
	require.False(t, book.Covers(date(t, "2027-07-01")))
}

func TestRegionsMovePricesRatesAndTrips(t *testing.T) {
	book := demo(t)
	line := func(postal, code string) pricing.Line {
		bill, err := pricing.Price(book, garage(), demoPlace(t, book, postal), nil)
		require.NoError(t, err)
		for _, l := range bill.Lines {
			if l.Code == code {
				return l
			}
		}
		t.Fatal(code)
		return pricing.Line{}
	}
	// Invented factors of places.yaml: 1.08 on labour, 1.02 on material, 2.60 on the trip.
	require.Equal(t, int64(13824), line("00012", "lab.mobilise").UnitPrice[pricing.Likely])
	require.Equal(t, int64(12800), line("00010", "lab.mobilise").UnitPrice[pricing.Likely])
	require.Equal(t, int64(22100), line("00030", "trip").UnitPrice[pricing.Likely])
	// 112.00 × 1.02 / 0.62, and 112.00 × 1.07 / 0.62 where use tax lies in the price.
	require.Equal(t, int64(18426), line("00012", "brk-2p-40-gfci").UnitPrice[pricing.Likely])
	require.Equal(t, int64(19329), line("00020", "brk-2p-40-gfci").UnitPrice[pricing.Likely])
	require.Equal(t, line("00010", "evse-32-hw-j3400").UnitPrice, line("00020", "evse-32-hw-j3400").UnitPrice)
}

func TestPermitsByKind(t *testing.T) {
	book := demo(t)
	for _, c := range []struct {
		postal string
		work   pricing.Work
		kind   string
		fee    int64
	}{
		{"00010", garage(), "flat", 12000},
		{"00012", garage(), "per_item", 11000}, // 85.00 for 31 to 100 A, raised to the minimum
		{"00012", upgrade(), "per_item", 16000},
		{"00030", garage(), "flat", 24500}, // 180.00 and plan check 65.00
		{"00030", upgrade(), "flat", 38500},
		{"00010", pricing.Work{Design: pricing.Design{Termination: pricing.Termination{Receptacle: "5-20", Extent: pricing.NewReceptacle}}, Visits: 1}, "flat", 0},
	} {
		place := demoPlace(t, book, c.postal)
		f, err := pricing.Estimate(book, c.work, place)
		require.NoError(t, err)
		require.Equal(t, c.kind, place.Permit().Kind)
		require.Equal(t, pricing.Triple{c.fee, c.fee, c.fee}, f.Permit, c.postal)
	}
}

func TestTheShopOffersTheCheapestEquipmentThatServes(t *testing.T) {
	book := demo(t)
	for _, c := range []struct {
		want pricing.Equipment
		code string
	}{
		{pricing.Equipment{Setting: 32, Connector: "J3400"}, "evse-32-hw-j3400"},
		{pricing.Equipment{Setting: 16, Locked: true}, "evse-24-hw-j1772"},
		{pricing.Equipment{Setting: 40, Managed: true, Connector: "J1772"}, "evse-40-hw-j1772-net"},
		{pricing.Equipment{Level: 1, Plug: "5-15"}, "evse-12-5-15-j1772"},
		{pricing.Equipment{Setting: 24, Plug: "14-50", Locked: true}, ""}, // plug-in units of this book cannot be locked down
	} {
		o, ok := book.Offer(c.want)
		require.Equal(t, c.code != "", ok, c.code)
		require.Equal(t, c.code, o.Code)
	}
	o, _ := book.Offer(pricing.Equipment{Setting: 16, Locked: true})
	require.Equal(t, unit.Amps(24), o.Output)
}

func TestADiscountIsSpreadAndNotTaxed(t *testing.T) {
	book := demo(t)
	place := demoPlace(t, book, "00010")
	w := garage()
	w.Discount = pricing.Discount{Minor: 10000, Over: pricing.Classes(pricing.ClassEquipment, pricing.ClassMaterial)}
	bill, err := pricing.Price(book, w, place, nil)
	require.NoError(t, err)
	plain, err := pricing.Price(book, garage(), place, nil)
	require.NoError(t, err)
	var shares pricing.Triple
	for _, l := range bill.Lines {
		shares = pricing.SumOf(shares, l.Discount)
		require.True(t, l.Discount == (pricing.Triple{}) || l.Class != pricing.ClassLabour)
	}
	require.Equal(t, pricing.Triple{10000, 10000, 10000}, shares)
	for s := range shares {
		require.Equal(t, plain.Taxable[s]-10000, bill.Taxable[s])
		require.Equal(t, plain.Subtotal[s]-10000, bill.Subtotal[s])
	}
	require.Equal(t, plain.Permit, bill.Permit)
}
