package pricing

import (
	"slices"

	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/unit"
)

// Site is what neither circuit nor outlet knows of the work: the equipment
// wanted, the house, and what the shop takes on.
type Site struct {
	Equipment  Equipment // its Mount follows from the circuit unless it is a pedestal
	Conditions Conditions
	Management Management
	Firestops  int    // separations between garage and dwelling that the run pierces
	Surface    string // of finished walls, "gypsum"; with Patching
	Patching   bool   // the shop closes the holes it cuts
	Visits     int    // trips to the site; 0 plans one, and two where a trench is inspected open
}

// FromCircuit turns a designed circuit into work. A result that is not a
// design is no work.
func FromCircuit(r *circuit.Result, site Site) Work {
	if r.Outcome != circuit.Designed {
		return Work{}
	}
	return FromTakeoff(&r.Takeoff, site)
}

// FromTakeoff turns a take-off into work: what the designer counted stays,
// lengths are still the real ones. It serves a designer who prices candidates
// before one is chosen.
func FromTakeoff(take *circuit.Takeoff, site Site) Work {
	w := Work{Conditions: site.Conditions, Permits: PermitCircuit, Visits: max(site.Visits, 1)}
	d, r := &w.Design, &w.Route
	d.Equipment, d.Management = site.Equipment, site.Management
	r.Firestops = site.Firestops
	d.Wiring = make([]Wiring, 0, 2)
	r.Segments = make([]Segment, 0, 8)
	d.Equipment.Mount = mountFor(site.Equipment, MountHardwired)
	for i := range take.Needs {
		w.need(&take.Needs[i], site)
	}
	if site.Management.Method != "" {
		d.Labels |= LabelManagement
	}
	for i := range d.Wiring {
		d.Wiring[i].turn(r, i, len(d.Wiring))
	}
	if site.Patching {
		r.Patches, r.Surface = r.AccessHoles, site.Surface
	}
	if site.Conditions.Masonry != "" && site.Conditions.Masonry != "masonry.none" {
		r.Masonry, r.WoodWalls = r.WoodWalls, 0
	}
	if site.Visits == 0 && slices.ContainsFunc(r.Segments, func(s Segment) bool { return s.Kind.trench() }) {
		w.Visits = 2
	}
	return w
}

// mountFor says how equipment is put up: as the circuit ends, unless it stands
// on a pedestal or there is none.
func mountFor(e Equipment, end Mount) Mount {
	if e.Supply == NoEquipment || e.Mount == MountPedestal {
		return e.Mount
	}
	return end
}

// need takes one line of the take-off.
func (w *Work) need(n *circuit.Need, site Site) {
	d, r := &w.Design, &w.Route
	count := int(n.Quantity)
	switch n.Item {
	case circuit.BreakerItem:
		d.Breaker = Breaker{Amps: n.Amps, Poles: n.Poles, Protection: Standard}
		if n.GFCI {
			d.Breaker.Protection = GroundFault
		}
	case circuit.CableItem, circuit.RacewayItem:
		w.stretchOf(n)
	case circuit.WireItem:
		d.part(n).add(Conductors{Size: n.Size.Trade(), Count: n.Conductors})
		if slices.Index(wireSizes, n.Size.Trade()) >= slices.Index(wireSizes, "4") {
			d.part(n).Bushings = 2
		}
	case circuit.GroundWireItem:
		d.part(n).add(Conductors{Size: n.Size.Trade(), Count: 1})
	case circuit.ConnectorItem:
		if n.Method.Cable() {
			d.part(n).Connectors += count
		}
	case circuit.NailPlateItem:
		d.part(n).NailPlates += count
	case circuit.JunctionItem:
		d.Junctions = append(d.Junctions, junctionFor(n))
	case circuit.WallEntryItem:
		r.WoodWalls += count
		r.Entries += count
	case circuit.DeviceBoxItem:
		d.Termination.Box = boxIn(r)
	case circuit.ReceptacleItem:
		d.Termination.Receptacle = n.Config
		d.Equipment.Mount = mountFor(site.Equipment, MountPlug)
	case circuit.CoverItem:
		d.Termination.Wet = n.Wet
	case circuit.DisconnectItem:
		d.Disconnect.Amps = disconnectFor(n.Amps)
	case circuit.LabelItem:
		d.Labels |= labelsOf(n.Labels)
	}
}

