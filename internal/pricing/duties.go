package pricing

import (
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// permit adds the public fee, on the subtotal before permit and tax where it
// goes by valuation. It passes through without margin, discount or tax.
func (t *tally) permit(f *Figures) {
	p := t.place.permit
	r := t.permitRule(p)
	for s := range f.Permit {
		f.Permit[s] = t.permitFee(p, f.Subtotal[s])
	}
	t.step(r, t.money("subtotal", f.Subtotal[Likely]), t.money("out", f.Permit[Likely]),
		t.money("base", p.base), t.money("floor", p.floor))
}

func (t *tally) permitRule(p *permit) rule {
	if t.work.Permits == 0 {
		return rulePermitNone
	}
	switch p.kind {
	case "flat":
		return rulePermitFlat
	case "per_item":
		return rulePermitPerItem
	case "per_amp":
		return rulePermitPerAmp
	case "valuation":
		return rulePermitValuation
	}
	return rulePermitNone
}

func (t *tally) permitFee(p *permit, subtotal int64) int64 {
	asked := t.work.Permits
	if asked == 0 || p.kind == "none" {
		return 0
	}
	d := &t.work.Design
	fee := p.planCheck
	switch p.kind {
	case "flat":
		if asked&PermitCircuit != 0 {
			fee += p.circuit
		}
		if asked&PermitService != 0 {
			fee += p.service
		}
	case "per_item":
		if asked&PermitCircuit != 0 {
			fee += holding(p.circuits, d.Breaker.Amps)
		}
		if asked&PermitService != 0 {
			fee += holding(p.services, d.Service.To)
		}
	case "per_amp":
		rated := d.Breaker.Amps
		if asked&PermitService != 0 {
			rated = d.Service.To
		}
		fee += p.perAmp * int64(rated)
	case "valuation":
		fee += p.base + p.rate.Of(max(0, subtotal-p.floor), unit.HalfEven)
	}
	if asked&PermitSubpanel != 0 {
		fee += p.subpanel
	}
	return max(fee, p.minimum)
}

// holding gives the fee of the smallest rating that holds the amps; above all
// of them, the largest.
func holding(fees []fee, amps unit.Amps) int64 {
	for _, f := range fees {
		if unit.Amps(f.toAmps) >= amps {
			return f.amount
		}
	}
	return fees[len(fees)-1].amount
}

// tax adds the buyer's tax: the rate on the lines of the row's classes after
// discount, rounded once for the bill by the row's own rule.
func (t *tally) tax(f *Figures) {
	row := t.place.tax
	for i := range t.entries() {
		e := &t.room[i]
		if row.taxable.Has(e.class) {
			for s := range f.Taxable {
				f.Taxable[s] += e.amount[s] - e.discount[s]
			}
		}
	}
	for s := range f.Tax {
		f.Tax[s] = row.rate.Of(f.Taxable[s], row.rounding)
	}
	r := ruleTaxDue
	switch {
	case row.use != 0:
		r = ruleTaxInside
	case row.taxable == 0:
		r = ruleTaxNone
	}
	t.step(r, t.money("base", f.Taxable[Likely]), t.money("out", f.Tax[Likely]),
		working.Term{Name: "rate", Value: 100 * row.rate.float(), Unit: "%"})
}
