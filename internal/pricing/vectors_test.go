package pricing_test

import (
	"encoding/json"
	"math"
	"testing"

	"daybreak/internal/fault"
	"daybreak/internal/pricing"
	"daybreak/internal/unit"

	"github.com/cockroachdb/apd/v3"
	"github.com/stretchr/testify/require"
)

var modes = map[string]unit.Rounding{"half_even": unit.HalfEven, "half_up": unit.HalfUp}

func TestVectorAllocations(t *testing.T) {
	v := readBills(t)
	require.NotEmpty(t, v.Allocations)
	for _, c := range v.Allocations {
		t.Run(c.ID, func(t *testing.T) {
			require.Equal(t, c.Shares, pricing.Allocate(c.Total, c.Weights))
		})
	}
}

func TestVectorRoundings(t *testing.T) {
	v := readBills(t)
	require.NotEmpty(t, v.Roundings)
	for _, c := range v.Roundings {
		t.Run(c.Mode+" "+c.Value, func(t *testing.T) {
			d, _, err := apd.NewFromString(c.Value)
			require.NoError(t, err)
			scale, _, err := apd.NewFromString("1e" + json.Number(unit.Print(float64(-d.Exponent), 0)).String())
			require.NoError(t, err)
			one, err := scale.Int64()
			require.NoError(t, err)
			num := d.Coeff.Int64()
			if d.Negative {
				num = -num
			}
			got, ok := unit.RoundRatio(num, 1, one, modes[c.Mode])
			require.True(t, ok)
			require.Equal(t, c.Integer, got)
		})
	}
}

func TestVectorUnitPrices(t *testing.T) {
	v := readBills(t)
	require.NotEmpty(t, v.UnitPrices)
	for _, c := range v.UnitPrices {
		t.Run(c.What, func(t *testing.T) {
			p, err := pricing.NewPolicy("policy.rate", c.Kind, c.Rate)
			require.NoError(t, err)
			cost, err := c.Cost.Int64()
			require.NoError(t, err)
			got, ok := p.Price(cost)
			require.True(t, ok)
			require.Equal(t, c.UnitPrice, got)
		})
	}
}

func TestVectorTaxRounding(t *testing.T) {
	v := readBills(t)
	require.NotEmpty(t, v.TaxRounding)
	for _, c := range v.TaxRounding {
		t.Run(c.What, func(t *testing.T) {
			rate, err := pricing.ParseRate("tax.rate", c.Rate, 2)
			require.NoError(t, err)
			base, err := c.Base.Int64()
			require.NoError(t, err)
			require.Equal(t, c.HalfEven, rate.Of(base, unit.HalfEven))
			require.Equal(t, c.HalfUp, rate.Of(base, unit.HalfUp))
		})
	}
}

func TestVectorSumsOfBills(t *testing.T) {
	v := readBills(t)
	require.NotEmpty(t, v.SumsOfBills)
	parts := map[string]pricing.Triple{}
	for _, c := range v.Bills {
		book, place := bookOf(t, v.Books[c.Book], c.terms("p10_p90"))
		bill, err := pricing.Price(book, c.work(), place, nil)
		require.NoError(t, err)
		parts[c.ID] = bill.Total
	}
	for _, c := range v.SumsOfBills {
		t.Run(c.What, func(t *testing.T) {
			require.Equal(t, "PB07a + PB07b, two bills of one quote", c.What, "an unknown sum")
			require.Equal(t, c.Total, pricing.SumOf(parts["PB07a"], parts["PB07b"]))
		})
	}
}

// TestVectorRefusals runs each refusal of the check cases by its own words;
// an input without a run is a failure.
func TestVectorRefusals(t *testing.T) {
	v := readBills(t)
	require.NotEmpty(t, v.Refusals)
	base := v.Bills[0]
	price := func(change func(*pricing.Work)) error {
		book, place := bookOf(t, v.Books[base.Book], base.terms("p10_p90"))
		w := base.work()
		change(&w)
		_, err := pricing.Price(book, w, place, nil)
		return err
	}
	feet := func(f unit.Feet) error {
		return price(func(w *pricing.Work) { w.Route.Segments[0].Feet = f })
	}
	read := func(change func(*vectorBook, *bookTerms)) error {
		book, terms := v.Books[base.Book], base.terms("p10_p90")
		book.Items = map[string]vectorItem{}
		for k, it := range v.Books[base.Book].Items {
			book.Items[k] = it
		}
		change(&book, &terms)
		_, err := pricing.ReadBook(book.folder(terms))
		return err
	}
	// Where a book's field has a longer path than the case names.
	paths := map[string]string{"policy.rate": "price_classes.cost.rate", "items.X.price": "items.EV40P.price", "tax.rate": "taxes[0].rate"}
	runs := map[string][]error{
		"segment ft -5":         {feet(-5)},
		"segment ft NaN or 1e9": {feet(unit.Feet(math.NaN())), feet(1e9)},
		"policy margin 1.0":     {read(func(_ *vectorBook, b *bookTerms) { b.Policy = vectorPolicy{"margin", "1.0"} })},
		"policy markup -0.1":    {read(func(_ *vectorBook, b *bookTerms) { b.Policy = vectorPolicy{"markup", "-0.1"} })},
		"item price [120, 100, 140]": {read(func(b *vectorBook, _ *bookTerms) {
			it := b.Items["EV40P"]
			it.Price = [3]int64{120, 100, 140}
			b.Items["EV40P"] = it
		})},
		"tax rate 8.25": {read(func(_ *vectorBook, b *bookTerms) { b.Tax.Rate = "8.25" })},
		"discount larger than the lines it is spread over": {price(func(w *pricing.Work) {
			w.Discount = pricing.Discount{Minor: 1_000_000_000, Over: pricing.Classes(pricing.ClassEquipment)}
		})},
		"visits 0 with labour lines":                    {price(func(w *pricing.Work) { w.Visits = 0 })},
		"design names item BRK70 missing from the book": {price(func(w *pricing.Work) { w.Design.Breaker = breakerOf["BRK70"] })},
	}
	for _, c := range v.Refusals {
		t.Run(c.Input, func(t *testing.T) {
			errs, known := runs[c.Input]
			require.True(t, known, "no run for this refusal")
			want := c.Field
			if p, longer := paths[want]; longer {
				want = p
			}
			for _, err := range errs {
				require.Error(t, err)
				faults := fault.All(err)
				require.NotEmpty(t, faults)
				require.Equal(t, want, faults[0].Field)
				require.NotEmpty(t, faults[0].Accepted)
			}
		})
	}
}
