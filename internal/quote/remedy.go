package quote

import (
	"daybreak/internal/facts"
	"daybreak/internal/panel"
	"daybreak/internal/pricing"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// remedies adds, for the largest new circuit wished for that the panel does not
// carry, the ways that would make it fit: a listed switch on an appliance's
// circuit, a load gone, a larger service. Each is a whole option and stands
// among the other ways: it asks the household for more than a charger, so it
// is never taken for enough or best. A draw needs none of them.
func (w *weighing) remedies() error {
	if !w.sheet.Keeping() || !w.mayWire {
		return nil
	}
	i := w.wantedMost()
	if i < 0 || w.options[i].Panel.Verdict == panel.Fits {
		return nil
	}
	for _, m := range w.options[i].Panel.Measures {
		o, ok, err := w.remedy(w.options[i], m)
		if err != nil {
			return err
		}
		if ok {
			w.options = append(w.options, o)
		}
	}
	return nil
}

// wantedMost is the largest new circuit in reach that can be built; −1 for none.
func (w *weighing) wantedMost() int {
	most := -1
	for i := range w.options {
		o := &w.options[i]
		if !o.newLevel2() || o.Managed || !o.buildable() || o.Setting > w.reach() {
			continue
		}
		if most < 0 || o.Setting > w.options[most].Setting {
			most = i
		}
	}
	return most
}

// remedy is one measure as a whole option; false where it is weighed elsewhere.
func (w *weighing) remedy(o Option, m panel.Measure) (Option, bool, error) {
	o.Verify, o.Unpriced, o.Apart, o.Subpanel, o.Tandems = nil, nil, nil, 0, 0
	o.Taken = &m
	switch m.Kind {
	case panel.SharingSwitch:
		if !w.nearAppliances() || w.sharesAlready(m.Load) {
			return o, false, nil
		}
		o, err := w.shared(o, m)
		return o, err == nil, err
	case panel.RemoveLoad:
		o.ID += "-without-" + m.Load.String()
		return o, true, w.priceCircuit(&o)
	case panel.UpgradeService:
		if w.facts.Place.DwellingKind.Is(facts.DwellingKindFlat) {
			return o, false, nil // the supply is the building's
		}
		o.ID += "-service-" + unit.Print(m.Service, 0)
		if err := w.priceCircuit(&o); err != nil {
			return o, false, err
		}
		o.Apart = nil // a new service brings its own panel
		r := pricing.FromMeasure(&m, w.house(&o))
		return o, true, w.beside(&o, "quote.apart.service", &r)
	}
	return o, false, nil
}

// nearAppliances reports whether a car is charged close enough to the house's
// large appliances to share their circuit: in an attached garage.
//
// Source: common practice.
func (w *weighing) nearAppliances() bool {
	return w.facts.Place.Parking.Is(facts.ParkingAttached) && !w.digs()
}

// sharesAlready reports whether an outlet on that appliance's circuit is
// weighed with a switch as it is.
func (w *weighing) sharesAlready(load panel.LoadKind) bool {
	for i := range w.outlets {
		shared, _ := w.outlets[i].about.SharedWith.Get()
		if shared.String() == load.String() {
			return true
		}
	}
	return false
}

// shared puts the charger on an appliance's circuit behind a listed switch, the
// appliance first. Where the appliance stands is not known, so that its circuit
// is priced once it was seen.
//
// Source: NEC 220.60, 625.40, 625.42.
func (w *weighing) shared(base Option, m panel.Measure) (Option, error) {
	o := Option{
		ID: "share-" + m.Load.String() + "-" + unit.Print(m.Setting, 0), Way: NewReceptacle,
		Setting: m.Setting, Volts: base.Volts, Breaker: sharedBreaker(m.Load), Possible: w.mayWire, Taken: base.Taken,
	}
	if err := w.hours(&o, 0); err != nil {
		return o, err
	}
	house := w.house(&o)
	house.Equipment = w.equipment(&o, plugFor(NewReceptacle, m.Setting))
	r := pricing.FromMeasure(&m, house)
	w.gaps(&o, &r)
	return o, w.price(&o, r.Work)
}

// sharedBreaker is the breaker of a usual circuit of the appliance.
//
// Source: NEC 422.11, 210.19(A)(3); common practice.
func sharedBreaker(load panel.LoadKind) unit.Amps {
	if load == panel.Range {
		return 50
	}
	return 30
}

// joined adds the work of a measure that is done on the circuit's own visit.
func (w *weighing) joined(o *Option, work pricing.Work) pricing.Work {
	if o.Taken == nil || o.Taken.Kind != panel.RemoveLoad {
		return work
	}
	r := pricing.FromMeasure(o.Taken, w.house(o))
	w.gaps(o, &r)
	return work.With(r.Work)
}

// remedyAgain lays a measure out in full.
func (w *weighing) remedyAgain(o *Option) (Option, error) {
	if o.Taken.Kind == panel.SharingSwitch {
		return w.shared(*o, *o.Taken)
	}
	wired, err := w.wired(o.Way, o.Setting, o.Volts)
	if err != nil {
		return *o, err
	}
	w.full.Steps = branched(w.full).Steps // its bill is made anew below
	full, _, err := w.remedy(wired, *o.Taken)
	return full, err
}

// whyTaken says what a measure asks of the household.
func whyTaken(o *Option, wished unit.Amps) Sentence {
	m := o.Taken
	load := working.Word("load", m.Load.String())
	total := working.Num("total", m.Total, "A")
	switch m.Kind {
	case panel.SharingSwitch:
		return Said("quote.not.takes_sharing", load)
	case panel.RemoveLoad:
		return Said("quote.not.takes_removal", load, total, working.Num("capacity", o.Panel.Capacity.Amps, "A"))
	}
	if wished >= o.Setting {
		return Said("quote.not.takes_service_wished", working.Num("service", m.Service, AmpsEach), total)
	}
	return Said("quote.not.takes_service", working.Num("service", m.Service, AmpsEach), total)
}
