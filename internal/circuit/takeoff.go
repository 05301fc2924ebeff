package circuit

import (
	"daybreak/internal/edition"
	"daybreak/internal/unit"
)

// Takeoff is the material a circuit takes, before any allowance: real lengths,
// no tails, slack or waste (those are the estimator's, see room pricing). It
// is plain: a list of needs, in the order a bill reads.
type Takeoff struct {
	Needs []Need
	// RouteFeet is the real one-way length, drops included.
	RouteFeet unit.Feet
}

// Item is a kind of material or device, from a closed list.
type Item uint8

// The items. The fields of Need that say which one are named beside each.
const (
	BreakerItem    Item = iota + 1 // Amps, Poles, GFCI; each
	CableItem                      // Method, Size, Ground, Conductors, Run; ft of one stretch
	RacewayItem                    // Raceway, Trade, Wet, Run; ft of one stretch
	WireItem                       // Method, Size, Conductors; ft of the part, for each of Conductors
	GroundWireItem                 // Method, Size; ft of the part
	SupportItem                    // Method, Raceway, Trade, Run; ft of one stretch that is fastened
	ConnectorItem                  // Method, Raceway, Trade, Size, Wet; each end into a box or panel
	JunctionItem                   // Size, Volume, Wet; each box where cable becomes raceway
	NailPlateItem                  // each
	WallEntryItem                  // each way through an outside wall, sealed
	DeviceBoxItem                  // Amps, Gangs, Wet; each
	ReceptacleItem                 // Config, Amps, Wet; each
	CoverItem                      // Config, Amps, Wet (in-use); each
	DisconnectItem                 // Amps, Poles, Wet; each
	LabelItem                      // Labels: one of the set; each
)

// Need is one line of a take-off. Quantity is in feet or pieces, as its item
// says. Size is the hot's, Ground the grounding conductor inside a cable.
type Need struct {
	Item       Item
	Quantity   float64
	Method     edition.Method
	Raceway    edition.Raceway
	Trade      edition.Trade
	Run        SegmentKind // the stretch it runs through; 0 where it has none
	Part       int         // 0 or 1: which part of the candidate
	Size       edition.Size
	Ground     edition.Size
	Conductors int // insulated conductors, without the grounding conductor
	Amps       unit.Amps
	Poles      int
	GFCI       bool
	Config     string
	Gangs      int
	Volume     edition.CubicInches // least box volume; 0 where 314.28 asks by raceway instead
	Wet        bool
	Labels     LabelSet
}

// takeOff lists the material of the chosen candidate.
func (d *design) takeOff() (bool, error) {
	d.res.Takeoff = d.res.Chosen.Takeoff(d.ed)
	return true, nil
}

// Takeoff lists what a candidate takes. A Job.Cost calls it to price one; the
// edition must be the one that designed it.
func (c *Candidate) Takeoff(ed edition.Edition) Takeoff {
	t := Takeoff{Needs: make([]Need, 0, 4+c.needs())}
	t.add(Need{Item: BreakerItem, Quantity: 1, Amps: c.Device, Poles: c.Poles, GFCI: c.GFCI})
	for i := range c.Parts {
		if c.Parts[i].Method != 0 {
			t.part(c, i)
		}
	}
	c.boxes(ed, &t)
	c.entries(&t)
	c.end(&t)
	for _, l := range [...]LabelSet{CircuitLabel, SettingLabel, DisconnectLabel} {
		if c.Labels&l != 0 {
			t.add(Need{Item: LabelItem, Quantity: 1, Labels: l})
		}
	}
	return t
}

// needs is about how many lines the take-off will have.
func (c *Candidate) needs() int {
	n := 2 * len(c.route)
	if c.Box || !c.Parts[0].Method.Cable() {
		n += 4
	}
	if !c.Hardwired {
		n += 3
	}
	return n
}

func (t *Takeoff) add(n Need) { t.Needs = append(t.Needs, n) }

