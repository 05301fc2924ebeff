package pricing

import (
	"math/big"
	"sort"
	"strings"

	"daybreak/internal/fault"
	"daybreak/internal/pricing/bookfile"
	"daybreak/internal/unit"
)

// Place is where the work is done, on a date: the book's region, permit
// schedule, tax row and the unit prices that follow. Get one from [Book.At].
type Place struct {
	PostalCode string
	On         unit.Date
	Assumed    bool // the postal code is the shop's own, since none was told
	region     *region
	permit     *permit
	tax        *tax
	taxStale   bool     // the tax row is not in force on the date
	prices     []Triple // unit price of each item
}

// At gives the place of a postal code on a date. A code the shop does not
// serve is a fault of kind not found. A date outside the book's life is not:
// the prices stand, and the bill says that the book has expired.
func (b *Book) At(postalCode string, on unit.Date) (Place, error) {
	a, ok := b.areas[postalCode]
	if !ok {
		f := fault.NotFound("place.postal_code", postalCode)
		f.Accepted = strings.Join(b.PostalCodes(), ", ")
		return Place{}, f
	}
	p := Place{PostalCode: postalCode, On: on, region: &b.regions[a.region], permit: &b.permits[a.permit]}
	row, inForce := b.taxOn(a.taxes, on)
	p.tax, p.taxStale = &b.taxes[row], !inForce
	p.prices = p.tax.prices[a.region]
	return p, nil
}

// Home gives the shop's own place, for a household whose postal code nobody
// told.
func (b *Book) Home(on unit.Date) Place {
	p, _ := b.At(b.home, on)
	p.Assumed = true
	return p
}

// PostalCodes lists the postal codes the book serves, in order.
func (b *Book) PostalCodes() []string {
	codes := make([]string, 0, len(b.areas))
	for c := range b.areas {
		codes = append(codes, c)
	}
	sort.Strings(codes)
	return codes
}

// taxOn gives the row in force, or else the nearest one; rows are in order of
// date.
func (b *Book) taxOn(rows []int, on unit.Date) (row int, inForce bool) {
	row = rows[0]
	for _, r := range rows {
		t := &b.taxes[r]
		if on.Before(t.from) {
			return row, false
		}
		row = r
		if t.to.IsZero() || !t.to.Before(on) {
			return row, true
		}
	}
	return row, false
}

// Region is the id of the book's region.
func (p Place) Region() string { return p.region.id }

// Permit says which authority takes the fee.
func (p Place) Permit() PermitNote {
	return PermitNote{Jurisdiction: p.permit.jurisdiction, Kind: p.permit.kind, WorkingDays: p.permit.workingDays, Needs: p.permit.needs}
}

// Tax says what the tax line stands on.
func (p Place) Tax() TaxNote {
	return TaxNote{Jurisdiction: p.tax.jurisdiction, Kind: p.tax.kind, Rate: p.tax.rate.text, Included: p.tax.use != 0}
}

// findings says what is amiss with the books on the date.
func (p Place) findings(b *Book) []Finding {
	var out []Finding
	switch {
	case p.On.Before(b.From):
		out = append(out, Finding{"pricing.book_not_yet", b.From})
	case b.To.Before(p.On):
		out = append(out, Finding{"pricing.book_expired", b.To})
	}
	if p.taxStale {
		out = append(out, Finding{"pricing.tax_row_not_in_force", p.tax.from})
	}
	return out
}

// setPrices works out the unit price of every item in every region under
// every tax row it can meet, so that a bill only looks up.
func (b *Book) setPrices(faults *bookfile.Faults) {
	for code := range b.areas {
		a := b.areas[code]
		b.regions[a.region].rates = b.ratesIn(&b.regions[a.region])
		for _, row := range a.taxes {
			t := &b.taxes[row]
			if t.prices[a.region] == nil {
				t.prices[a.region] = b.pricesIn(&b.regions[a.region], t, faults)
			}
		}
	}
}

func (b *Book) ratesIn(r *region) rates {
	times := func(minor int64, f *big.Rat, half int64) int64 {
		v, _ := roundHalfEven(new(big.Rat).Mul(big.NewRat(minor, half), f))
		return v
	}
	lab := &b.labour
	return rates{
		electrician: times(lab.electrician, r.labour, 1),
		pair:        times(lab.electrician+lab.second, r.labour, 2),
		trip:        times(lab.trip, r.trip, 1),
	}
}

func (b *Book) pricesIn(r *region, t *tax, faults *bookfile.Faults) []Triple {
	prices := make([]Triple, len(b.items))
	use := big.NewRat(1, 1)
	if t.rate.den > 0 {
		use.Add(use, big.NewRat(t.rate.num, t.rate.den))
	}
	for i := range b.items {
		it := &b.items[i]
		if it.list {
			prices[i] = it.price
			continue
		}
		factor := new(big.Rat).Set(it.policy.factor)
		if !it.passThrough {
			factor.Mul(factor, r.material)
		}
		if t.use.Has(it.class) {
			factor.Mul(factor, use)
		}
		for s, cost := range it.price {
			price, ok := roundHalfEven(new(big.Rat).Mul(big.NewRat(cost, 1), factor))
			if !ok {
				faults.Add(it.file, it.line, "items."+it.code+".price", cost, "a price whose selling price can be counted")
			}
			prices[i][s] = price
		}
	}
	return prices
}
