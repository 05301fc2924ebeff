package quote

import (
	"sort"

	"daybreak/internal/charging"
	"daybreak/internal/circuit"
	"daybreak/internal/circuit/outlet"
	"daybreak/internal/edition"
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
func (w *weighing) whyShown(o *Option, c choice) Sentence {
	hours := hoursTerm("hours", o.HoursNormal)
	if o.Role&BestFit != 0 {
		switch {
		case o.Role&EnoughForNow != 0 && !o.RefillsWorst:
			return Said("quote.why.most_there_is", hours)
		case o.Role&EnoughForNow != 0:
			return Said("quote.why.enough_and_best", hours)
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
	return Said("quote.why.grow", working.Num("miles", o.MilesPerHour, "mi"), working.Num("setting", o.Setting, "A"))
}

// nextCheaper is the dearest offerable option that costs less and takes longer.
func (w *weighing) nextCheaper(o *Option) *Option {
	var next *Option
	for i := range w.options {
		other := &w.options[i]
		if other == o || !other.offerable() || other.likely() >= o.likely() || other.HoursNormal <= o.HoursNormal {
			continue
		}
		if next == nil || other.likely() > next.likely() {
			next = other
		}
	}
	return next
}

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
	case !o.carried():
		return Said("quote.not.panel_"+VerdictWord(o.Panel.Verdict),
			working.Num("total", o.Panel.Total, "A"), working.Num("capacity", o.Panel.Capacity.Amps, "A"))
	case !o.Priced:
		return Said("quote.not.priced")
	case !o.RefillsWorst:
		return Said("quote.not.weaker", hoursTerm("hours", o.HoursNormal))
	}
	if c.best >= 0 {
		if more := o.likely() - w.options[c.best].likely(); more >= leastNamed {
			return Said("quote.not.dearer", moneyTerm("more", more, o.Bill.Currency))
		}
	}
	return Said("quote.not.between")
}

// leastNamed is the smallest difference in price worth naming, minor units.
const leastNamed = 1000

// whatChanges names the fact most likely to change the choice.
func (w *weighing) whatChanges(o *Option) Sentence {
	switch {
	case o.Circuit != nil && o.Circuit.GroundFault.Value == edition.AskAHJ:
		return Said("quote.change.ground_fault")
	case o.Managed:
		return Said("quote.change.measured_peak")
	case o.Way == ExistingOutlet && o.Level == charging.Level1:
		return Said("quote.change.level1", working.Num("miles", w.need.Miles, "mi"))
	case o.Way == ExistingOutlet:
		return Said("quote.change.outlet")
	case o.Panel != nil && o.spare() < 0.1:
		return Said("quote.change.load", working.Num("spare", o.Panel.Spare, "A"))
	}
	return Said("quote.change.feet", moneyTerm("more", o.Bill.TenMoreFeet[1], o.Bill.Currency))
}

// headline makes the result in one sentence.
func (w *weighing) headline(q *Quote, best *Option) {
	if best == nil {
		q.Headline = Said("quote.headline.nothing")
		return
	}
	q.Headline = headlineOf(q, best)
}

// SetBand puts the range over what is not known on the quote and into its
// headline.
func (q *Quote) SetBand(b Band) {
	q.Band = b
	for i := range q.Options {
		if q.Options[i].Role&BestFit != 0 {
			q.Headline = headlineOf(q, &q.Options[i])
		}
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

// ReasonWord is why a circuit was not designed, as words and data spell it.
func ReasonWord(r circuit.Reason) string {
	return wordOf([]string{"none", "underground", "other_method", "too_many_changes", "no_method_fits",
		"no_conductor", "drop_too_high", "no_receptacle", "nothing_stocked"}, int(r))
}

// WireWord is a circuit's wire as data spells it: "8 AWG copper NM-B".
func WireWord(c *circuit.Candidate) string {
	out := ""
	for i := range c.Parts {
		p := &c.Parts[i]
		if p.Method == 0 {
			continue
		}
		if out != "" {
			out += ", "
		}
		out += p.Hot.String() + " copper " + methodWord(p)
	}
	return out
}

func methodWord(p *circuit.Part) string {
	method := map[edition.Method]string{
		edition.NMB: "NM-B", edition.UFB: "UF-B", edition.MC: "MC", edition.SER: "SER",
		edition.THWN2: "THWN-2", edition.XHHW2: "XHHW-2", edition.THWNWet: "THWN",
	}[p.Method]
	raceway := map[edition.Raceway]string{
		edition.EMT: "EMT", edition.PVC40: "PVC 40", edition.PVC80: "PVC 80", edition.RMC: "RMC",
	}[p.Raceway]
	if raceway == "" {
		return method
	}
	return method + " in " + string(p.Trade) + " " + raceway
}

func sortByPrice(options []Option) {
	sort.SliceStable(options, func(i, j int) bool {
		if options[i].Priced != options[j].Priced {
			return options[i].Priced
		}
		return options[i].likely() < options[j].likely()
	})
}
