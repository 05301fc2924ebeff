package inspector

import (
	"fmt"
	"math"
	"strings"

	"daybreak/internal/pricing"
	"daybreak/internal/quote"
)

// itemised reports whether an option has a bill with lines; what was weighed and
// not shown may have figures alone.
func itemised(o *quote.Option) bool { return o.Priced && len(o.Bill.Lines) > 0 }

// billLines: each line is its quantity, or its hours, times its price, rounded
// once, an exact half to even.
//
// Source: common practice; a buyer must be able to re-add the print.
func (s *sight) billLines(o *quote.Option) {
	if !itemised(o) {
		s.holds(!s.shown || o.Bill.Total == (pricing.Triple{}), "a price without lines", "the lines it is the sum of")
		return
	}
	for i := range o.Bill.Lines {
		l := &o.Bill.Lines[i]
		for k := range l.Amount {
			want := halfEven(int64(l.Quantity), l.UnitPrice[k], 1000)
			if l.Kind == pricing.LabourLine {
				if l.Hours == nil {
					s.breaks(l.Code+": no hours", "hours on a labour line")
					break
				}
				want = halfEven(int64(l.Hours[k]), l.UnitPrice[k], 100)
			}
			s.holds(l.Amount[k] == want, fmt.Sprintf("%s: %d", l.Code, l.Amount[k]), fmt.Sprint(want))
		}
	}
}

// billSum: the lines add up to the sum, and sum, discount, permit and tax to the
// total, scenario by scenario, to the last minor unit.
//
// Source: common practice.
func (s *sight) billSum(o *quote.Option) {
	if !itemised(o) {
		return
	}
	b := &o.Bill
	var sum, discount [3]int64
	for i := range b.Lines {
		sum, discount = sum3(sum, b.Lines[i].Amount), sum3(discount, b.Lines[i].Discount)
	}
	for k := range sum {
		s.holds(b.Sum[k] == sum[k], fmt.Sprintf("sum %d", b.Sum[k]), fmt.Sprint(sum[k]))
		s.holds(b.Discount[k] == discount[k], fmt.Sprintf("discount %d", b.Discount[k]), fmt.Sprint(discount[k]))
		s.holds(b.Subtotal[k] == sum[k]-discount[k], fmt.Sprintf("subtotal %d", b.Subtotal[k]), fmt.Sprint(sum[k]-discount[k]))
		total := sum[k] - discount[k] + b.Permit[k] + b.Tax[k]
		s.holds(b.Total[k] == total, fmt.Sprintf("total %d", b.Total[k]), fmt.Sprint(total))
	}
}

// billTax: the base of the tax is every line of some classes, less its share of
// the discount, equipment among them and never the permit; the tax is the
// printed rate of it, an exact half up.
//
// Source: United States sales tax rows round half up; the rate is on the bill.
func (s *sight) billTax(o *quote.Option) {
	if !itemised(o) {
		return
	}
	b := &o.Bill
	num, den, ok := decimal(b.Taxes.Rate)
	if !ok {
		s.breaks("rate "+b.Taxes.Rate, "a decimal fraction")
		return
	}
	s.holds(s.wholeClasses(b), fmt.Sprintf("taxable %d", b.Taxable), "every line of some classes, equipment among them")
	for k := range b.Tax {
		want := halfUp(b.Taxable[k], num, den)
		s.holds(b.Tax[k] == want, fmt.Sprintf("tax %d on %d at %s", b.Tax[k], b.Taxable[k], b.Taxes.Rate), fmt.Sprint(want))
	}
}

// taxable are the classes a tax may lie on.
var taxable = []pricing.Class{pricing.ClassEquipment, pricing.ClassMaterial, pricing.ClassCivil, pricing.ClassLabour, pricing.ClassFee}

// wholeClasses reports whether the base of the tax is the lines of equipment
// and of some set of other classes, the same in all scenarios; or nothing.
func (s *sight) wholeClasses(b *pricing.Bill) bool {
	var by [8][3]int64
	for i := range b.Lines {
		l := &b.Lines[i]
		for k := range l.Amount {
			by[l.Class][k] += l.Amount[k] - l.Discount[k]
		}
	}
	if b.Taxable == (pricing.Triple{}) {
		return b.Tax == (pricing.Triple{})
	}
	for set := range 1 << (len(taxable) - 1) {
		base := by[pricing.ClassEquipment]
		for i, class := range taxable[1:] {
			if set&(1<<i) != 0 {
				base = sum3(base, by[class])
			}
		}
		if base == b.Taxable {
			return true
		}
	}
	return false
}

// decimal reads a decimal fraction such as 0.0825 as a ratio.
func decimal(text string) (num, den int64, ok bool) {
	whole, fraction, _ := strings.Cut(text, ".")
	den = 1
	for _, r := range whole + fraction {
		if r < '0' || r > '9' || num > math.MaxInt32 {
			return 0, 1, false
		}
		num = 10*num + int64(r-'0')
	}
	for range fraction {
		den *= 10
	}
	return num, den, text != ""
}