func (t *Takeoff) part(c *Candidate, i int) {
	p := &c.Parts[i]
	route := c.route[:c.split]
	if i == 1 {
		route = c.route[c.split:]
	}
	for _, s := range route {
		t.RouteFeet += s.Feet
		n := Need{Quantity: float64(s.Feet), Method: p.Method, Raceway: p.Raceway, Trade: p.Trade, Run: s.Kind, Part: i, Wet: s.Kind == Outside}
		if p.Method.Cable() {
			n.Item, n.Size, n.Ground, n.Conductors = CableItem, p.Hot, p.Ground, p.Conductors()
		} else {
			n.Item = RacewayItem
		}
		t.add(n)
		// What is fished is not fastened (334.30(B)(1)).
		if s.Kind != Fished || !p.Method.Cable() {
			n.Item = SupportItem
			t.add(n)
		}
		if s.Kind == Fished && p.Method.Cable() {
			// In and out of the wall, the cable passes a plate close to its face.
			t.add(Need{Item: NailPlateItem, Quantity: 2, Run: s.Kind, Part: i})
		}
	}
	if !p.Method.Cable() {
		t.add(Need{Item: WireItem, Quantity: float64(p.Feet), Method: p.Method, Size: p.Hot, Conductors: p.Conductors(), Part: i, Wet: p.Wet})
		t.add(Need{Item: GroundWireItem, Quantity: float64(p.Feet), Method: p.Method, Size: p.Ground, Part: i, Wet: p.Wet})
	}
	t.add(Need{Item: ConnectorItem, Quantity: 2, Method: p.Method, Raceway: p.Raceway, Trade: p.Trade, Size: p.Hot, Part: i, Wet: p.Wet})
}

// boxes adds the junction where cable becomes raceway, with the volume the
// splice needs.
func (c *Candidate) boxes(ed edition.Edition, t *Takeoff) {
	if !c.Box {
		return
	}
	a, b := &c.Parts[0], &c.Parts[1]
	hot := a.Hot
	if b.Hot.Rank() > hot.Rank() {
		hot = b.Hot
	}
	n := Need{Item: JunctionItem, Quantity: 1, Size: hot, Wet: false}
	fill, err := ed.BoxFill(edition.BoxContents{
		Conductors: [4]edition.Pull{{Count: a.Conductors(), Size: a.Hot}, {Count: b.Conductors(), Size: b.Hot}},
		Grounds:    [4]edition.Pull{{Count: 1, Size: a.Ground}, {Count: 1, Size: b.Ground}},
	})
	if err == nil {
		n.Volume = fill.Value
	}
	t.add(n)
}

// entries counts the ways through an outside wall.
func (c *Candidate) entries(t *Takeoff) {
	n := 0
	for i := 1; i < len(c.route); i++ {
		if (c.route[i].Kind == Outside) != (c.route[i-1].Kind == Outside) {
			n++
		}
	}
	if n > 0 {
		t.add(Need{Item: WallEntryItem, Quantity: float64(n), Wet: true})
	}
}

// end adds what stands at the charger.
func (c *Candidate) end(t *Takeoff) {
	out := c.Place == edition.Outdoor
	if c.Disconnect {
		t.add(Need{Item: DisconnectItem, Quantity: 1, Amps: c.Device, Poles: c.Poles, Wet: out})
	}
	if c.Hardwired {
		return
	}
	r := &c.Receptacle
	gangs := 1
	if r.Amps >= 30 {
		gangs = 2 // a 30 or 50 A face is wider than one device box (314.16(B)(4))
	}
	t.add(Need{Item: DeviceBoxItem, Quantity: 1, Amps: r.Amps, Gangs: gangs, Size: c.lastPart().Hot, Wet: out})
	t.add(Need{Item: ReceptacleItem, Quantity: 1, Config: r.Config, Amps: r.Amps, Wet: r.WeatherResistant})
	t.add(Need{Item: CoverItem, Quantity: 1, Config: r.Config, Amps: r.Amps, Wet: r.InUseCover})
}

func (c *Candidate) lastPart() *Part {
	if c.Parts[1].Method != 0 {
		return &c.Parts[1]
	}
	return &c.Parts[0]
}
