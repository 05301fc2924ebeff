package inspector

import (
	"fmt"

	"daybreak/internal/quote"
)

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
