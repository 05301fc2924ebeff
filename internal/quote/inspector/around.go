package inspector

import (
	"fmt"

	"daybreak/internal/circuit"
	"daybreak/internal/facts"
	"daybreak/internal/quote"
)

// oneSupply: a detached building that has a supply gets no second circuit
// beside it; the old one is taken out, and one feeder to a panel there put in.
//
// Source: NEC 225.30.
func (s *sight) oneSupply(o *quote.Option) {
	feed, ok := s.facts.Place.DetachedFeed.Get()
	if built(o) != nil && s.facts.Place.Parking.Is(facts.ParkingDetached) && ok && feed != facts.DetachedFeedNone {
		s.holds(o.Feeder != nil && o.Feeder.Panel.Removed == 1, "a second circuit to a building with a "+feed.String()+" feed", "one supply")
	}
}

// detachedDisconnect: a circuit that reaches a detached building has a
// disconnect there, on the drawing and among the material.
//
// Source: NEC 225.31, 225.32.
func (s *sight) detachedDisconnect(o *quote.Option) {
	c := built(o)
	if c == nil || !s.facts.Place.Parking.Is(facts.ParkingDetached) {
		return
	}
	if o.Feeder != nil {
		s.holds(o.Feeder.Panel.Main, "no main device in the building's panel", "a disconnect")
		return
	}
	s.holds(c.StructureDisconnect, "no disconnect at the building", "a disconnect")
	for i := range c.Takeoff.Needs {
		if c.Takeoff.Needs[i].Item == circuit.DisconnectItem {
			return
		}
	}
	s.breaks("no disconnect among the material", "a disconnect")
}

// individualCircuit: the circuit serves nothing else where the edition asks for
// that.
//
// Source: NEC 625.40.
func (s *sight) individualCircuit(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	need := float64(c.Load) > s.Individual.Amps.in(s.year) || float64(o.Volts) > s.Individual.Volts.in(s.year)
	s.holds(c.Individual || !need, amps(c.Load)+" on a circuit with other outlets", "a circuit of its own")
}

// couplerHeight: the connector is stored high enough above the floor or ground.
//
// Source: NEC 625.50.
func (s *sight) couplerHeight(o *quote.Option) {
	c := built(o)
	if c == nil {
		return
	}
	least := s.Coupler.Indoor
	if s.route.place == outdoor {
		least = s.Coupler.Outdoor
	}
	s.holds(float64(c.Coupler) >= least, fmt.Sprintf("%.0f in", float64(c.Coupler)), fmt.Sprintf("at least %.0f in %s", least, s.route.place))
}

// weather: a receptacle outdoors is weather-resistant by its rating and stays
// covered with the plug in; small ones are tamper-resistant anywhere.
//
// Source: NEC 406.9(A), 406.9(B), 406.12.
func (s *sight) weather(o *quote.Option) {
	c := built(o)
	if c == nil || c.Hardwired {
		return
	}
	r := &c.Receptacle
	out, rated := s.route.place == outdoor, float64(r.Amps)
	s.holds(!out || r.InUseCover, r.Config+" outdoors without a cover", "a cover that closes over the plug")
	s.holds(!out || r.WeatherResistant || rated > s.Weather.ResistantTo.in(s.year), r.Config+" outdoors", "weather-resistant")
	s.holds(r.TamperResistant || rated > s.Weather.TamperTo, r.Config, "tamper-resistant")
}
