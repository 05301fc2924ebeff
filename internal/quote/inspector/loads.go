package inspector

import (
	"math"

	"daybreak/internal/facts"
)

// loads are the loads of a house at their plates, read off the facts.
type loads struct {
	volts            float64
	service          float64
	capacity         float64 // least of the ratings
	connected        float64 // lighting, circuits and appliances, chargers and heat apart
	appliances       float64
	ranges           float64
	area             float64
	motor            float64
	oldFull, oldCont float64 // chargers that stand already
	heat             heat
	cool             float64
	mobile           bool
	source           bool
	peak             float64 // VA by a record that may be used; 0 without one
}

// heat is electric heat at its plates.
type heat struct {
	compressor, resistance float64
	units                  int
	strips                 bool
}

func (h *heat) all() float64 { return h.compressor + h.resistance }

// appliance kinds by their place in the facts' list.
const (
	rangeKind    = "range"
	existingKind = "evse_existing"
)

// motorKind reports the appliances that are motors.
//
// Source: NEC 430, by the kind of appliance.
func motorKind(kind string) bool {
	switch kind {
	case "disposer", "furnace_fan", "well_pump", "sump_pump", "pool_pump":
		return true
	}
	return false
}

// readLoads reads the load sheet's givens off the house.
func (s *sight) readLoads() {
	p, l := &s.facts.Panel, &s.loads
	volts, _ := p.SupplyVolts.Get()
	l.volts = float64(volts)
	l.mobile = s.facts.Place.DwellingKind.Is(facts.DwellingKindMobile)
	l.source = p.BackfeedKind.Has() && !p.BackfeedKind.Is(facts.BackfeedKindNone)
	service, _ := p.ServiceAmps.Get()
	main, _ := p.MainBreakerAmps.Get()
	bus, _ := p.BusAmps.Get()
	wires, _ := p.ServiceConductorAmps.Get()
	meter, _ := p.MeterLimitAmps.Get()
	l.service = float64(service)
	l.capacity = float64(min(service, main, bus, wires, meter))
	area, _ := s.facts.Place.FloorAreaSqFt.Get()
	l.area = float64(area)
	small, laundry := 2, 1
	if n, ok := p.SmallApplianceCircuits.Get(); ok {
		small = n
	}
	if n, ok := p.LaundryCircuits.Get(); ok {
		laundry = n
	}
	s.readAppliances()
	l.connected = l.area*s.Lighting.PerSqFt.in(s.year) + float64(small)*s.Lighting.SmallAppliance +
		float64(laundry)*s.Lighting.Laundry + l.appliances
	s.readHeat()
	s.readPeak()
}

// readAppliances adds the electric appliances up, each at its plate.
func (s *sight) readAppliances() {
	l := &s.loads
	for i, kind := range facts.LoadKinds() {
		slot := s.facts.Panel.Loads.Of(i)
		if !slot.Fuel.Is(facts.FuelElectric) {
			continue
		}
		watts, _ := slot.Watts.Get()
		count, ok := slot.Count.Get()
		if !ok {
			count = 1
		}
		all := float64(watts) * float64(count)
		if kind == existingKind {
			full, cont := s.chargerVA(float64(watts))
			if all > 0 {
				l.oldFull, l.oldCont = l.oldFull+full*float64(count), l.oldCont+cont*float64(count)
			}
			continue
		}
		l.appliances += all
		if kind == rangeKind {
			l.ranges += all
		}
		if motorKind(kind) && all > 0 {
			l.motor = max(l.motor, float64(watts))
		}
	}
}

// readHeat reads heating and cooling. A heat pump's own compressor cools.
func (s *sight) readHeat() {
	p, l := &s.facts.Panel, &s.loads
	resistance, _ := p.HeatWatts.Get()
	compressor, _ := p.HeatPumpWatts.Get()
	cool, _ := p.CoolWatts.Get()
	kind, _ := p.HeatKind.Get()
	switch kind {
	case facts.HeatKindHeatPump, facts.HeatKindDuctless:
		l.heat.compressor = float64(compressor)
	case facts.HeatKindHpStrips:
		l.heat = heat{compressor: float64(compressor), resistance: float64(resistance), strips: true}
	case facts.HeatKindFurnace:
		l.heat = heat{resistance: float64(resistance), units: 1}
	case facts.HeatKindBaseboard:
		units, _ := p.HeatUnits.Get()
		l.heat = heat{resistance: float64(resistance), units: units}
	}
	ducted := kind == facts.HeatKindHeatPump || kind == facts.HeatKindHpStrips
	if ducted || !p.CoolKind.Is(facts.CoolKindNone) {
		l.cool = float64(cool)
	}
}

