package pricing

import "daybreak/internal/unit"

// Feeder supplies a panelboard: a small panel beside a full one, or the panel
// of a detached building. No Board and no Wiring is none.
type Feeder struct {
	Breaker   Breaker   // in the panel it comes from
	Wiring    []Wiring  // one per method, from the panel to the board
	Segments  []Segment // their route; Wiring is the place of a wiring of the feeder
	PanelDrop unit.Feet // from the panel to the level of the run
	BoardDrop unit.Feet // from the level of the run to the board
	Board     Panelboard
	// Moved are circuits of the old panel that go over to the board, each with
	// its breaker there: joined, carried on along the feeder and landed.
	Moved []Breaker
	// Refed are circuits of a detached building that are fed anew from its
	// board, each with its breaker there.
	Refed      []Breaker
	Electrodes Electrodes // of a detached building
}

// Panelboard is a subpanel to put up. The book gives the cheapest that reaches
// every figure named; no Amps is none.
type Panelboard struct {
	Amps    unit.Amps // of its bus, at least
	Spaces  int       // full spaces, at least
	Outdoor bool
	Main    bool // with a main breaker, as the disconnect of a building
}

// Electrodes are ground rods with their conductor, and pipes to bond.
type Electrodes struct {
	Rods       int
	Size       string    // AWG of the bare copper conductor, "6"; needed where there are feet of it
	Feet       unit.Feet // of conductor, 0 to 200
	WaterPipes int       // metal pipes bonded, each with a clamp
	GasPipes   int
}

// Tandems are breakers that hold two circuits in one space, where the panel's
// label allows them. Each frees one space.
type Tandems struct {
	Count int
	Amps  unit.Amps // 15, 20 or 30
}

// Aside is work or a fee that others price. It stands beside the bill by name,
// with a range where the book has one, and never in its total.
type Aside struct {
	What string    // "utility_fee", "utility_lateral", or "convert_" and the word of a load
	Feet unit.Feet // where it goes by length
}

// none reports whether there is no feeder.
func (f *Feeder) none() bool {
	return f.Board.Amps == 0 && len(f.Wiring) == 0 && f.Breaker.Amps == 0 && len(f.Moved)+len(f.Refed) == 0 && f.Electrodes == (Electrodes{})
}

// feet is the length of the feeder, drops included.
func (f *Feeder) feet() unit.Feet {
	sum := f.PanelDrop + f.BoardDrop
	for _, s := range f.Segments {
		sum += s.Feet
	}
	return sum
}

// With joins work that is done on the same visit and stands in the same bill:
// a subpanel, tandem breakers or energy management beside a circuit. What both
// name is taken from the circuit.
func (w Work) With(more Work) Work {
	d, m := &w.Design, &more.Design
	if d.Feeder.none() {
		d.Feeder = m.Feeder
	}
	if d.Management.Method == "" {
		d.Management = m.Management
	}
	if d.Tandems.Count == 0 {
		d.Tandems = m.Tandems
	}
	d.Equipment.Managed = d.Equipment.Managed || m.Equipment.Managed
	d.OldCircuits += m.OldCircuits
	d.Labels |= m.Labels
	w.Permits |= more.Permits
	w.Visits = max(w.Visits, more.Visits)
	if len(more.Asides) > 0 {
		w.Asides = append(w.Asides[:len(w.Asides):len(w.Asides)], more.Asides...)
	}
	return w
}
