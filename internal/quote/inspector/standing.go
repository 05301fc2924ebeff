package inspector

import (
	"fmt"
	"slices"
	"strings"

	"daybreak/internal/charging"
	"daybreak/internal/facts"
	"daybreak/internal/panel"
	"daybreak/internal/quote"
	"daybreak/internal/quote/caution"
)

// wordsIn splits the words of a set.
func wordsIn(set string) []string {
	return strings.FieldsFunc(set, func(r rune) bool { return r == ',' || r == ' ' })
}

// edition: the edition printed is the household's, and one the tables hold.
//
// Source: the permit's date decides.
func (s *sight) edition() {
	want, _ := s.facts.Place.CodeEdition.Get()
	s.holds(slices.Contains(s.Editions, s.year), s.quote.Edition, fmt.Sprintf("one of %v", s.Editions))
	s.holds(fmt.Sprint(s.year) == want.String(), s.quote.Edition, want.String())
}

// dangerHalts: heat, burning, noise, water and the like, once told, halt the
// quote.
//
// Source: NEC 110.12(B), 110.14; common practice.
func (s *sight) dangerHalts() {
	for path, words := range s.Halts.When {
		leaf, ok := facts.LeafAt(path)
		if !ok {
			continue
		}
		slot := leaf.At(s.facts)
		if slot.State() != facts.Told {
			continue
		}
		told, _ := slot.Value().([]string)
		if word, one := slot.Value().(string); one {
			told = []string{word}
		}
		for _, w := range told {
			s.holds(!slices.Contains(words, w) || s.quote.Standing == quote.Halted, path+" "+w+": "+s.quote.Standing.Word(), "halted")
		}
	}
}

// haltedNotBookable: a finding that halts the quote, or the option it would be
// booked on, leaves it halted; a halted quote says why.
//
// Source: common practice.
func (s *sight) haltedNotBookable() {
	q := s.quote
	halts := func(list []caution.Finding, reach ...caution.Reach) bool {
		return slices.ContainsFunc(list, func(f caution.Finding) bool {
			return f.Gravity == caution.Halt && slices.Contains(reach, f.Halts)
		})
	}
	s.holds(!halts(q.Findings, caution.Quote) || q.Standing == quote.Halted, q.Standing.Word()+" with a halt", "halted")
	s.holds(q.Standing != quote.Halted || len(q.Reasons) > 0, "halted without a reason", "the reason")
	if q.Standing != quote.ReadyToBook {
		return
	}
	for i := range q.Options {
		o := &q.Options[i]
		if o.Role&quote.BestFit != 0 && o.Way == quote.ExistingOutlet && keeps(o) {
			s.holds(!halts(o.Findings, caution.ExistingOutlet, caution.OptionsUsing), o.ID+" with a halt, ready to book", "halted")
		}
	}
}

// bestFit is the option a quote would be booked on; nil when there is none.
func (s *sight) bestFit() *quote.Option {
	for i := range s.quote.Options {
		if s.quote.Options[i].Role&quote.BestFit != 0 {
			return &s.quote.Options[i]
		}
	}
	return nil
}

// onlyFitsIsReady: a quote ready to book rests on an option whose verdict is
// fits, by the inspector's own arithmetic, or that is managed; drawn and priced
// whole.
//
// Source: NEC 230.42, 220.82; tight and ask the AHJ wait for a person.
func (s *sight) onlyFitsIsReady() {
	if s.quote.Standing != quote.ReadyToBook {
		return
	}
	o := s.bestFit()
	if o == nil {
		s.breaks("ready to book, nothing to book", "an option")
		return
	}
	if o.Panel != nil && !o.Managed {
		v, _ := s.best(counted(o))
		s.holds(v == panel.Fits, "ready to book: "+v.String(), panel.Fits.String())
	}
	s.holds(o.Circuit == nil || built(o) != nil, o.ID+" is not designed", "a circuit that is")
	s.holds(o.Priced && len(o.Unpriced) == 0, o.ID+" is not priced whole", "a whole price")
	s.holds(o.Outlet == nil || len(o.Outlet.Verify) == 0, o.ID+" has readings missing", "an outlet that was read")
	s.holds(o.Way == quote.ExistingOutlet || !s.fuses(), "a new circuit on fuses, ready to book", "a site check")
}

// permission: without the owner's word in writing a quote is not ready to book.
//
// Source: common practice; the owner of the wires decides.
func (s *sight) permission() {
	p := &s.facts.Place
	if !p.Tenure.Is(facts.TenureOwn) && !p.Permission.Is(facts.PermissionWritten) {
		s.holds(s.quote.Standing != quote.ReadyToBook, "ready to book without leave", "at most subject to a site check")
	}
}

// assumedIsNotReady: what decides was told, or follows from what was told.
//
// Source: common practice; a drawn deciding fact never yields a firmer standing.
func (s *sight) assumedIsNotReady() {
	o := s.bestFit()
	if s.quote.Standing != quote.ReadyToBook || o == nil {
		return
	}
	paths := s.Firm.Circuit
	if o.Way == quote.ExistingOutlet {
		paths = []string{"place.jurisdiction"}
		for _, leaf := range s.Firm.Outlet {
			paths = append(paths, o.OutletSlot+"."+leaf)
		}
	}
	for _, path := range paths {
		leaf, ok := facts.LeafAt(path)
		if !ok {
			continue
		}
		slot := leaf.At(s.facts)
		firm := slot.State() == facts.Told || slot.State() == facts.Derived && (slot.Basis() == facts.FromAnotherAnswer || slot.Basis() == facts.FromCodeRule)
		s.holds(firm, path+" is "+slot.State().String()+", "+slot.Basis().String(), "told")
	}
}

