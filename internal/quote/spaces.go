package quote

import (
	"daybreak/internal/facts"
	"daybreak/internal/panel"
	"daybreak/internal/pricing"
	"daybreak/internal/working"
)

// house is what a panel measure leaves open and its price needs.
//
// Source: NEC 230.67 and 230.85 for what a new service has since 2020.
func (w *weighing) house(o *Option) *pricing.House {
	h := &pricing.House{
		Conditions: w.conditions(),
		Equipment:  w.equipment(o, ""),
		Rating:     w.load.Supply.Service,
		Feed:       "oh",
		Outdoor:    w.facts.Panel.Location.Is(facts.PanelLocationOutside),
		Free:       w.load.Spaces.Free,
		Surge:      w.year >= 2020, EmergencyDisconnect: w.year >= 2020,
	}
	if w.facts.Place.ServiceFeed.Is(facts.ServiceFeedUnderground) {
		h.Feed = "ug"
	}
	if c := o.Circuit; c != nil && c.Device > 0 {
		h.Charger = pricing.Breaker{Amps: c.Device, Poles: c.Poles, Protection: pricing.Standard}
		if c.GFCI {
			h.Charger.Protection = pricing.GroundFault
		}
		h.Needed = c.Poles
	}
	return h
}

// withSpaces joins what gives the breaker its spaces to the work of a circuit:
// tandem breakers where the label allows them, else a small panel beside the
// full one. Neither adds capacity. A panel that is new has spaces.
//
// Source: NEC 408.54, 408.36.
func (w *weighing) withSpaces(o *Option, work pricing.Work) pricing.Work {
	if w.newBoard(o) {
		return work
	}
	m := panel.Measure{Kind: panel.Subpanel}
	switch o.Panel.Spaces.Verdict {
	case panel.SpacesByTandem:
		m.Kind = panel.TandemBreakers
	case panel.SpacesBySubpanel:
	default:
		return work
	}
	r := pricing.FromMeasure(&m, w.house(o))
	o.Verify = append(o.Verify, Said("quote.verify.spaces"), Said("quote.verify.free_pair"))
	switch {
	case o.Feeder != nil && m.Kind == panel.Subpanel:
		o.Unpriced = append(o.Unpriced, Said("quote.unpriced.subpanel"))
		return work
	case len(r.Unpriced) > 0:
		w.gaps(o, &r)
		return work
	}
	o.Tandems, o.Subpanel = r.Work.Design.Tandems.Count, r.Work.Design.Feeder.Board.Amps
	return work.With(r.Work)
}

// newBoard reports whether an option comes with a new panel, which has the
// spaces: in place of fuses, or with a larger service.
func (w *weighing) newBoard(o *Option) bool {
	return w.onFuses() || o.Taken != nil && o.Taken.Kind == panel.UpgradeService
}

func (w *weighing) onFuses() bool {
	p := w.facts.Panel.Protection
	return p.Has() && !p.Is(facts.ProtectionBreakers)
}

// gaps names what no price can be given for before somebody has looked.
func (w *weighing) gaps(o *Option, r *pricing.Remedy) {
	for _, gap := range r.Unpriced {
		o.Unpriced = append(o.Unpriced, Said("quote.unpriced."+string(gap)))
	}
}

// inPlaceOfFuses puts a new panelboard beside a circuit that would start from
// fuses: its own bill, at the rating the service has.
//
// Source: NEC 240.4, 408.36; common practice.
func (w *weighing) inPlaceOfFuses(o *Option) error {
	if !w.onFuses() {
		return nil
	}
	r := pricing.FromMeasure(&panel.Measure{Kind: panel.NewPanelboard}, w.house(o))
	return w.beside(o, "quote.apart.new_panelboard", &r)
}

// beside prices a bill of its own. On a draw it only notes that there is one.
func (w *weighing) beside(o *Option, what string, r *pricing.Remedy) error {
	if len(r.Unpriced) > 0 {
		w.gaps(o, r)
		return nil
	}
	a := Apart{What: what}
	if w.full.Keeping() {
		bill, err := pricing.Price(w.books.Prices, r.Work, w.place, w.full)
		if err != nil {
			return err
		}
		a.Bill = bill
	}
	o.Apart = append(o.Apart, a)
	return nil
}

// Sums are the totals of all bills of an option, added scenario by scenario.
func (o *Option) Sums() pricing.Triple {
	sum := o.Bill.Total
	for i := range o.Apart {
		sum = pricing.SumOf(sum, o.Apart[i].Bill.Total)
	}
	return sum
}

// ApartOf says what a bill of its own comes to, and what all come to together.
func ApartOf(o *Option, i int) Sentence {
	b := &o.Apart[i].Bill
	return Said(o.Apart[i].What, moneyTerm("likely", b.Total[pricing.Likely], b.Currency),
		moneyTerm("low", int64(b.AllIn.P10), b.Currency), moneyTerm("high", int64(b.AllIn.P90), b.Currency),
		moneyTerm("together", o.Sums()[pricing.Likely], b.Currency),
		working.Num("short", b.Weeks()[0], ""), working.Num("long", b.Weeks()[2], ""))
}
