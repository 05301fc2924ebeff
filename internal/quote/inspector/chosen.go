package inspector

import (
	"fmt"

	"daybreak/internal/panel"
	"daybreak/internal/quote"
)

// mayBeOffered reports whether an option could be shown: possible, priced,
// designed, and carried by the panel as it is or managed.
func (s *sight) mayBeOffered(o *quote.Option) bool {
	if o.Taken != nil {
		return false // it asks for more than a charger
	}
	if !o.Possible || !o.Priced || o.Way == quote.ExistingOutlet && len(o.Unpriced) > 0 || o.Circuit != nil && built(o) == nil {
		return false
	}
	if o.Panel == nil || o.Managed {
		return o.Panel == nil || o.Panel.Managed.Holds
	}
	v, _ := s.best(counted(o))
	return v == panel.Fits
}

// as is the option shown in a role; nil when none is.
func (s *sight) as(r quote.Role) *quote.Option {
	for i := range s.quote.Options {
		if s.quote.Options[i].Role&r != 0 {
			return &s.quote.Options[i]
		}
	}
	return nil
}

// enoughIsCheapest: what is shown as enough for now refills the worst weekday
// where anything does, and nothing that does is cheaper.
//
// Source: decision of this project.
func (s *sight) enoughIsCheapest() {
	enough := s.as(quote.EnoughForNow)
	for _, list := range [][]quote.Option{s.quote.Options, s.quote.Others} {
		for i := range list {
			o := &list[i]
			if !o.RefillsWorst || !s.mayBeOffered(o) {
				continue
			}
			switch {
			case enough == nil:
				s.breaks("nothing shown as enough", o.ID)
			case !enough.RefillsWorst:
				s.breaks(enough.ID+" leaves the driver short", o.ID)
			default:
				s.holds(enough.Bill.Total[1] <= o.Bill.Total[1], fmt.Sprintf("%s at %d", enough.ID, enough.Bill.Total[1]), fmt.Sprintf("%s at %d", o.ID, o.Bill.Total[1]))
			}
		}
	}
}

// bestFitWithinReach: a new circuit taken as best fit is not larger than the
// usual setting or the wish, with room to spare in the panel; managed, not larger
// than the managed limit.
//
// Source: decision of this project.
func (s *sight) bestFitWithinReach() {
	o := s.as(quote.BestFit)
	if o == nil || o.Way == quote.ExistingOutlet || o.Volts == 120 || o.Role&quote.EnoughForNow != 0 {
		return
	}
	most := s.Choice.Usual
	if wish, ok := s.facts.Wishes.OutputAmps.Get(); ok {
		most = max(float64(wish), 16) // the least of the settings offered
	}
	if o.Managed {
		most = s.Choice.Managed
	} else if o.Panel != nil {
		share := float64(o.Panel.Spare) / s.loads.capacity
		s.holds(share >= s.Choice.Spare-hair, fmt.Sprintf("%s with %.1f %% to spare", o.ID, 100*share), fmt.Sprintf("at least %.0f %%", 100*s.Choice.Spare))
	}
	s.holds(float64(o.Setting) <= most, o.ID, "at most "+amps(most))
}

// roomToGrow: what is shown as room to grow gives more than the best fit, within
// its own limit.
//
// Source: decision of this project.
func (s *sight) roomToGrow() {
	o, best := s.as(quote.RoomToGrow), s.as(quote.BestFit)
	if o == nil || best == nil {
		return
	}
	s.holds(o.Setting.Times(o.Volts) > best.Setting.Times(best.Volts), o.ID+" beside "+best.ID, "more than the best fit")
	s.holds(float64(o.Setting) <= s.Choice.Grow, o.ID, "at most "+amps(s.Choice.Grow))
}