// billPermit: new wiring is done under a permit, and a fee by schedule is the
// same in all scenarios unless it goes by the value of the work; work that
// needs none pays none.
//
// Source: the permit schedule named on the bill.
func (s *sight) billPermit(o *quote.Option) {
	if !itemised(o) {
		return
	}
	b := &o.Bill
	p := b.Permit
	if b.Permits.Kind == "none" {
		s.holds(p == (pricing.Triple{}), fmt.Sprintf("permit %d", p), "none")
		return
	}
	if built(o) != nil {
		s.holds(p[pricing.Likely] > 0, fmt.Sprintf("permit %d for a new circuit", p[pricing.Likely]), "a fee, by "+b.Permits.Kind)
		s.holds(hasLine(b, "lab.permit_visit"), "no visit to the authority", "the visit as a line")
	}
	if o.Way == quote.ExistingOutlet && len(o.OutletWay.Work) == 0 {
		s.holds(p == (pricing.Triple{}), fmt.Sprintf("permit %d with nothing to do", p), "none")
	}
	if b.Permits.Kind != "valuation" {
		s.holds(p[0] == p[1] && p[1] == p[2], fmt.Sprintf("permit %d by %s", p, b.Permits.Kind), "the same in all scenarios")
	}
	if printed, ok := stepOut(o, "pricing.permit"); ok {
		minor := printed * math.Pow10(b.Currency.Digits())
		s.holds(near(minor, float64(p[pricing.Likely]), 0.5), fmt.Sprintf("permit %d", p[pricing.Likely]), fmt.Sprintf("%.0f as worked", minor))
	}
}

func hasLine(b *pricing.Bill, code string) bool {
	for i := range b.Lines {
		if b.Lines[i].Code == code {
			return true
		}
	}
	return false
}

// stepOut is the result of the first step under a topic of the working.
func stepOut(o *quote.Option, topic string) (float64, bool) {
	for i := range o.Working {
		if strings.HasPrefix(o.Working[i].Rule, topic) {
			return o.Working[i].Out.Value, true
		}
	}
	return 0, false
}

// billOrder: low is not above likely nor likely above high, in each line and in
// the total. What is missing to the least charge falls as labour rises.
//
// Source: common practice.
func (s *sight) billOrder(o *quote.Option) {
	if !o.Priced {
		return
	}
	b := &o.Bill
	for i := range b.Lines {
		if l := &b.Lines[i]; l.Kind != pricing.ChargeLine {
			s.holds(l.Amount[0] >= 0 && l.Amount[0] <= l.Amount[1] && l.Amount[1] <= l.Amount[2], fmt.Sprintf("%s %d", l.Code, l.Amount), "low, likely, high in order")
		}
	}
	for _, t := range []pricing.Triple{b.Sum, b.Subtotal, b.Permit, b.Tax, b.Total} {
		s.holds(t[0] >= 0 && t[0] <= t[1] && t[1] <= t[2], fmt.Sprintf("%d", t), "low, likely, high in order")
	}
}

// billSpread: the spread of a price is a number, P10 is not above the mean nor
// the mean above P90, and the price shown is the one of the bill.
//
// Source: common practice.
func (s *sight) billSpread(o *quote.Option) {
	if !o.Priced {
		return
	}
	for _, x := range []pricing.Spread{o.Bill.Spread, o.Bill.AllIn} {
		ok := finite(x.Mean) && finite(x.SD) && x.SD >= 0 && x.P10 <= x.Mean+hair && x.Mean <= x.P90+hair
		s.holds(ok, fmt.Sprintf("P10 %.2f, mean %.2f, P90 %.2f", x.P10, x.Mean, x.P90), "in order")
	}
	s.holds(o.Price == o.Bill.AllIn, fmt.Sprintf("price %.2f", o.Price.Mean), fmt.Sprintf("%.2f of the bill", o.Bill.AllIn.Mean))
	s.holds(o.Bill.AllIn.Mean >= o.Bill.Spread.Mean-hair, fmt.Sprintf("all in %.2f", o.Bill.AllIn.Mean), "at least the work alone")
}

// billHoldsTheCircuit: the bill has the breaker that was drawn, with ground-fault
// protection where it was planned, and the equipment named.
//
// Source: NEC 110.3(B); common practice.
func (s *sight) billHoldsTheCircuit(o *quote.Option) {
	c := built(o)
	if !itemised(o) || c == nil {
		return
	}
	rating, found := fmt.Sprintf(" %.0f A", float64(c.Device)), ""
	for i := range o.Bill.Lines {
		l := &o.Bill.Lines[i]
		if l.Kind == pricing.ItemLine && strings.Contains(l.Words, "breaker") && strings.Contains(l.Words, rating) {
			found = l.Words
		}
	}
	s.holds(found != "", "no breaker of"+rating, "the breaker drawn")
	s.holds(found == "" || strings.Contains(found, "GFCI") == c.GFCI, found, fmt.Sprintf("ground-fault protection %v", c.GFCI))
	s.holds(o.EquipmentCode == "" || hasLine(&o.Bill, o.EquipmentCode), "no line for "+o.EquipmentCode, "the equipment named")
}
