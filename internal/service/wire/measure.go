package wire

import (
	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/circuit"
	"daybreak/internal/pricing"
	"daybreak/internal/quote"
	"daybreak/internal/unit"
)

// feeder is a designed feeder in the words of a circuit; what stands at its
// end is said with the option.
func (w *Words) feeder(f *circuit.FeederResult, volts unit.Volts) *daybreakv1.CircuitDesign {
	if f == nil {
		return nil
	}
	return w.Design(&circuit.Result{
		Outcome: f.Outcome, Reason: f.Reason, WouldDo: f.WouldDo, Load: f.Drawn, Design: f.Demand, Device: f.Device, Poles: 2,
		Chosen: f.Chosen, Hardwired: true, Notes: f.Notes, Takeoff: f.Takeoff,
	}, f.Drawn, volts, nil)
}

// apart are the bills of their own beside an option.
func (w *Words) apart(o *quote.Option) []*daybreakv1.BillApart {
	var out []*daybreakv1.BillApart
	for i := range o.Apart {
		b := &o.Apart[i].Bill
		if len(b.Lines) == 0 {
			continue
		}
		out = append(out, &daybreakv1.BillApart{
			What: w.sentence(quote.ApartOf(o, i)), Bill: w.Bill(b, nil), Together: money(o.Sums()[pricing.Likely], b.Currency),
		})
	}
	return out
}

// asides are what others price.
func (w *Words) asides(b *pricing.Bill) []*daybreakv1.Aside {
	var out []*daybreakv1.Aside
	for i := range b.Asides {
		a := &b.Asides[i]
		one := &daybreakv1.Aside{What: w.rule(a.Key)}
		if a.Amount[pricing.High] > 0 {
			one.Price = span(a.Amount[pricing.Low], a.Amount[pricing.Likely], a.Amount[pricing.High], b.Currency)
		}
		out = append(out, one)
	}
	return out
}

func (w *Words) utility(u *pricing.UtilityNote) *daybreakv1.UtilityPart {
	if u == nil {
		return nil
	}
	out := &daybreakv1.UtilityPart{}
	for _, key := range u.Steps {
		out.Steps = append(out.Steps, w.rule(key))
	}
	if u.Weeks != ([3]int{}) {
		for _, n := range u.Weeks {
			out.Weeks = append(out.Weeks, int32(n))
		}
	}
	return out
}
