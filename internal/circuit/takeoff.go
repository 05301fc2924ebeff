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
	CableItem                      // Method, Metal, Size, Ground, Conductors, Run; ft of one stretch
	RacewayItem                    // Raceway, Trade, Wet, Run; ft of one stretch
	WireItem                       // Method, Metal, Size, Conductors; ft of the part, for each of Conductors
	GroundWireItem                 // Method, Size; ft of the part
	SupportItem                    // Method, Raceway, Trade, Run; ft of one stretch that is fastened
	ConnectorItem                  // Method, Raceway, Trade, Size, Wet; each end into a box or panel
	JunctionItem                   // Size, Volume, Wet; each box between methods
	NailPlateItem                  // each
	WallEntryItem                  // each way through an outside wall, sealed
	DeviceBoxItem                  // Amps, Gangs, Volume, Wet; each
	ReceptacleItem                 // Config, Amps, Wet; each
	CoverItem                      // Config, Amps, Wet (in-use); each
	DisconnectItem                 // Amps, Poles, Wet; each
	LabelItem                      // Labels: one of the set; each
	SleeveItem                     // Raceway, Trade; ft around a buried cable where it comes up
	WhipItem                       // Raceway, Trade; ft of flexible conduit, part of the route's length
	ExpansionItem                  // Raceway, Trade; each rise out of the ground
	FirestopItem                   // each rated separation pierced
	SubpanelItem                   // Amps of its bus, Spaces, Wet; each; a main device when Poles is 2
	RodItem                        // each
	RodWireItem                    // Size; ft
	GroundBarItem                  // each
	MovedItem                      // Amps, Poles, GFCI; each circuit fed anew from the subpanel
	RemovalItem                    // each old supply made safe and taken out
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
	Dug        Ground      // dug through, with a Run of Trench
	Cover      unit.Inches // least over a buried run; 0 elsewhere
	Part       int         // which part of the candidate, from 0
	Metal      edition.Material
	Size       edition.Size
	Ground     edition.Size
	Conductors int // insulated conductors, without the grounding conductor
	Amps       unit.Amps
	Poles      int
	GFCI       bool
	Config     string
	Gangs      int
	Spaces     int                 // of a subpanel
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
	t := Takeoff{Needs: make([]Need, 0, 6+c.needs())}
	t.add(Need{Item: BreakerItem, Quantity: 1, Amps: c.Device, Poles: c.Poles, GFCI: c.GFCI})
	for i := range c.Parts {
		if c.Parts[i].Method != 0 {
			t.part(ed, c, i)
		}
	}
	c.boxes(ed, &t)
	c.entries(&t)
	c.end(ed, &t)
	for l := CircuitLabel; l <= BuriedLabel; l <<= 1 {
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
	if c.fed != nil {
		n += 5 + len(c.fed.Moved)
	}
	return n
}

func (t *Takeoff) add(n Need) { t.Needs = append(t.Needs, n) }

// boxes adds the junctions between methods, with the volume the splice needs.
func (c *Candidate) boxes(ed edition.Edition, t *Takeoff) {
	for i := 1; i < len(c.Parts) && c.Parts[i].Method != 0; i++ {
		a, b := &c.Parts[i-1], &c.Parts[i]
		hot := a.Hot
		if b.Hot.Rank() > hot.Rank() {
			hot = b.Hot
		}
		n := Need{Item: JunctionItem, Quantity: 1, Size: hot, Wet: c.boxOutside(i)}
		fill, err := ed.BoxFill(edition.BoxContents{
			Conductors: [4]edition.Pull{{Count: a.Conductors(), Size: a.Hot}, {Count: b.Conductors(), Size: b.Hot}},
			Grounds:    [4]edition.Pull{{Count: 1, Size: a.Ground}, {Count: 1, Size: b.Ground}},
		})
		if err == nil {
			n.Volume = fill.Value
		}
		t.add(n)
	}
}

// boxOutside reports whether both sides of a change are outdoors; a box is set
// inside wherever one side is.
func (c *Candidate) boxOutside(i int) bool {
	at := int(c.spans[i].a)
	return c.route[at-1].Kind.outdoors() && c.route[at].Kind.outdoors()
}

// entries counts the ways through an outside wall, and the rated separations.
func (c *Candidate) entries(t *Takeoff) {
	n := 0
	for i := 1; i < len(c.route); i++ {
		if c.route[i].Kind.outdoors() != c.route[i-1].Kind.outdoors() {
			n++
		}
	}
	if n > 0 {
		t.add(Need{Item: WallEntryItem, Quantity: float64(n), Wet: true})
	}
	if c.Separations > 0 {
		t.add(Need{Item: FirestopItem, Quantity: float64(c.Separations)})
	}
}

// end adds what stands at the charger.
func (c *Candidate) end(ed edition.Edition, t *Takeoff) {
	out := c.Place == edition.Outdoor
	if c.fed != nil {
		t.panel(c.fed)
		return
	}
	if c.Disconnect || c.StructureDisconnect {
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
	last := c.lastPart()
	box := Need{Item: DeviceBoxItem, Quantity: 1, Amps: r.Amps, Gangs: gangs, Size: last.Hot, Wet: out}
	contents := edition.BoxContents{Conductors: [4]edition.Pull{{Count: last.Conductors(), Size: last.Hot}},
		Grounds: [4]edition.Pull{{Count: 1, Size: last.Ground}}, Device: last.Hot, Gangs: gangs}
	if fill, err := ed.BoxFill(contents); err == nil {
		box.Volume = fill.Value
	}
	t.add(box)
	t.add(Need{Item: ReceptacleItem, Quantity: 1, Config: r.Config, Amps: r.Amps, Wet: r.WeatherResistant})
	t.add(Need{Item: CoverItem, Quantity: 1, Config: r.Config, Amps: r.Amps, Wet: r.InUseCover})
}

func (c *Candidate) lastPart() *Part {
	i := 0
	for i+1 < len(c.Parts) && c.Parts[i+1].Method != 0 {
		i++
	}
	return &c.Parts[i]
}