// cheapestFirst: the options stand by their likely price.
//
// Source: common practice.
func (s *sight) cheapestFirst() {
	for i := 1; i < len(s.quote.Options); i++ {
		a, b := &s.quote.Options[i-1], &s.quote.Options[i]
		s.holds(a.Bill.Total[1] <= b.Bill.Total[1], a.ID+" before "+b.ID, "cheapest first")
	}
}

// atMostThree: at most three options are shown, each with a role no other has,
// priced and possible; where any is, one is the best fit.
//
// Source: common practice.
func (s *sight) atMostThree() {
	q := s.quote
	s.holds(len(q.Options) <= 3, fmt.Sprintf("%d options", len(q.Options)), "at most three")
	var roles quote.Role
	for i := range q.Options {
		o := &q.Options[i]
		s.holds(o.Role != 0 && roles&o.Role == 0, fmt.Sprintf("%s as %v", o.ID, o.Role.Words()), "a role of its own")
		s.holds(o.Possible && o.Priced, o.ID+" is not possible or not priced", "possible and priced")
		s.holds(o.Circuit == nil || built(o) != nil, o.ID+" is not designed", "a circuit that is")
		roles |= o.Role
	}
	s.holds(len(q.Options) == 0 || roles&quote.BestFit != 0, "no best fit", "one")
}

// uniqueNames: no two options, shown or not, have one name.
//
// Source: common practice.
func (s *sight) uniqueNames() {
	seen := map[string]bool{}
	for _, list := range [][]quote.Option{s.quote.Options, s.quote.Others} {
		for i := range list {
			s.holds(!seen[list[i].ID] && list[i].ID != "", list[i].ID+" twice", "a name of its own")
			seen[list[i].ID] = true
		}
	}
}

// bandOrder: the range of price over what is not known is in order.
//
// Source: common practice.
func (s *sight) bandOrder() {
	b := &s.quote.Band
	s.holds(b.P10 <= b.P90 && b.P10 >= 0, fmt.Sprintf("P10 %d, P90 %d", b.P10, b.P90), "P10 not above P90")
	s.holds(b.Draws == 0 || b.P10 <= b.P50 && b.P50 <= b.P90, fmt.Sprintf("P10 %d, P50 %d, P90 %d", b.P10, b.P50, b.P90), "in order")
}

// dwellingLevel: nothing above Level 2 is quoted for a dwelling, and the level
// follows from the voltage.
//
// Source: SAE J1772 levels; direct current stays away from home.
func (s *sight) dwellingLevel(o *quote.Option) {
	want := charging.Level2
	if o.Volts == 120 {
		want = charging.Level1
	}
	s.holds(o.Level == want, fmt.Sprintf("level %v at %.0f V", o.Level, o.Volts), fmt.Sprintf("level %v", want))
	s.holds(o.Volts == 120 || o.Volts == 208 || o.Volts == 240, fmt.Sprintf("%.0f V", o.Volts), "120, 208 or 240 V")
	if o.Way != quote.ExistingOutlet && o.Volts != 120 {
		s.holds(float64(o.Volts) == s.loads.volts, fmt.Sprintf("%.0f V", o.Volts), fmt.Sprintf("the supply's %.0f V", s.loads.volts))
	}
}

// powerLeastOfLimits: the power told is no more than setting, 80 % of breaker
// and receptacle, and the car itself take.
//
// Source: NEC 625.41; SAE J1772.
func (s *sight) powerLeastOfLimits(o *quote.Option) {
	v := &s.facts.Vehicle
	most := float64(o.Setting)
	if o.Breaker > 0 {
		most = min(most, float64(o.Breaker)/s.Continuous.Factor)
	}
	config := o.OutletWay.Receptacle
	if c := built(o); c != nil {
		config = c.Receptacle.Config
	}
	if f := s.face(config); f != nil {
		most = min(most, f.amps/s.Continuous.Factor)
	}
	if a, ok := v.MaxACAmps.Get(); ok {
		most = min(most, float64(a))
	}
	kw := most * float64(o.Volts) / 1000
	if own, ok := v.OnboardChargerKW.Get(); ok {
		kw = min(kw, float64(own))
	}
	s.holds(float64(o.Rate.Wall) <= kw+hair, fmt.Sprintf("%.3f kW", float64(o.Rate.Wall)), fmt.Sprintf("at most %.3f kW", kw))
	s.holds(o.Rate.Wall > 0, fmt.Sprintf("%.3f kW", float64(o.Rate.Wall)), "more than nothing")
}

// noWireWhereNoneMayGo: no new circuit is shown where leave was refused or the
// car stands in the street.
//
// Source: common practice.
func (s *sight) noWireWhereNoneMayGo(o *quote.Option) {
	if s.shown && o.Way != quote.ExistingOutlet {
		s.holds(!s.route.noWire, o.ID+" where no wire may go", "what is there already")
	}
}
