package pricing

import "daybreak/internal/unit"

// run is a line of wirings between two ends: the circuit's, or its feeder's.
type run struct {
	wirings              []Wiring
	segments             []Segment
	startDrop, endDrop   unit.Feet
	startTail, endTail   int64 // thousandths of a foot
	wiringAt, segmentsAt string
}

// circuitRun goes from the panel to the car.
func (t *tally) circuitRun() run {
	r := &t.work.Route
	return run{
		wirings: t.work.Design.Wiring, segments: r.Segments, startDrop: r.PanelDrop, endDrop: r.DeviceDrop,
		startTail: t.book.allowances.panelTail, endTail: t.book.allowances.deviceTail, wiringAt: "design.wiring", segmentsAt: "route.segments",
	}
}

// feederRun goes from the panel to the board; both ends lie in a panel.
func (t *tally) feederRun() run {
	f := &t.work.Design.Feeder
	tail := t.book.allowances.panelTail
	return run{
		wirings: f.Wiring, segments: f.Segments, startDrop: f.PanelDrop, endDrop: f.BoardDrop,
		startTail: tail, endTail: tail, wiringAt: "design.feeder.wiring", segmentsAt: "design.feeder.segments",
	}
}

// stretch is one wiring of a run with its lengths, in thousandths of a foot.
type stretch struct {
	*Wiring
	byKind [segmentKinds]int64 // segments, without drops
	first  int                 // kind of the first segment; −1 without one
	length int64               // all segments
	drops  int64
	tails  int64
	at     string // field of its faults
}

// stretch adds up a wiring's part of a run. The drop and the tail at the start
// go with the first wiring, those at the end with the last; in between every
// end lies in a box.
func (t *tally) stretch(r *run, i int) stretch {
	a := &t.book.allowances
	s := stretch{Wiring: &r.wirings[i], first: -1, tails: 2 * a.boxTail, at: r.wiringAt}
	for j := range r.segments {
		g := &r.segments[j]
		if g.Wiring != i {
			continue
		}
		if s.first < 0 {
			s.first = int(g.Kind)
		}
		s.byKind[g.Kind] += milli(g.Feet)
		s.length += milli(g.Feet)
	}
	if i == 0 {
		s.drops += milli(r.startDrop)
		s.tails += r.startTail - a.boxTail
	}
	if i == len(r.wirings)-1 {
		s.drops += milli(r.endDrop)
		s.tails += r.endTail - a.boxTail
	}
	return s
}

// trench is the buried length.
func (s *stretch) trench() (feet int64) {
	for k := TrenchLawn; k < segmentKinds; k++ {
		feet += s.byKind[k]
	}
	return feet
}

// exposed is the length above ground, drops included.
func (s *stretch) exposed() int64 { return s.length - s.trench() + s.drops }

// with lengthens by a share in ten-thousandths and gives whole feet.
//
// Source: allowances of the price book; common practice of estimating.
func with(milliFeet, share int64) int64 { return ceilDiv(milliFeet*(10_000+share), 10_000_000) }
