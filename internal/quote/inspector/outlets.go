package inspector

import (
	"slices"

	"daybreak/internal/circuit/outlet"
	"daybreak/internal/facts"
	"daybreak/internal/quote"
)

// there is the outlet an option is about; nil when it is about none.
func (s *sight) there(o *quote.Option) *facts.Outlet {
	switch {
	case o.Way != quote.ExistingOutlet:
		return nil
	case o.OutletSlot == "other_outlet":
		return &s.facts.OtherOutlet
	}
	return &s.facts.Outlet
}

// keeps reports whether an option goes on using the outlet as it stands.
func keeps(o *quote.Option) bool {
	return o.OutletWay.Kind == outlet.AsItIs || o.OutletWay.Kind == outlet.SetDown
}

// outletWithinLimits: the setting is within 80 % of the face that stays and of
// the breaker then, within the wire where it is known, and within what a shared
// circuit or a light-duty face bears; the breaker never becomes larger, nor
// larger than wire or face allow.
//
// Source: NEC 210.21(B), 210.23(A)(1), 240.4, 625.41.
func (s *sight) outletWithinLimits(o *quote.Option) {
	f := s.there(o)
	if f == nil {
		return
	}
	set, way, k := float64(o.Setting), &o.OutletWay, s.Continuous.Factor
	s.holds(o.Setting == way.Setting && o.Breaker == way.Breaker, amps(o.Setting)+" on the quote", amps(way.Setting)+" of the outlet's verdict")
	face := s.face(way.Receptacle)
	if face != nil {
		s.holds(set <= face.amps/k+hair, amps(set)+" on "+face.config, "at most "+amps(face.amps/k))
		s.holds(float64(way.Breaker) <= s.faceDevice(face)+hair, amps(way.Breaker)+" before "+face.config, "at most "+amps(s.faceDevice(face)))
	}
	if now, ok := f.BreakerAmps.Get(); ok {
		s.holds(way.Breaker <= now, amps(way.Breaker)+" breaker", "never larger than the "+amps(now)+" there")
		s.holds(set <= float64(now)/k+hair, amps(set)+" on "+amps(now), "at most "+amps(float64(now)/k))
	}
	if wire := s.wireOf(f); wire > 0 {
		s.holds(set*k <= wire+hair, amps(set)+" on a wire of "+amps(wire), "at most "+amps(wire/k))
		size, _ := f.WireAWG.Get()
		s.holds(float64(way.Breaker) <= s.mostOver(size.String(), f.WireMaterial, wire), amps(way.Breaker)+" over "+size.String()+" AWG", "at most "+amps(s.mostOver(size.String(), f.WireMaterial, wire)))
	}
	if keeps(o) && o.Volts == 120 && shared(f) {
		s.holds(set <= s.Outlets.Shared, amps(set)+" on a shared circuit", "at most "+amps(s.Outlets.Shared))
	}
	if keeps(o) && face != nil && face.amps == 50 && !f.Grade.Is(facts.OutletGradeIndustrial) && !f.Grade.Is(facts.OutletGradeEvListed) {
		s.holds(set <= s.Outlets.LightDuty, amps(set)+" on a light-duty face", "at most "+amps(s.Outlets.LightDuty))
	}
}

// shared reports whether a 120 V circuit carries, or may carry, other things.
func shared(f *facts.Outlet) bool {
	return !f.SharedWith.Has() || f.SharedWith.Is(facts.SharingGeneralLoaded) || f.SharedWith.Is(facts.SharingGarageLoads)
}

// faceDevice is the largest breaker before a face: its rating, or 20 A for the
// 15 A faces, which are made in pairs.
//
// Source: NEC Table 210.21(B)(3).
func (t *tables) faceDevice(f *face) float64 {
	if f.amps == 15 {
		return 20
	}
	return f.amps
}

// wireOf is what the wire behind an outlet carries at its ends; 0 when nobody
// saw its size and metal: what is only usual is no reading. Cable, or what is not known to be in a raceway, has the
// 60 °C column.
//
// Source: NEC Table 310.16, 334.80.
func (s *sight) wireOf(f *facts.Outlet) float64 {
	size, ok := f.WireAWG.Get()
	metal, known := f.WireMaterial.Get()
	row := s.cu(size.String())
	if !ok || !known || row == nil || f.WireAWG.State() != facts.Told || f.WireMaterial.State() != facts.Told {
		return 0
	}
	raceway := f.WireMethod.Is(facts.WireMethodRaceway) && f.WireMethod.State() == facts.Told
	switch {
	case metal == facts.WireMaterialAl && raceway:
		return row.al75
	case metal == facts.WireMaterialAl:
		return row.al60
	case raceway:
		return row.cu75
	}
	return row.cu60
}

