package pricing

import "strconv"

// lines dresses the entries for reading.
func (t *tally) lines() []Line {
	if t.n == 0 {
		return nil
	}
	out := make([]Line, t.n)
	for i := range t.entries() {
		e := &t.room[i]
		l := &out[i]
		*l = Line{
			Kind: e.kind, Quantity: e.quantity, UnitPrice: e.price, Amount: e.amount, Discount: e.discount, Class: e.class,
			Trade: t.book.trades[e.trade], Why: ruleKeys[e.rule].key, From: ruleKeys[e.rule].from,
		}
		switch {
		case e.kind == ItemLine:
			it := &t.book.items[e.ref]
			l.Code, l.Words, l.Unit = it.code, it.words, it.unit
			l.Purchase = it.purchase(e)
		case e.kind == LabourLine:
			k := &t.book.labour.tasks[e.ref]
			hours := e.hours
			l.Code, l.Words, l.Unit, l.Hours = k.code, k.words, k.unit, &hours
		case e.ref == chargeTrip:
			l.Code, l.Words, l.Unit = "trip", "travel and vehicle", "visit"
		default:
			l.Code, l.Words, l.Unit = "minimum", "minimum charge, difference", "job"
		}
	}
	return out
}

// purchase says what must be bought to have what is used.
func (it *item) purchase(e *entry) *Purchase {
	switch {
	case it.stickFeet > 0:
		return &Purchase{Used: e.used, Pack: it.stickFeet, Bought: int64(e.quantity) / thousand * it.stickFeet}
	case len(it.rollFeet) == 1:
		return &Purchase{Used: e.used, Pack: it.rollFeet[0], Bought: cover(it.rollFeet, e.used)}
	case len(it.rollFeet) > 1 && e.used > 0:
		return &Purchase{Used: e.used, Bought: cover(it.rollFeet, e.used)}
	}
	return nil
}

// String prints a quantity without trailing zeros: "3.4", "112".
func (q Quantity) String() string {
	s := strconv.FormatInt(int64(q)/thousand, 10)
	rest := int64(q) % thousand
	if rest == 0 {
		return s
	}
	frac := strconv.FormatInt(thousand+rest, 10)[1:]
	for frac[len(frac)-1] == '0' {
		frac = frac[:len(frac)-1]
	}
	return s + "." + frac
}

// String prints hours with two decimals.
func (h Hundredths) String() string {
	return strconv.FormatInt(int64(h)/100, 10) + "." + strconv.FormatInt(100+int64(h)%100, 10)[1:]
}
