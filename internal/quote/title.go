package quote

import "daybreak/internal/working"

// TitleOf names an option in a line.
func TitleOf(o *Option) Sentence {
	args := []working.Term{
		working.Num("setting", o.Setting, "A"), working.Num("volts", o.Volts, "V"), working.Num("breaker", o.Breaker, AmpsEach),
	}
	if o.Managed {
		return Said("quote.title.managed", args...)
	}
	return Said("quote.title."+o.Way.Word(), args...)
}

// PriceOf says what an option costs, the priced figure first.
func PriceOf(o *Option) Sentence {
	if o.Bill.Total[1] == 0 {
		return Said("quote.price_nothing")
	}
	c := o.Bill.Currency
	return Said("quote.price", moneyTerm("likely", o.likely(), c), moneyTerm("low", int64(o.Price.P10), c), moneyTerm("high", int64(o.Price.P90), c))
}
