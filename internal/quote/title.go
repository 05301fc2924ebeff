package quote

import (
	"daybreak/internal/circuit/outlet"
	"daybreak/internal/working"
)

// TitleOf names an option in a line.
func TitleOf(o *Option) Sentence {
	args := []working.Term{
		working.Num("setting", o.Setting, "A"), working.Num("volts", o.Volts, "V"), working.Num("breaker", o.Breaker, AmpsEach),
	}
	switch {
	case o.Taken != nil:
		return titleTaken(o, args)
	case o.Managed:
		return Said("quote.title.managed", args...)
	case o.Way != ExistingOutlet:
		return Said("quote.title."+o.Way.Word(), args...)
	case o.shares():
		return Said("quote.title.shared", append(args, working.Word("face", o.OutletWay.Receptacle))...)
	}
	return Said("quote.title."+string(o.OutletWay.Kind), append(args, working.Word("face", o.OutletWay.Receptacle))...)
}

// PriceOf says what an option costs, the priced figure first.
func PriceOf(o *Option) Sentence {
	if o.Bill.Total[1] == 0 {
		return Said("quote.price_nothing")
	}
	c := o.Bill.Currency
	return Said("quote.price", moneyTerm("likely", o.likely(), c), moneyTerm("low", int64(o.Price.P10), c), moneyTerm("high", int64(o.Price.P90), c))
}

// RateOf says what an option gives at the wall and what holds it there.
func RateOf(o *Option) Sentence {
	return Said("quote.rate", working.Num("power", o.Rate.Wall, "kW"), working.Num("miles", o.MilesPerHour, "mi"),
		working.Word("limit", o.Rate.Binding.Word()))
}

// shares reports whether an appliance stays on the circuit, with a listed
// switch that never lets both run.
func (o *Option) shares() bool {
	for _, w := range o.OutletWay.Work {
		if w.Kind == outlet.SharingSwitch {
			return true
		}
	}
	return false
}

// titleTaken names an option that rests on a panel measure.
func titleTaken(o *Option, args []working.Term) Sentence {
	args = append(args, working.Word("load", o.Taken.Load.String()), working.Num("service", o.Taken.Service, AmpsEach))
	return Said("quote.title."+o.Taken.Kind.String(), args...)
}

// IncludesOf says what a price holds beside the circuit: a feeder, a small
// panel or tandem breakers.
func IncludesOf(o *Option) []Sentence {
	var out []Sentence
	if o.Feeder != nil && o.Priced {
		out = append(out, Said("quote.includes.feeder", working.Num("amps", o.Feeder.Device, "A")))
	}
	if o.Subpanel > 0 {
		out = append(out, Said("quote.includes.subpanel", working.Num("amps", o.Subpanel, "A")))
	}
	if o.Tandems > 0 {
		out = append(out, Said("quote.includes.tandems", working.Num("count", o.Tandems, "")))
	}
	return out
}
