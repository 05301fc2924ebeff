package quote

import (
	"daybreak/internal/circuit/outlet"
	"daybreak/internal/facts"
	"daybreak/internal/unit"
)

// slots are the two outlets a household may tell of.
var slots = []struct {
	name string
	at   func(*facts.Facts) *facts.Outlet
}{
	{"outlet", func(f *facts.Facts) *facts.Outlet { return &f.Outlet }},
	{"other_outlet", func(f *facts.Facts) *facts.Outlet { return &f.OtherOutlet }},
}

// judged is one outlet with its verdict.
type judged struct {
	slot    string
	about   *facts.Outlet
	config  string
	volts   unit.Volts
	verdict outlet.Verdict
}

// judge lays the rules beside each outlet that is there and whose face is known.
func (w *weighing) judge() ([]judged, error) {
	var out []judged
	for _, s := range slots {
		o := s.at(w.facts)
		present, _ := o.Present.Get()
		config, known := o.Configuration.Get()
		if present == facts.OutletPresentNone || !known {
			continue
		}
		j := judged{slot: s.name, about: o, config: config.String(), volts: 120}
		// A large face gives what the supply gives, whatever was read on it.
		if faceLevel(j.config) == 2 {
			j.volts = w.supply
		}
		var err error
		if j.verdict, err = outlet.Judge(w.describe(o), w.full); err != nil {
			return nil, err
		}
		out = append(out, j)
	}
	return out, nil
}

// judgeOne judges an outlet again, for its working.
func (w *weighing) judgeOne(i int) (judged, error) {
	j := w.outlets[i]
	var err error
	j.verdict, err = outlet.Judge(w.describe(j.about), w.full)
	return j, err
}

// describe puts an outlet in the words of the rules; what nobody knows is the
// word unknown.
func (h *home) describe(o *facts.Outlet) outlet.Existing {
	config, _ := o.Configuration.Get()
	e := outlet.Existing{
		Book:       h.ed,
		Year:       h.year,
		Receptacle: config.String(),
		Conductor: outlet.Conductor{
			Size:     word(seen(o.WireAWG)),
			Material: word(seen(o.WireMaterial)),
			Method:   word(o.WireMethod),
		},
		Sharing:    word(o.SharedWith),
		Grade:      word(o.Grade),
		Location:   h.outletLocation(o),
		InUseCover: yesNo(o.InUseCover),
		GFCI:       yesNo(o.GFCI),
		Adapter:    outlet.No,
		Supply:     h.supply,
		Chargers:   1,
		Equipment:  outlet.Equipment{Setting: outlet.Unknown, Kind: outlet.Unknown},
	}
	if faceLevel(e.Receptacle) == 1 {
		e.Supply = 120
	}
	if a, ok := o.BreakerAmps.Get(); ok {
		e.Breaker = outlet.Read(a)
	}
	h.describeCondition(o, &e)
	if reach, ok := o.ReachFeet.Get(); ok {
		e.ReachShort = outlet.Read(max(reach-h.cableFeet(), 0))
	}
	h.describeEquipment(&e)
	return e
}

func (h *home) describeCondition(o *facts.Outlet, e *outlet.Existing) {
	words := h.conditionWords(o)
	looked := len(words)
	if seen(o.WireMaterial).Is(facts.WireMaterialAl) {
		words = append(words, "aluminium")
	}
	switch use, _ := o.CurrentUse.Get(); use {
	case facts.CurrentUseExtension:
		words = append(words, "extension_cord")
	case facts.CurrentUseStrip:
		words = append(words, "power_strip")
	case facts.CurrentUseTimer:
		words = append(words, "timer_plug")
	case facts.CurrentUseAdapter:
		e.Adapter = outlet.Yes
	}
	if !o.Condition.Has() && len(words) == looked {
		return // nobody has looked, and nothing was seen in use
	}
	if set, err := outlet.Conditions(words...); err == nil {
		e.Condition = outlet.Read(set)
	}
}

// conditionWords lists what is wrong with an outlet, as the leaf spells it.
func (h *home) conditionWords(o *facts.Outlet) []string {
	path := "outlet.condition"
	if o == &h.facts.OtherOutlet {
		path = "other_outlet.condition"
	}
	leaf, _ := facts.LeafAt(path)
	words, _ := leaf.At(h.facts).Value().([]string)
	return words
}

func (h *home) describeEquipment(e *outlet.Existing) {
	if faceLevel(e.Receptacle) == 1 {
		e.Equipment = outlet.Equipment{Max: outlet.Read(unit.Amps(levelOneCord)), Setting: "open", Kind: "portable"}
		return
	}
	if !h.owned || h.ownedAmps == 0 {
		return
	}
	e.Equipment = outlet.Equipment{Max: outlet.Read(h.ownedAmps), Setting: "open", Kind: "portable"}
	if h.ownedMeans == facts.SettingMeansRestricted {
		e.Equipment.Setting = "locked"
	}
}

// levelOneCord is the rating of the usual 120 V cord set, in amperes.
//
// Source: common practice; 12 A is 80 % of a 15 A circuit.
const levelOneCord = 12

// longestCable is the longest cable charging equipment comes with, in feet.
//
// Source: NEC 625.17(C).
const longestCable = unit.Feet(25)

func (h *home) cableFeet() unit.Feet {
	if feet, ok := h.facts.Equipment.CableFeet.Get(); ok && h.owned {
		return feet
	}
	return longestCable
}

func (h *home) outletLocation(o *facts.Outlet) string {
	if l, ok := o.Location.Get(); ok {
		return l.String()
	}
	switch p, _ := h.facts.Place.Parking.Get(); p {
	case facts.ParkingAttached, facts.ParkingDetached:
		return "garage"
	case facts.ParkingDriveway, facts.ParkingCarport, facts.ParkingStreet:
		return "outdoor"
	}
	return outlet.Unknown
}

// seen is a leaf somebody has seen or a table holds: the wire inside a wall is
// never taken for what is usual, since the rules say what to do without it.
func seen[T comparable](k facts.Known[T]) facts.Known[T] {
	if b := k.Basis(); k.State() == facts.Derived && (b == facts.FromClassPrior || b == facts.FromDraw) {
		return facts.DontKnow[T]()
	}
	return k
}

// word is a leaf's word, or unknown.
func word[T interface {
	comparable
	String() string
}](k facts.Known[T]) string {
	if v, ok := k.Get(); ok {
		return v.String()
	}
	return outlet.Unknown
}

func yesNo(k facts.Known[bool]) string {
	v, ok := k.Get()
	switch {
	case !ok:
		return outlet.Unknown
	case v:
		return outlet.Yes
	}
	return outlet.No
}