// mostOver is the largest breaker over a wire of this ampacity.
//
// Source: NEC 240.4(B), 240.4(D).
func (s *sight) mostOver(size string, metal facts.Known[facts.WireMaterial], ampacity float64) float64 {
	if metal.Is(facts.WireMaterialAl) {
		return s.nextDevice(ampacity)
	}
	return s.mostDevice(size, ampacity)
}

// outletAlone: an outlet on the circuit of a dryer, a range or another appliance
// is used only with a listed switch that never lets both run.
//
// Source: NEC 625.40, 220.60.
func (s *sight) outletAlone(o *quote.Option) {
	f := s.there(o)
	if f == nil {
		return
	}
	with, _ := f.SharedWith.Get()
	if with == facts.SharingDryer || with == facts.SharingRange || with == facts.SharingAppliance {
		s.holds(hasWork(o, outlet.SharingSwitch), "shared with a "+with.String()+", "+string(o.OutletWay.Kind), "a listed sharing switch, or a new circuit")
	}
}

// outletNoCord: where a cord, strip, timer or adapter is in use, no option goes
// on as it stands; and an outlet that does not reach is moved, not extended.
//
// Source: NEC 400.12, 110.3(B).
func (s *sight) outletNoCord(o *quote.Option) {
	f := s.there(o)
	if f == nil {
		return
	}
	use, _ := f.CurrentUse.Get()
	saw := "as it stands, with " + use.String() + " in use"
	if !f.Condition.Has() {
		saw += " and nobody having looked at it"
	}
	s.holds(!keeps(o) || !slices.Contains(s.Outlets.Cords, use.String()), saw, "put right, wired in, or a new circuit")
}

// outletStopped: an outlet with signs of heat, water or damage is used only
// after work; one without a sound ground, or that serves something else, is not
// used at all; a face without equipment ground is replaced.
//
// Source: NEC 110.12(B), 250.114, 406.4(D), 625.44.
func (s *sight) outletStopped(o *quote.Option) {
	f := s.there(o)
	if f == nil {
		return
	}
	worked := !keeps(o) && len(o.OutletWay.Work) > 0
	for _, c := range conditionsOf(f) {
		stops := slices.Contains(s.Outlets.Stops, c) || slices.Contains(s.Outlets.Loose, c)
		s.holds(!stops || worked, c+", "+string(o.OutletWay.Kind), "work before it is used")
		s.holds(!slices.Contains(s.Outlets.Ends, c), c+", "+string(o.OutletWay.Kind), "no use of this outlet")
	}
	if o.Outlet != nil && o.Outlet.Word == outlet.Stop && !s.cordOnly(f) {
		s.holds(len(o.OutletWay.Work) > 0, "stopped, and nothing to do", "work before it is used")
	}
	config, _ := f.Configuration.Get()
	now, then := s.face(config.String()), s.face(o.OutletWay.Receptacle)
	if now != nil {
		s.holds(now.ground && !now.locking || !keeps(o), config.String()+" as it stands", "a nonlocking face with an equipment ground")
		s.holds(config != facts.ConfigurationTTx30 && config != facts.Configuration1x15 && config != facts.ConfigurationL14x30, config.String()+" used", "no use of this outlet")
	}
	s.holds(then == nil || then.ground && !then.locking, o.OutletWay.Receptacle+" then", "a nonlocking face with an equipment ground")
	if now != nil && !now.ground {
		s.holds(hasWork(o, outlet.GroundConductor), "no equipment ground, and none brought", "an equipment ground")
	}
}

// cordOnly reports whether a cord or adapter may be the only thing that stops
// an outlet: leaving it away is no work.
func (s *sight) cordOnly(f *facts.Outlet) bool {
	use, _ := f.CurrentUse.Get()
	return slices.Contains(s.Outlets.Cords, use.String())
}

func hasWork(o *quote.Option, k outlet.WorkKind) bool {
	return slices.ContainsFunc(o.OutletWay.Work, func(w outlet.Work) bool { return w.Kind == k })
}

// conditionsOf lists what was seen at an outlet.
func conditionsOf(f *facts.Outlet) []string {
	set, _ := f.Condition.Get()
	return wordsIn(set.String())
}
