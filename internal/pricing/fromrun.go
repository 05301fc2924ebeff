package pricing

import (
	"slices"

	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/unit"
)

// laying gathers the run of a circuit or a feeder from its take-off.
type laying struct {
	wiring             []Wiring
	segments           []Segment
	junctions          []Junction
	startDrop, endDrop unit.Feet
	route              *Route // ways through walls, holes and separations
	sleeved            []int  // segments of buried cable that stand in a sleeve
}

// take files one line of a take-off where it is of the run; false where not.
func (l *laying) take(n *circuit.Need) bool {
	count := int(n.Quantity)
	switch n.Item {
	case circuit.CableItem, circuit.RacewayItem:
		l.stretch(n)
	case circuit.SleeveItem:
		p := l.part(n)
		p.Exposed, p.TradeSize = racewayOf(n.Raceway), string(n.Trade)
		l.sleeved = append(l.sleeved, len(l.segments)-1)
	case circuit.WireItem, circuit.GroundWireItem:
		l.wires(n)
	case circuit.ConnectorItem:
		if n.Method.Cable() {
			l.part(n).Connectors += count
		}
	case circuit.WhipItem:
		l.whip(n)
	case circuit.ExpansionItem:
		l.part(n).Expansions += count
	case circuit.NailPlateItem:
		l.part(n).NailPlates += count
	case circuit.JunctionItem:
		l.junctions = append(l.junctions, junctionFor(n))
	case circuit.WallEntryItem:
		l.route.WoodWalls += count
		l.route.Entries += count
	case circuit.FirestopItem:
		l.route.Firestops += count
	case circuit.SupportItem:
	default:
		return false
	}
	return true
}

// part gives the wiring a need belongs to; a take-off lists its stretches
// before their wires.
func (l *laying) part(n *circuit.Need) *Wiring {
	for len(l.wiring) <= n.Part {
		l.wiring = append(l.wiring, Wiring{})
	}
	return &l.wiring[n.Part]
}

// stretch files a stretch of cable or raceway as a segment of its wiring.
// Stretches of one kind that follow each other are one.
func (l *laying) stretch(n *circuit.Need) {
	p := l.part(n)
	p.Wet = p.Wet || n.Wet
	switch m := methodOf(n); {
	case p.Method == "" || p.Method == PVC80 && m == PVC40:
		if p.Method == PVC80 {
			p.Exposed = PVC80
		}
		p.Method = m
	case m != p.Method:
		p.Exposed = m
	}
	if n.Item == circuit.CableItem {
		p.Cable = Cable{Size: n.Size.Trade(), Conductors: n.Conductors, Material: materialOf(n)}
	} else {
		p.TradeSize = string(n.Trade)
	}
	k := segmentOf(n)
	if i := len(l.segments) - 1; i >= 0 && l.segments[i].Kind == k && l.segments[i].Wiring == n.Part && n.Item == circuit.RacewayItem {
		l.segments[i].Feet += unit.Feet(n.Quantity)
	} else {
		l.segments = append(l.segments, Segment{Kind: k, Feet: unit.Feet(n.Quantity), Wiring: n.Part})
	}
	if k == Fished {
		l.route.AccessHoles += 1 + int(n.Quantity/feetBetweenHoles)
	}
}

// feetBetweenHoles is how far cable can be fished from one access hole.
//
// Source: common practice, engineering judgement.
const feetBetweenHoles = 10

// wires adds conductors to a raceway, and to the whip that ends it.
func (l *laying) wires(n *circuit.Need) {
	c := Conductors{Size: n.Size.Trade(), Count: 1, Material: materialOf(n)}
	if n.Method == edition.XHHW2 {
		c.Insulation = "XHHW-2"
	}
	p := l.part(n)
	if n.Item == circuit.WireItem {
		c.Count = n.Conductors
		if slices.Index(wireSizes, c.Size) >= slices.Index(wireSizes, "4") {
			p.Bushings = 2
		}
	}
	p.add(c)
	if whip := n.Part + 1; whip < len(l.wiring) && (l.wiring[whip].Method == FMC || l.wiring[whip].Method == LFMC) {
		l.wiring[whip].add(c)
	}
}

func (w *Wiring) add(c Conductors) {
	if w.Conductors == nil {
		w.Conductors = make([]Conductors, 0, 3)
	}
	w.Conductors = append(w.Conductors, c)
}

