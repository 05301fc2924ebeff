package quote

import (
	"sort"

	"daybreak/internal/charging"
	"daybreak/internal/circuit"
	"daybreak/internal/circuit/outlet"
	"daybreak/internal/edition"
	"daybreak/internal/panel"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// MoneyUnit marks a term that holds minor units of a currency; the code follows.
const MoneyUnit = "¤"

// AmpsEach marks amperes that stand before a noun: "a 40 amp breaker".
const AmpsEach = "A each"

// moneyTerm is an amount as a term of a sentence.
func moneyTerm(name string, minor int64, c unit.Currency) working.Term {
	return working.Term{Name: name, Value: float64(minor), Unit: MoneyUnit + c.Code()}
}

// whyShown says in one sentence why an option is on the quote.
func (w *weighing) whyShown(o *Option, best int) Sentence {
	hours := hoursTerm("hours", o.HoursNormal)
	if o.Role&BestFit != 0 {
		switch {
		case o.Role&EnoughForNow != 0 && !o.RefillsWorst:
			return Said("quote.why.most_there_is", hours)
		case o.Role&EnoughForNow != 0:
			return Said("quote.why.enough_and_best", hours)
		case o.existing240() && o.Outlet.Word == outlet.Stop:
			return Said("quote.why.hot_contact", working.Num("setting", o.Setting, "A"), hours)
		case o.existing240():
			return Said("quote.why.existing_circuit", working.Num("setting", o.Setting, "A"), hours)
		case o.Managed:
			return Said("quote.why.managed", working.Num("setpoint", o.Setpoint, "A"), hours)
		}
		next := w.nextCheaper(o)
		if next == nil {
			return Said("quote.why.best", hours)
		}
		return Said("quote.why.best_saves", hours, hoursTerm("saved", next.HoursNormal-o.HoursNormal), hoursTerm("other", next.HoursNormal))
	}
	if o.Role&EnoughForNow != 0 {
		if !o.RefillsWorst {
			return Said("quote.why.most_there_is", hours)
		}
		return Said("quote.why.enough", hours)
	}
	args := []working.Term{working.Num("miles", o.MilesPerHour, "mi"), working.Num("setting", o.Setting, "A")}
	if best >= 0 && o.likely() <= w.options[best].likely() {
		return Said("quote.why.grow_cheaper", args...)
	}
	if wish := w.wished(); wish >= o.Setting {
		return Said("quote.why.grow_wish", append(args, working.Num("wish", wish, "A"))...)
	}
	return Said("quote.why.grow", args...)
}

// nextCheaper is the dearest offerable option that costs less and takes longer.
func (w *weighing) nextCheaper(o *Option) *Option {
	var next *Option
	for i := range w.options {
		other := &w.options[i]
		if other.ID == o.ID || !other.offerable() || other.likely() >= o.likely() || other.HoursNormal <= o.HoursNormal {
			continue
		}
		if next == nil || other.likely() > next.likely() {
			next = other
		}
	}
	return next
}

// whatChanges names the fact most likely to change the choice.
func (w *weighing) whatChanges(o *Option) Sentence {
	switch {
	case o.Managed && w.load.Source.Kind == panel.NoSource:
		return Said("quote.change.measured_peak")
	case o.Managed: // a net meter hides the peak
		return Said("quote.change.load_gone")
	case o.Way == ExistingOutlet && o.Level == charging.Level1:
		return Said("quote.change.level1", working.Num("miles", o.WinterMiles, "mi"))
	case o.Way == ExistingOutlet:
		return Said("quote.change.outlet")
	case o.Panel != nil && o.spare() < 0.1:
		return Said("quote.change.load", working.Num("spare", o.Panel.Spare, "A"))
	case o.Circuit != nil && o.Circuit.GroundFault.Value == edition.AskAHJ:
		return Said("quote.change.ground_fault")
	}
	return Said("quote.change.feet", moneyTerm("more", o.Bill.TenMoreFeet[1], o.Bill.Currency))
}

// headline makes the result in one sentence.
func (w *weighing) headline(q *Quote, best *Option) {
	if best != nil {
		q.Headline = headlineOf(q, best)
		return
	}
	q.Headline = Said("quote.headline.nothing")
	if setting := w.plannedOnSite(); setting > 0 {
		q.Headline = Said("quote.headline.planned_on_site", working.Num("setting", setting, "A"))
	}
}

// plannedOnSite is the best fit of a home whose circuit nobody has designed
// yet: the largest setting in the usual reach that its panel carries; 0 when
// there is none.
func (w *weighing) plannedOnSite() unit.Amps {
	most := unit.Amps(0)
	for i := range w.options {
		o := &w.options[i]
		onSite := o.Circuit != nil && (o.Circuit.Outcome == circuit.NotServed || o.Circuit.Reason == circuit.SecondSupply)
		if onSite && o.Possible && o.newLevel2() && o.carried() && o.spare() >= spareShare && o.Setting <= w.reach() {
			most = max(most, o.Setting)
		}
	}
	return most
}

// SetBand puts the range over what is not known on the quote and into its
// headline.
func (q *Quote) SetBand(b Band) {
	q.Band = b
	if best := q.best(); best != nil {
		q.Headline = headlineOf(q, best)
	}
}

func headlineOf(q *Quote, o *Option) Sentence {
	low, high, currency := int64(o.Bill.AllIn.P10), int64(o.Bill.AllIn.P90), o.Bill.Currency
	if q.Band.Draws > 0 {
		low, high = q.Band.P10, q.Band.P90
	}
	price := []working.Term{moneyTerm("low", low, currency), moneyTerm("high", high, currency)}
	args := append(price, hoursTerm("hours", o.HoursNormal), working.Num("setting", o.Setting, "A"), working.Num("breaker", o.Breaker, AmpsEach))
	switch {
	case q.Standing == Halted:
		return Said("quote.headline.halted", args...)
	case len(o.Apart) > 0:
		return Said("quote.headline.with_panel", append(args, moneyTerm("apart", o.Apart[0].Bill.Total[1], currency))...)
	case o.Way == ExistingOutlet && len(o.OutletWay.Work) == 0 && high == 0:
		return Said("quote.headline.enough_already", args...)
	case o.Way == ExistingOutlet && len(o.OutletWay.Work) == 0:
		return Said("quote.headline.existing", args...)
	case o.Way == ExistingOutlet:
		return Said("quote.headline.put_right", args...)
	case o.Managed:
		return Said("quote.headline.managed", args...)
	case o.Way == NewReceptacle:
		return Said("quote.headline.receptacle", args...)
	}
	return Said("quote.headline.hardwired", args...)
}

func sortByPrice(options []Option) {
	sort.SliceStable(options, func(i, j int) bool {
		if options[i].Priced != options[j].Priced {
			return options[i].Priced
		}
		return options[i].likely() < options[j].likely()
	})
}