// readPeak reads a year's peak, brought to fifteen minutes and VA. Nothing added
// since and no source beside it, or it serves for nothing; less than a year also
// gets the larger of heat and cooling, since its season may not have shown it.
//
// Source: NEC 220.87.
func (s *sight) readPeak() {
	p, l := &s.facts.Panel, &s.loads
	peak, ok := p.MeasuredPeakKW.Get()
	if !ok || l.source || p.LoadAddedSince.Is(true) {
		return
	}
	minutes, ok := p.MeasuredIntervalMinutes.Get()
	if !ok {
		minutes = 60
	}
	factor := 1.0
	for _, row := range s.Measured.Intervals {
		if float64(minutes) >= row[0] {
			factor = row[1]
		}
	}
	l.peak = s.Measured.Factor * 1000 * float64(peak) * factor / s.Measured.PowerFactor
	if months, ok := p.MeasuredMonths.Get(); ok && months < 12 {
		l.peak += max(l.heat.all(), l.cool)
	}
}

// chargerVA is what a charger of so many VA counts for: in full, never below the
// edition's least; and as a continuous load, the least not taken at 125 %.
//
// Source: NEC 220.57 (2023), 120.57 (2026), 625.42, 230.42(A).
func (s *sight) chargerVA(plate float64) (full, continuous float64) {
	full = max(plate, s.Charger.Least.in(s.year))
	return full, max(full, s.Continuous.Factor*plate)
}

// bracket takes the first part of a load in full and the rest at a share.
func bracket(load, first, rest float64) float64 {
	if load <= first {
		return load
	}
	return first + (load-first)*rest
}

// readings are one method's totals in amperes, by the three readings, and the
// load before the charger.
type readings struct {
	continuous, full, literal float64
	base                      float64
	noLiteral                 bool
}

// total makes the readings of a method from its load without new chargers (at
// 100 and 125 % of those there) and with them in the bracket.
func (s *sight) total(alone, inside, charger float64, literal bool) readings {
	full, cont := s.chargerVA(charger)
	l := &s.loads
	r := readings{
		continuous: (alone + l.oldCont + cont) / l.volts, full: (alone + l.oldFull + full) / l.volts,
		base: (alone + l.oldCont) / l.volts, noLiteral: !literal || !s.Charger.Bracket.in(s.year),
	}
	if !r.noLiteral {
		r.literal = inside / l.volts
	}
	return r
}

// byExisting is 220.83: heat or cooling in full outside the bracket; four or
// more room heaters inside it. With cooling beside them the larger sheet stands.
//
// Source: NEC 220.83(A), (B).
func (s *sight) byExisting(charger float64) readings {
	l, e := &s.loads, &s.Existing
	full, _ := s.chargerVA(charger)
	ev := l.oldFull + full
	net := func(x float64) float64 { return bracket(x, e.First, e.Rest) }
	if l.heat.compressor == 0 && l.heat.units >= e.ManyUnits {
		rooms := l.connected + l.heat.resistance
		return s.total(max(net(rooms), net(l.connected)+l.cool), max(net(rooms+ev), net(l.connected+ev)+l.cool), charger, true)
	}
	hvac := max(l.heat.all(), l.cool)
	return s.total(net(l.connected)+hvac, net(l.connected+ev)+hvac, charger, true)
}

// byOptional is 220.82: the largest of the heating and cooling choices outside
// the bracket.
//
// Source: NEC 220.82(B), (C).
func (s *sight) byOptional(charger float64) readings {
	l, o := &s.loads, &s.Optional
	full, _ := s.chargerVA(charger)
	hot := l.heat.compressor
	switch {
	case l.heat.strips:
		hot += o.Strips * l.heat.resistance
	case l.heat.units >= o.ManyUnits:
		hot += o.Many * l.heat.resistance
	default:
		hot += o.Few * l.heat.resistance
	}
	hvac := max(hot, l.cool)
	net := func(x float64) float64 { return bracket(x, o.First.in(s.year), o.Rest) }
	return s.total(net(l.connected)+hvac, net(l.connected+l.oldFull+full)+hvac, charger, true)
}

// byMeasured is 220.87: the record and the new charger; chargers that stand
// already are in the record.
//
// Source: NEC 220.87.
func (s *sight) byMeasured(charger float64) readings {
	full, cont := s.chargerVA(charger)
	l := &s.loads
	return readings{continuous: (l.peak + cont) / l.volts, full: (l.peak + full) / l.volts, base: l.peak / l.volts, noLiteral: true}
}

// byMobile is 550.18: lighting, two small-appliance circuits and laundry through
// the bracket, the range by its table, all else at its plate and 25 % of the
// largest motor.
//
// Source: NEC 550.18.
func (s *sight) byMobile(charger float64) readings {
	l, m := &s.loads, &s.Mobile
	light := bracket(l.area*m.PerSqFt+m.SmallAppliance+m.Laundry, m.First, m.Rest)
	motor := max(l.motor, l.heat.compressor)
	if l.cool >= l.heat.all() {
		motor = max(motor, l.cool)
	}
	alone := light + s.mobileRange(l.ranges) + l.appliances - l.ranges + max(l.heat.all(), l.cool) + m.Motor*motor
	return s.total(alone, 0, charger, false)
}

func (s *sight) mobileRange(va float64) float64 {
	m := &s.Mobile
	if va <= m.RangeShare[0] {
		return va * m.RangeShare[1]
	}
	for _, row := range m.RangeRows {
		if va <= row[0] {
			return row[1]
		}
	}
	return va
}

// finite reports whether a figure is one.
func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