// whip is a wiring of its own at the end of the last.
func (l *laying) whip(n *circuit.Need) {
	l.part(n)
	l.wiring = append(l.wiring, Wiring{Method: racewayOf(n.Raceway), TradeSize: string(n.Trade), Wet: n.Wet})
	l.segments = append(l.segments, Segment{Kind: Surface, Feet: unit.Feet(n.Quantity), Wiring: len(l.wiring) - 1})
}

// finish counts bends, and makes of a sleeved cable at either end what a run
// has there: a rise.
func (l *laying) finish() {
	for _, i := range l.sleeved {
		s := &l.segments[i]
		switch {
		case s.Wiring == 0 && i == 0:
			l.startDrop, s.Feet = l.startDrop+s.Feet, 0
		case s.Wiring == len(l.wiring)-1 && i == len(l.segments)-1:
			l.endDrop, s.Feet = l.endDrop+s.Feet, 0
		}
	}
	for i := range l.wiring {
		if w := &l.wiring[i]; bends(w.Method) {
			w.QuarterBends = l.turns(i)
		}
	}
}

func bends(m Method) bool { return m == EMT || m == PVC40 || m == PVC80 || m == RMC }

// turns counts the quarter bends of a raceway: one at each end that rises or
// falls, one at each change of what it runs along, and one to spare. A run that
// comes straight out of the ground needs none at its end.
//
// Source: common practice, engineering judgement.
func (l *laying) turns(wiring int) int {
	var run []Segment
	for _, s := range l.segments {
		if s.Wiring == wiring {
			run = append(run, s)
		}
	}
	dug := func(s Segment) bool { return s.Kind.trench() }
	if !slices.ContainsFunc(run, dug) {
		n := len(run)
		if wiring == 0 {
			n++
		}
		if wiring == len(l.wiring)-1 {
			n++
		}
		return n
	}
	n := len(run) - 1
	for _, end := range [2][2]int{{0, 1}, {len(run) - 1, len(run) - 2}} {
		rises := end[1] >= 0 && end[1] < len(run) && run[end[0]].Kind == Surface && dug(run[end[1]])
		if !rises {
			n++
		}
	}
	return n
}

// bodiesAt is where a raceway turns into a wall it goes through.
func bodiesAt(w *Wiring, walls int) int {
	if bends(w.Method) {
		return walls
	}
	return 0
}

func materialOf(n *circuit.Need) string {
	if n.Metal == edition.Aluminium {
		return "AL"
	}
	return ""
}

var cableMethods = [edition.MethodKinds]Method{edition.NMB: NMB, edition.UFB: UFB, edition.MC: MC, edition.SER: SER}

func methodOf(n *circuit.Need) Method {
	if n.Method.Cable() {
		return cableMethods[n.Method]
	}
	return racewayOf(n.Raceway)
}

func racewayOf(r edition.Raceway) Method {
	switch r {
	case edition.EMT:
		return EMT
	case edition.PVC40:
		return PVC40
	case edition.PVC80:
		return PVC80
	case edition.RMC:
		return RMC
	case edition.FMC:
		return FMC
	case edition.LFMC:
		return LFMC
	}
	return ""
}

// dug is how each ground is opened.
var dug = [...]SegmentKind{circuit.Lawn: TrenchLawn, circuit.Bed: TrenchBed, circuit.Gravel: TrenchGravel, circuit.Pavers: TrenchPavers,
	circuit.ConcreteSlab: TrenchConcrete, circuit.Asphalt: TrenchAsphalt}

func segmentOf(n *circuit.Need) SegmentKind {
	switch n.Run {
	case circuit.Fished:
		return Fished
	case circuit.Attic:
		return Attic
	case circuit.CrawlSpace:
		return Crawl
	case circuit.Surface, circuit.Outside:
		return Surface
	case circuit.Trench:
		return dug[n.Dug]
	}
	return Open
}

// junctionFor gives a box that holds the splices: a 4 in square box to 10 AWG,
// a 6 × 6 × 4 in box above.
//
// Source: NFPA 70 314.16(B), 314.28.
func junctionFor(n *circuit.Need) Junction {
	if slices.Index(wireSizes, n.Size.Trade()) >= slices.Index(wireSizes, "8") {
		return Junction{Size: "6x6x4", Wet: true}
	}
	return Junction{Wet: n.Wet}
}

// boxIn says how the device box is put in, from where the run ends.
func boxIn(r *Route) BoxWork {
	if len(r.Segments) == 0 {
		return NewWork
	}
	switch r.Segments[len(r.Segments)-1].Kind {
	case Fished:
		return OldWork
	case Surface:
		return SurfaceWork
	}
	return NewWork
}
