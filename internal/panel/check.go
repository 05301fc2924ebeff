package panel

import (
	"errors"
	"strconv"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// maxLoads is how many entries a list of loads may have.
const maxLoads = 64

// checker collects what is wrong with an input. Field names are built only
// for what is refused.
type checker struct{ faults []error }

func (c *checker) refuse(field string, got any, accepted string) {
	c.faults = append(c.faults, fault.Invalid(field, got, accepted))
}

// within accepts numbers from low to high; NaN and infinities are outside.
func within[T ~float64 | ~int](c *checker, field string, x, low, high T, accepted string) {
	if !(x >= low && x <= high) {
		c.refuse(field, x, accepted)
	}
}

// member accepts the words of a closed list: 0 to last.
func member[T ~uint8](c *checker, field string, x, last T) {
	if x > last {
		c.refuse(field, int(x), "a value of its list, 0 to "+strconv.Itoa(int(last)))
	}
}

// check refuses, by name, whatever the methods asked for cannot work with.
func (in *Input) check(methods methodSet) error {
	if in.Rules == nil {
		return fault.Invalid("rules", "nothing", "the rules of an edition")
	}
	c := &checker{}
	in.checkWords(c)
	if in.Volts != 240 && in.Volts != 208 {
		c.refuse("volts", float64(in.Volts), "240 or 208")
	}
	if methods&^(1<<MeasuredDemand) != 0 {
		in.checkDwelling(c)
	}
	in.checkHeat(c)
	if len(in.Loads) > maxLoads {
		c.refuse("loads", len(in.Loads), "at most 64 entries")
	} else {
		in.checkLoads(c)
	}
	in.checkSupply(c)
	in.checkChargers(c)
	if in.Measured.Record != NoRecord {
		in.checkMeasured(c)
	}
	return errors.Join(c.faults...)
}

func (in *Input) checkWords(c *checker) {
	member(c, "dwelling", in.Dwelling, OtherDwelling)
	member(c, "stage", in.Stage, NewDwelling)
	member(c, "carries", in.Carries, HousePanel)
	member(c, "change", in.Change, HeatingOrCoolingAdded)
	member(c, "protection", in.Protection, BreakersAndFuses)
	member(c, "heat.kind", in.Heat.Kind, Storage)
	member(c, "heat.interlock", in.Heat.Interlock, NeverWithStrips)
	member(c, "management.kind", in.Management.Kind, MeasuredService)
	member(c, "measured.record", in.Measured.Record, ThirtyDays)
	member(c, "measured.generation", in.Measured.Generation, NetOfGeneration)
	member(c, "measured.added", in.Measured.Added, LoadAdded)
	member(c, "source.kind", in.Source.Kind, SolarAndBattery)
	member(c, "source.place", in.Source.Place, ElsewhereOnBus)
	member(c, "source.accepted", in.Source.Accepted, BySumOfBreakers)
	member(c, "spaces.seen", in.Spaces.Seen, Counted)
	member(c, "spaces.tandem", in.Spaces.Tandem, TandemBarred)
}

func (in *Input) checkDwelling(c *checker) {
	leastArea, leastCirc := unit.SquareFeet(100), int(in.Rules.small.least)
	if in.Carries != WholeDwelling {
		leastArea, leastCirc = 0, 0
	}
	within(c, "floor_area", in.FloorArea, leastArea, 30_000, "100 to 30 000 ft²; 0 only for a panel that does not carry a whole dwelling")
	within(c, "small_appliance_circuits", in.SmallCirc, leastCirc, 20, "2 to 20; fewer only for a panel that does not carry a whole dwelling")
	within(c, "laundry_circuits", in.LaundryCir, 0, 10, "0 to 10")
}

func (in *Input) checkHeat(c *checker) {
	within(c, "heat.va", in.Heat.VA, 0, 200_000, "0 to 200 000 VA")
	within(c, "heat.compressor", in.Heat.Compressor, 0, 100_000, "0 to 100 000 VA")
	within(c, "heat.units", in.Heat.Units, 0, 100, "0 to 100 separately controlled units")
	within(c, "cooling", in.Cooling, 0, 200_000, "0 to 200 000 VA")
}

func (in *Input) checkLoads(c *checker) {
	for i := range in.Loads {
		l := &in.Loads[i]
		if l.Kind < loadKinds && l.VA >= 0 && l.VA <= 60_000 && l.Count >= 1 && l.Count <= 20 {
			continue
		}
		at := "loads[" + strconv.Itoa(i) + "]"
		member(c, at+".kind", l.Kind, loadKinds-1)
		within(c, at+".va", l.VA, 0, 60_000, "0 to 60 000 VA each")
		within(c, at+".count", l.Count, 1, 20, "1 to 20")
	}
}

func (in *Input) checkSupply(c *checker) {
	const accepted = "15 to 1200 A"
	s := &in.Supply
	within(c, "supply.service", s.Service, 15, 1200, accepted)
	within(c, "supply.main", s.Main, 15, 1200, accepted)
	within(c, "supply.bus", s.Bus, 15, 1200, accepted)
	within(c, "supply.conductors", s.Conductors, 15, 1200, accepted)
	within(c, "supply.meter", s.Meter, 15, 1200, accepted)
	within(c, "source.output", in.Source.Output, 0, 1000, "0 to 1000 A")
	within(c, "source.load_breakers", in.Source.LoadBreakers, 0, 10_000, "0 to 10 000 A")
	within(c, "spaces.free", in.Spaces.Free, 0, 84, "0 to 84")
	within(c, "management.setpoint", in.Management.Setpoint, 0, 1200, "0 to 1200 A")
	within(c, "management.fail_safe", in.Management.FailSafe, 0, 80, "0 to 80 A")
}

func (in *Input) checkChargers(c *checker) {
	if len(in.Chargers) > 4 {
		c.refuse("chargers", len(in.Chargers), "at most 4; share a limit beyond that")
		return
	}
	for i := range in.Chargers {
		x := &in.Chargers[i]
		if x.Plate == PlateKnown && x.Circuit <= ExistingCircuit && x.Setting >= 1 && x.Setting <= 80 &&
			(x.Volts == in.Volts || x.Volts == 120) {
			continue
		}
		at := "chargers[" + strconv.Itoa(i) + "]"
		member(c, at+".plate", x.Plate, PlateUnknown)
		member(c, at+".circuit", x.Circuit, ExistingCircuit)
		if x.Volts != in.Volts && x.Volts != 120 {
			c.refuse(at+".volts", float64(x.Volts), "120, or the volts of the supply")
		}
		if x.Plate == PlateKnown {
			within(c, at+".setting", x.Setting, 1, 80, "1 to 80 A")
		} else if _, err := in.Rules.ChargerLoad(*x); err != nil {
			c.faults = append(c.faults, err)
		}
	}
}

func (in *Input) checkMeasured(c *checker) {
	m := &in.Measured
	within(c, "measured.peak", m.Peak, 0.1, 200, "0.1 to 200 kW")
	if m.IntervalMin != 15 && m.IntervalMin != 30 && m.IntervalMin != 60 {
		c.refuse("measured.interval", m.IntervalMin, "15, 30 or 60 minutes")
	}
}
