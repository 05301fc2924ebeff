package quote

import (
	"daybreak/internal/circuit"
	"daybreak/internal/circuit/outlet"
	"daybreak/internal/working"
)

// whyNot says why an option that was weighed is not shown, gravest reason first.
func (w *weighing) whyNot(o *Option, c choice) Sentence {
	switch {
	case !o.Possible:
		return Said("quote.not.permission")
	case o.Circuit != nil && o.Circuit.Outcome == circuit.NotServed:
		return Said("quote.not.served." + ReasonWord(o.Circuit.Reason))
	case o.Circuit != nil && o.Circuit.Outcome == circuit.Impossible:
		return Said("quote.not.impossible." + ReasonWord(o.Circuit.Reason))
	case o.Outlet != nil && o.Outlet.Word == outlet.Stop && !o.needsPuttingRight():
		return Said("quote.not.unsafe")
	case o.Taken != nil:
		return whyTaken(o, w.wished())
	case !o.carried() && o.Managed:
		return Said("quote.not.managed")
	case !o.carried():
		return Said("quote.not.panel_"+VerdictWord(o.Panel.Verdict),
			working.Num("total", o.Panel.Total, ""), working.Num("capacity", o.Panel.Capacity.Amps, "A"))
	case o.Way == ExistingOutlet && len(o.Unpriced) > 0:
		return Said("quote.not.outlet_work")
	case !o.Priced:
		return Said("quote.not.priced")
	case !o.RefillsWorst:
		return Said("quote.not.weaker", hoursTerm("hours", o.HoursNormal))
	}
	if c.best < 0 {
		return Said("quote.not.between")
	}
	return w.besideBest(o, c)
}

// besideBest says what an option that could be built gives and costs beside
// the best fit.
func (w *weighing) besideBest(o *Option, c choice) Sentence {
	best := &w.options[c.best]
	more := o.likely() - best.likely()
	amount := moneyTerm("more", more, o.Bill.Currency)
	switch {
	case more < leastNamed && more > -leastNamed && o.power() == best.power():
		return Said("quote.not.same")
	case more >= leastNamed && o.power() < best.power():
		return Said("quote.not.dearer_slower", amount)
	case more >= leastNamed && o.power() == best.power():
		return Said("quote.not.dearer", amount)
	case more >= leastNamed && c.grow < 0 && o.Rate.Wall <= best.Rate.Wall:
		return Said("quote.not.car_limit", amount)
	case more >= leastNamed && w.wished() >= o.Setting:
		return Said("quote.not.dearer_wished", amount, hoursTerm("hours", o.HoursNormal))
	case more >= leastNamed:
		return Said("quote.not.dearer_faster", amount, hoursTerm("hours", o.HoursNormal))
	case o.power() < best.power() && more <= -leastNamed:
		return Said("quote.not.cheaper_slower", moneyTerm("less", -more, o.Bill.Currency), hoursTerm("hours", o.HoursNormal))
	}
	return Said("quote.not.between")
}

// leastNamed is the smallest difference in price worth naming, minor units.
const leastNamed = 1000
