package circuit

import (
	"errors"

	"daybreak/internal/edition"
	"daybreak/internal/unit"
)

// Demand is what a conductor is tested against.
type Demand struct {
	Load         unit.Amps // the continuous load
	Other        unit.Amps // beside it on a feeder, not continuous
	Device       unit.Amps // overcurrent device ahead of it
	Marking      edition.Marking
	Surroundings edition.Surroundings
}

// ConductorCheck is the outcome of the three tests.
type ConductorCheck struct {
	Fails      Limit // FailsTerminals, FailsConditions, FailsProtection
	Terminals  edition.Cited[unit.Amps]
	Conditions edition.Cited[unit.Amps] // zero where the wire may not be used at that ambient
	Largest    edition.Cited[unit.Amps] // device it may have; zero likewise
}

// design is what the terminals must take: 125 % of what is continuous and the
// rest as it is.
func (d *Demand) design(ed edition.Edition) unit.Amps {
	return DesignCurrent(ed, d.Load).Value + d.Other
}

// CheckConductor makes the three tests, each by itself: the table value at the
// terminals against 125 % of the load, no factors; the corrected value against
// the load; the device against what the conductor may have. The next size up
// of 240.4(B) helps the third alone: it never lends ampacity to a load.
//
// Source: NEC 210.19(A), 215.2(A), 110.14(C), 310.15, 240.4.
func CheckConductor(ed edition.Edition, w edition.Wire, d Demand) (ConductorCheck, error) {
	var c ConductorCheck
	var err error
	if c.Terminals, err = ed.TerminalAmpacity(w, d.Marking, d.Device); err != nil {
		return c, err
	}
	if c.Terminals.Value < d.design(ed)-hair {
		c.Fails |= FailsTerminals
	}
	c.Conditions, err = ed.Ampacity(w, d.Surroundings)
	switch {
	case errors.Is(err, edition.ErrUnanswerable):
		c.Conditions = edition.Cited[unit.Amps]{}
		c.Fails |= FailsConditions | FailsProtection
		return c, nil
	case err != nil:
		return c, err
	case c.Conditions.Value < d.Load+d.Other-hair:
		c.Fails |= FailsConditions
	}
	if c.Largest, err = ed.LargestDevice(w.Size, w.Material, min(c.Terminals.Value, c.Conditions.Value)); err != nil {
		return c, err
	}
	if d.Device > c.Largest.Value {
		c.Fails |= FailsProtection
	}
	return c, nil
}

// hair forgives the last bits of a product such as 1.25 × 48.
const hair = 1e-9

// SmallestConductor is the smallest size of a method that passes all three
// tests, with its check and the one of the size just below it. The size is
// none when the method ends before that.
func SmallestConductor(ed edition.Edition, m edition.Method, metal edition.Material, d Demand) (s Sized, err error) {
	rng, err := ed.MethodSizes(m, metal)
	if err != nil {
		return s, err
	}
	design := d.design(ed)
	for _, size := range ed.Sizes() {
		if size.Rank() < rng.Value.Smallest.Rank() {
			continue
		}
		if !rng.Value.Largest.None() && size.Rank() > rng.Value.Largest.Rank() {
			break
		}
		w := edition.Wire{Method: m, Size: size, Material: metal}
		// The terminal test is the cheapest and rules out most sizes.
		t, err := ed.TerminalAmpacity(w, d.Marking, d.Device)
		if err != nil {
			return s, err
		}
		if t.Value < design-hair {
			s.Below = size
			continue
		}
		c, err := CheckConductor(ed, w, d)
		if err != nil {
			return s, err
		}
		if c.Fails == 0 {
			s.Size, s.Check = size, c
			break
		}
		s.Below = size
	}
	if !s.Below.None() {
		s.BelowCheck, err = CheckConductor(ed, edition.Wire{Method: m, Size: s.Below, Material: metal}, d)
	}
	return s, err
}

// Sized is a size found and its near miss, the size below.
type Sized struct {
	Size       edition.Size
	Check      ConductorCheck
	Below      edition.Size
	BelowCheck ConductorCheck
}

// UsableAmpacity is the corrected ampacity, what the terminals allow on a
// device, and the lesser of the two.
type UsableAmpacity struct {
	Corrected, Terminals, Usable unit.Amps
}

// Usable gives a conductor's ampacity as installed and terminated.
//
// Source: NEC 310.15, 110.14(C).
func Usable(ed edition.Edition, w edition.Wire, s edition.Surroundings, m edition.Marking, device unit.Amps) (UsableAmpacity, error) {
	c, err := ed.Ampacity(w, s)
	if err != nil {
		return UsableAmpacity{}, err
	}
	t, err := ed.TerminalAmpacity(w, m, device)
	if err != nil {
		return UsableAmpacity{}, err
	}
	return UsableAmpacity{c.Value, t.Value, min(c.Value, t.Value)}, nil
}

// LargestDeviceFor is the largest standard device a conductor may have where
// it runs. Terminals above 100 A circuits allow another column, so both sides
// of that line are tried.
//
// Source: NEC 240.4(B), 240.4(D), 110.14(C)(1).
func LargestDeviceFor(ed edition.Edition, w edition.Wire, s edition.Surroundings, m edition.Marking) (edition.Cited[unit.Amps], error) {
	const line, above = 100, 101
	for _, circuit := range [2]unit.Amps{above, line} {
		u, err := Usable(ed, w, s, m, circuit)
		if err != nil {
			return edition.Cited[unit.Amps]{}, err
		}
		d, err := ed.LargestDevice(w.Size, w.Material, u.Usable)
		if err != nil || circuit == line || d.Value > line {
			return d, err
		}
	}
	return edition.Cited[unit.Amps]{}, nil
}
