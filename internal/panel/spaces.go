package panel

import "daybreak/internal/unit"

// SpacesVerdict says whether the panel has room for the new breakers.
type SpacesVerdict uint8

const (
	// SpacesNotNeeded: no new circuit.
	SpacesNotNeeded SpacesVerdict = iota
	// SpacesEnough: full-size spaces are free; a pair must lie side by side.
	SpacesEnough
	// SpacesByTandem: the label allows doubling 120 V circuits, which frees them.
	SpacesByTandem
	// SpacesBySubpanel: a small panel beside this one, which gives spaces, not capacity.
	SpacesBySubpanel
	// SpacesToBeSeen: nobody has looked.
	SpacesToBeSeen
)

// String is the word of the verdict on spaces.
func (v SpacesVerdict) String() string {
	return nameOf([]string{"not_needed", "enough", "by_tandem", "by_subpanel", "to_be_seen"}, int(v))
}

// SpacesCheck is how many full-size spaces the job needs, and what gives them.
type SpacesCheck struct {
	Needed  int
	Free    int
	Verdict SpacesVerdict
}

// checkSpaces counts two full-size spaces for a 240 V circuit, one for 120 V.
// A two-pole ground-fault breaker is made in full size only, so half-spaces
// are no help.
func (in *Input) checkSpaces() SpacesCheck {
	s := SpacesCheck{Free: in.Spaces.Free}
	for i := range in.Chargers {
		if in.Chargers[i].Circuit == NewCircuit {
			s.Needed += poles(in.Chargers[i].Volts)
		}
	}
	switch {
	case s.Needed == 0:
		s.Verdict = SpacesNotNeeded
	case in.Spaces.Seen == NotSeen:
		s.Verdict = SpacesToBeSeen
	case s.Free >= s.Needed:
		s.Verdict = SpacesEnough
	case in.Spaces.Tandem == TandemAllowed:
		s.Verdict = SpacesByTandem
	default:
		s.Verdict = SpacesBySubpanel
	}
	return s
}

// poles is how many spaces a circuit of these volts takes.
func poles(v unit.Volts) int {
	if v == 120 {
		return 1
	}
	return 2
}
