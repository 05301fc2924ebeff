package pricing

import (
	"slices"

	"daybreak/internal/unit"
)

// utilitySteps is what the utility and its customer do in turn; an underground
// supply has its lateral dug between.
//
// Source: common practice of utilities; NFPA 70 230 begins behind their point
// of delivery.
var utilitySteps = map[string][]string{
	"oh": {"pricing.utility.letter", "pricing.utility.drop", "pricing.utility.off", "pricing.utility.inspection", "pricing.utility.on"},
	"ug": {"pricing.utility.letter", "pricing.utility.lateral", "pricing.utility.off", "pricing.utility.inspection", "pricing.utility.on"},
}

// swapSteps is the utility's part where the rating stays.
var swapSteps = []string{"pricing.utility.off", "pricing.utility.inspection", "pricing.utility.on"}

// utility says what the utility does in a service upgrade and how many weeks
// it may take; nothing for other work.
func (t *tally) utility() *UtilityNote {
	s := &t.work.Design.Service
	switch {
	case s.To == 0:
		return nil
	case s.From == s.To:
		return &UtilityNote{Steps: slices.Clone(swapSteps)}
	}
	feed := "oh"
	if s.Feed == "ug" {
		feed = "ug"
	}
	return &UtilityNote{Weeks: t.book.weeks[feed], Steps: slices.Clone(utilitySteps[feed])}
}

// asides names what others price, with the book's range where it has one.
func (t *tally) asides() []AsideNote {
	if len(t.work.Asides) == 0 {
		return nil
	}
	notes := make([]AsideNote, len(t.work.Asides))
	for i, a := range t.work.Asides {
		n := &notes[i]
		*n = AsideNote{Key: "pricing.aside." + a.What, What: a.What}
		if id, ok := t.book.asides[a.What]; ok {
			quantity := int64(thousand)
			if t.book.items[id].unit == "ft" {
				quantity = milli(a.Feet)
			}
			n.Code = t.book.items[id].code
			for s, price := range t.place.prices[id] {
				n.Amount[s], _ = unit.RoundRatio(quantity, price, thousand, unit.HalfEven)
			}
		}
		t.step(ruleAside, term("what", a.What), t.money("out", n.Amount[Likely]))
	}
	return notes
}