// disconnectFor is the size of switch sold for a circuit.
//
// Source: common practice; 30, 60 and 100 A are the sizes made.
func disconnectFor(a unit.Amps) unit.Amps {
	switch {
	case a <= 30:
		return 30
	case a <= 60:
		return 60
	}
	return 100
}

func labelsOf(set circuit.LabelSet) (out LabelSet) {
	if set&circuit.CircuitLabel != 0 {
		out |= LabelCircuit
	}
	if set&circuit.SettingLabel != 0 {
		out |= LabelSetting
	}
	if set&circuit.DisconnectLabel != 0 {
		out |= LabelDisconnect
	}
	return out
}

// part gives the wiring a need belongs to; a take-off lists its stretches
// before their wires.
func (d *Design) part(n *circuit.Need) *Wiring {
	for len(d.Wiring) <= n.Part {
		d.Wiring = append(d.Wiring, Wiring{})
	}
	return &d.Wiring[n.Part]
}

func (w *Wiring) add(c Conductors) {
	if w.Conductors == nil {
		w.Conductors = make([]Conductors, 0, 3)
	}
	w.Conductors = append(w.Conductors, c)
}

// stretchOf files a stretch of cable or raceway as a segment of its wiring.
func (w *Work) stretchOf(n *circuit.Need) {
	p := w.Design.part(n)
	p.Method = methodOf(n)
	p.Wet = p.Wet || n.Wet
	if n.Item == circuit.CableItem {
		p.Cable = Cable{Size: n.Size.Trade(), Conductors: n.Conductors}
	} else {
		p.TradeSize = string(n.Trade)
	}
	k := segmentOf(n.Run)
	w.Route.Segments = append(w.Route.Segments, Segment{Kind: k, Feet: unit.Feet(n.Quantity), Wiring: n.Part})
	if k == Fished {
		w.Route.AccessHoles += 1 + int(n.Quantity/feetBetweenHoles)
	}
}

// feetBetweenHoles is how far cable can be fished from one access hole.
//
// Source: common practice, engineering judgement.
const feetBetweenHoles = 10

func methodOf(n *circuit.Need) Method {
	switch {
	case n.Method == edition.NMB:
		return NMB
	case n.Raceway == edition.EMT:
		return EMT
	case n.Raceway == edition.PVC40:
		return PVC40
	case n.Raceway == edition.PVC80:
		return PVC80
	}
	return ""
}

func segmentOf(k circuit.SegmentKind) SegmentKind {
	switch k {
	case circuit.Fished:
		return Fished
	case circuit.Attic:
		return Attic
	case circuit.CrawlSpace:
		return Crawl
	case circuit.Surface, circuit.Outside:
		return Surface
	case circuit.Trench:
		return TrenchLawn
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

// turn counts the quarter bends of a raceway: one at each end that rises or
// falls, one at each change of what it runs along, and one to spare; and a
// conduit body where it turns into a wall.
//
// Source: common practice, engineering judgement.
func (w *Wiring) turn(r *Route, i, wirings int) {
	if w.Method == NMB || w.Method == "" {
		return
	}
	segments := 0
	for _, s := range r.Segments {
		if s.Wiring == i {
			segments++
		}
	}
	ends := 0
	if i == 0 {
		ends++
	}
	if i == wirings-1 {
		ends++
	}
	w.QuarterBends = segments + ends
	if wirings == 1 {
		w.Bodies = r.WoodWalls
	}
}
