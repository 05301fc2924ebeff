package wire

import (
	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/pricing"
	"daybreak/internal/working"
)

// Bill is a priced piece of work.
func (w *Words) Bill(b *pricing.Bill, steps []working.Step) *daybreakv1.Bill {
	out := &daybreakv1.Bill{
		Discount: money(b.Discount[pricing.Likely], b.Currency),
		Subtotal: spread(b.Spread, b.Subtotal[pricing.Likely], b.Currency),
		Permit: &daybreakv1.PermitLine{
			Jurisdiction: b.Permits.Jurisdiction, Amount: money(b.Figures.Permit[pricing.Likely], b.Currency), Needs: b.Permits.Needs,
		},
		Tax: &daybreakv1.TaxLine{
			Jurisdiction: b.Taxes.Jurisdiction, Rate: b.Taxes.Rate, Base: money(b.Taxable[pricing.Likely], b.Currency),
			Amount: money(b.Tax[pricing.Likely], b.Currency), Included: b.Taxes.Included,
		},
		Total:       spread(b.AllIn, b.Total[pricing.Likely], b.Currency),
		FeetAssumed: float64(b.FeetAssumed),
		TenMoreFeet: money(b.TenMoreFeet[pricing.Likely], b.Currency),
		Working:     w.Working(steps),
	}
	if b.Permits.WorkingDays != ([3]int{}) {
		for _, d := range b.Permits.WorkingDays {
			out.Permit.WorkingDays = append(out.Permit.WorkingDays, int32(d))
		}
	}
	out.Asides, out.Utility = w.asides(b), w.utility(b.Utility)
	for i := range b.Lines {
		out.Lines = append(out.Lines, w.line(i+1, &b.Lines[i], b))
	}
	for _, f := range b.Findings {
		out.Notes = append(out.Notes, w.say(f.Key, working.Word("date", f.Date.String())))
	}
	return out
}

func (w *Words) line(number int, l *pricing.Line, b *pricing.Bill) *daybreakv1.BillLine {
	out := &daybreakv1.BillLine{
		Number: int32(number), Kind: daybreakv1.BillLineKind(l.Kind + 1), Code: l.Code, Text: l.Words,
		Quantity: decimal(int64(l.Quantity), 1000), Unit: l.Unit, UnitPrice: money(l.UnitPrice[pricing.Likely], b.Currency),
		Low: money(l.Amount[pricing.Low], b.Currency), Likely: money(l.Amount[pricing.Likely], b.Currency), High: money(l.Amount[pricing.High], b.Currency),
		Why: w.rule(l.Why), FromRule: l.From, TaxClass: classWord(l.Class), Trade: l.Trade,
	}
	if l.Hours != nil {
		out.Hours = decimal(int64(l.Hours[pricing.Likely]), 100)
	}
	if p := l.Purchase; p != nil {
		out.Purchase = &daybreakv1.Purchase{UsedFeet: float64(p.Used), PackFeet: float64(p.Pack), BoughtFeet: float64(p.Bought)}
	}
	return out
}

var classWords = [...]string{"equipment", "material", "civil", "labour", "permit", "fee"}

func classWord(c pricing.Class) string { return named(classWords[:], int(c)) }
