package panel

import "daybreak/internal/unit"

// BusRule is a rule by which a bus may carry a main and a source.
type BusRule uint8

// The rules. Unknown means nobody knows by which one the source was accepted.
const (
	BusRuleUnknown  BusRule = iota
	BySum100                // 125 % of the source and the main within the bus
	BySum120                // within 120 % of the bus, the source at the far end
	BySumOfBreakers         // all breakers but the main within the bus
)

// BusSum is a sum against its limit.
type BusSum struct {
	Sum, Limit unit.Amps
	Holds      bool
}

// SourceSum checks a source by one of the two rules on its output. Loads, and
// so a charger's breaker, are not in the sum.
//
// Source: NEC 705.12(B), its sum rules.
func (r *Rules) SourceSum(rule BusRule, bus, main, output unit.Amps) BusSum {
	s := BusSum{Sum: output*unit.Amps(r.bus.source) + main, Limit: bus}
	if rule == BySum120 {
		s.Limit = bus * unit.Amps(r.bus.farEnd)
	}
	s.Holds = s.Sum <= s.Limit+slack
	return s
}

// BreakerSum checks a bus by the ratings of all its breakers, load and source,
// without the one that protects it.
//
// Source: NEC 705.12(B), sum of all overcurrent devices.
func (r *Rules) BreakerSum(bus unit.Amps, breakers []unit.Amps) BusSum {
	s := BusSum{Limit: bus}
	for _, a := range breakers {
		s.Sum += a
	}
	s.Holds = s.Sum <= s.Limit+slack
	return s
}

// BusVerdict says whether the source on the bus allows the job.
type BusVerdict uint8

const (
	// BusNoSource: there is nothing to check.
	BusNoSource BusVerdict = iota
	// BusUnaffected: the source is within its rule, and a load breaker is not in it.
	BusUnaffected
	// BusRecounted: the sum of breakers holds with the charger's breaker in it.
	BusRecounted
	// BusBroken: the sum of breakers fails once the charger's breaker is in it.
	BusBroken
	// BusToBeSeen: by what is known no rule holds; the label and the breakers must be read.
	BusToBeSeen
)

// BusCheck is the check of a source on the bus. It is apart from the load
// calculation: it takes no capacity and gives none.
type BusCheck struct {
	Verdict BusVerdict
	Rule    BusRule // the rule that holds, or that was recounted
	Sum     unit.Amps
	Limit   unit.Amps
}

// checkBus recounts a panel that stands by the sum of its breakers; else it
// looks for the rule on the output that holds.
func (in *Input) checkBus() BusCheck {
	s, r := &in.Source, in.Rules
	if s.Kind == NoSource {
		return BusCheck{}
	}
	if s.Accepted == BySumOfBreakers && s.LoadBreakers > 0 {
		sum := s.LoadBreakers + in.newBreakers()
		if sum <= in.Supply.Bus+slack {
			return BusCheck{BusRecounted, BySumOfBreakers, sum, in.Supply.Bus}
		}
		return BusCheck{BusBroken, BySumOfBreakers, sum, in.Supply.Bus}
	}
	rule := BySum100
	got := r.SourceSum(BySum100, in.Supply.Bus, in.Supply.Main, s.Output)
	if !got.Holds && s.Place == FarEnd {
		rule, got = BySum120, r.SourceSum(BySum120, in.Supply.Bus, in.Supply.Main, s.Output)
	}
	if got.Holds && s.Accepted != BySumOfBreakers {
		return BusCheck{BusUnaffected, rule, got.Sum, got.Limit}
	}
	return BusCheck{BusToBeSeen, rule, got.Sum, got.Limit}
}

// newBreakers is the sum of the breakers the job adds.
func (in *Input) newBreakers() (sum unit.Amps) {
	for i := range in.Chargers {
		c := &in.Chargers[i]
		if c.Circuit != NewCircuit {
			continue
		}
		setting := c.Setting
		if c.Plate == PlateUnknown {
			setting = va(in.Rules.charger.unknownVA).At(c.Volts)
		}
		d, ok := in.Rules.NextDevice(setting * unit.Amps(in.Rules.continuous.factor))
		if ok {
			sum += d
		}
	}
	return sum
}
