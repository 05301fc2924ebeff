package pricing

import (
	"slices"

	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Price makes the bill of a piece of work at a place. The sheet may be nil.
// An impossible number is a fault naming its field ("route.segments[0].ft"),
// and so is a design that asks for something the book does not sell
// ("design.breaker"), which the book's completeness check should have found.
//
// Source: NFPA 70 article of each quantity, beside its rule; the rest common
// practice of estimating.
func Price(book *Book, work Work, place Place, sheet *working.Sheet) (Bill, error) {
	t := tally{book: book, place: &place, work: &work, sheet: sheet}
	figures, err := t.figures()
	if err != nil {
		return Bill{}, err
	}
	bill := Bill{
		Figures: figures, Lines: t.lines(), FeetAssumed: work.Route.feet() + work.Design.Feeder.feet(),
		Permits: place.Permit(), Taxes: place.Tax(), Findings: place.findings(book),
	}
	if bill.TenMoreFeet, err = tenMoreFeet(book, work, &place, &figures); err != nil {
		return Bill{}, err
	}
	t.stepTenFeet(&bill)
	bill.Utility, bill.Asides = t.utility(), t.asides()
	return bill, nil
}

// Estimate gives the figures of [Price] and nothing else: the same code
// without lines, for callers that price many draws.
func Estimate(book *Book, work Work, place Place) (Figures, error) {
	t := tally{book: book, place: &place, work: &work}
	return t.figures()
}

// figures counts the work out, line by line in the order of the bill, and adds
// the lines up.
func (t *tally) figures() (Figures, error) {
	if err := t.work.check(); err != nil {
		return Figures{}, err
	}
	t.materials()
	t.hours()
	if t.err != nil {
		return Figures{}, t.err
	}
	t.charges()
	f := Figures{Currency: t.book.Currency}
	for i := range t.entries() {
		for s := range f.Sum {
			f.Sum[s] += t.room[i].amount[s]
		}
	}
	if err := t.discount(&f); err != nil {
		return Figures{}, err
	}
	for s := range f.Subtotal {
		f.Subtotal[s] = f.Sum[s] - f.Discount[s]
	}
	t.permit(&f)
	t.tax(&f)
	for s := range f.Total {
		f.Total[s] = f.Subtotal[s] + f.Permit[s] + f.Tax[s]
	}
	t.spread(&f)
	t.stepTotal(&f)
	return f, nil
}

// charges adds the trip and, where hours and trip stay below it, what is
// missing to the minimum, as a line of its own.
func (t *tally) charges() {
	var labour Triple
	for i := range t.entries() {
		if t.room[i].kind == LabourLine {
			for s := range labour {
				labour[s] += t.room[i].amount[s]
			}
		}
	}
	if labour == (Triple{}) {
		return
	}
	fees := uint8(max(slices.Index(t.book.trades, "fees"), 0))
	trip := t.place.region.rates.trip
	e := entry{
		kind: ChargeLine, class: ClassLabour, trade: fees, ref: chargeTrip, rule: ruleTrip,
		quantity: Quantity(t.work.Visits) * thousand, price: Triple{trip, trip, trip},
	}
	t.extend(&e)
	t.push(e)
	t.step(ruleTrip, num("visits", int64(t.work.Visits), ""), t.money("out", e.amount[Likely]), t.money("trip", trip))
	var short Triple
	for s := range short {
		short[s] = max(0, t.book.labour.minimum-labour[s]-e.amount[s])
	}
	if short == (Triple{}) {
		return
	}
	t.push(entry{
		kind: ChargeLine, class: ClassLabour, trade: fees, ref: chargeMinimum, rule: ruleMinimum,
		quantity: thousand, price: short, amount: short,
	})
	t.step(ruleMinimum, t.money("minimum", t.book.labour.minimum), t.money("out", short[Likely]),
		t.money("labour", labour[Likely]), t.money("trip", e.amount[Likely]))
}

// discount spreads the discount over the lines of its classes, so that the
// taxed part of it is known.
func (t *tally) discount(f *Figures) error {
	d := t.work.Discount
	if d.Minor == 0 {
		return nil
	}
	var rows []int
	for i := range t.entries() {
		if d.Over.Has(t.room[i].class) {
			rows = append(rows, i)
		}
	}
	weights := make([]int64, len(rows))
	for s := range f.Discount {
		var sum int64
		for n, i := range rows {
			weights[n] = t.room[i].amount[s]
			sum += weights[n]
		}
		if d.Minor > sum {
			return outOfBounds("discount.amount", unit.Money{Minor: d.Minor, Currency: t.book.Currency}, "at most the sum of the lines it is spread over, "+
				unit.Money{Minor: sum, Currency: t.book.Currency}.String())
		}
		for n, share := range Allocate(d.Minor, weights) {
			t.room[rows[n]].discount[s] = share
		}
		f.Discount[s] = d.Minor
	}
	t.step(ruleDiscount, num("lines", int64(len(rows)), ""), t.money("out", d.Minor))
	return nil
}

// tenMoreFeet prices the longest segment, of the circuit or its feeder, ten
// feet longer.
func tenMoreFeet(book *Book, work Work, place *Place, now *Figures) (more Triple, err error) {
	lists := [2]*[]Segment{&work.Route.Segments, &work.Design.Feeder.Segments}
	of, longest := 0, -1
	for i, list := range lists {
		for j, s := range *list {
			if longest < 0 || s.Feet > (*lists[of])[longest].Feet {
				of, longest = i, j
			}
		}
	}
	if longest < 0 || (*lists[of])[longest].Feet+10 > longestSegment {
		return more, nil
	}
	*lists[of] = slices.Clone(*lists[of])
	(*lists[of])[longest].Feet += 10
	then, err := Estimate(book, work, *place)
	if err != nil {
		return more, err
	}
	for s := range more {
		more[s] = then.Total[s] - now.Total[s]
	}
	return more, nil
}
