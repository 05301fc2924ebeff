package pricing

import "daybreak/internal/unit"

// Work is what is to be supplied and done, as a designer and a route say it:
// no prices, no item codes. The zero Work is nothing to do and costs nothing.
// Conditions and counts are known here; whoever does not know them draws them
// first.
type Work struct {
	Design     Design
	Route      Route
	Conditions Conditions
	Permits    PermitSet
	Visits     int // trips to the site; 1 or more as soon as there is labour
	Discount   Discount
	Asides     []Aside // named beside the bill, priced by others
}

// Design is the circuit and what hangs on it.
type Design struct {
	Equipment   Equipment
	Breaker     Breaker
	Wiring      []Wiring // one per method, in order from the panel to the car
	Termination Termination
	Junctions   []Junction // boxes between methods and pull boxes
	Disconnect  Disconnect
	Management  Management
	Service     Service
	Feeder      Feeder  // to a panelboard the circuit starts from, or that takes circuits over
	Tandems     Tandems // to free spaces
	OldCircuits int     // circuits or feeds made safe and taken out
	Labels      LabelSet
	Commission  bool // set and test equipment that is mounted already
	Inspection  bool // what is there is opened and looked at
	Splices     int  // joints made anew on listed connectors
}

// Supply says who brings the charging equipment.
type Supply uint8

const (
	// NoEquipment: none is part of this work.
	NoEquipment Supply = iota
	// ShopSupplies: the shop sells it; it is a line of the bill.
	ShopSupplies
	// BuyerSupplies: the buyer has it; mounting and commissioning stay.
	BuyerSupplies
)

// Mount says how the equipment is put up.
type Mount uint8

const (
	// NoMount: it is handed over, or used where it hangs.
	NoMount Mount = iota
	// MountPlug: fixed to the wall and plugged in.
	MountPlug
	// MountHardwired: fixed to the wall and wired in.
	MountHardwired
	// MountPedestal: on a pedestal, wired in.
	MountPedestal
)

// Equipment is the class of charging equipment wanted. The book gives the
// cheapest item that meets every limit named; a limit left empty does not
// bind.
type Equipment struct {
	Supply    Supply
	Mount     Mount
	Level     int       // 1 or 2; 0 is either
	Output    unit.Amps // exact output rating; 0 is any that holds Setting
	Setting   unit.Amps // amperes it must be settable to; 0 is any
	Locked    bool      // the setting must lie behind restricted access
	Plug      string    // NEMA configuration of its plug; "" is hardwired
	Connector string    // "J1772", "J3400"; "" is either
	Networked bool      // must be networked
	Managed   bool      // must take measured energy management
}

// Breaker is the overcurrent device to fit; no Amps is none.
type Breaker struct {
	Amps       unit.Amps
	Poles      int
	Protection Protection
	Form       string // "full"; "tandem", "quad" where the panel's label allows; "" is full
}

// Protection is what the breaker guards against beside overcurrent.
type Protection string

const (
	Standard     Protection = "standard"
	GroundFault  Protection = "gfci"
	DualFunction Protection = "dual_function"
)

// Method is a wiring method, spelt as the price book spells it.
type Method string

const (
	NMB   Method = "NM-B"
	EMT   Method = "EMT"
	PVC40 Method = "PVC40"
	PVC80 Method = "PVC80"
	RMC   Method = "RMC"
	FMC   Method = "FMC"  // a whip of flexible conduit
	LFMC  Method = "LFMC" // the same, liquidtight
	UFB   Method = "UF-B" // buried as it is; TradeSize and Exposed name its sleeve where it comes up
	MC    Method = "MC"
	SER   Method = "SER" // feeders, indoors
	MHF   Method = "MHF" // feeder cable buried as it is; its sleeve as for UFB
)

// Wiring is one stretch of one method. A cable names Cable; a raceway names
// TradeSize and Conductors.
type Wiring struct {
	Method     Method
	Cable      Cable
	TradeSize  string // "3/4", "1"; raceways only
	Conductors []Conductors
	Wet        bool // raintight fittings, wet boxes
	// Exposed is the trade type used where the raceway may be hit; "" is Method.
	Exposed Method
	// QuarterBends of a raceway; beyond four a body is added at each fourth.
	QuarterBends int
	Bodies       int // conduit bodies for turns into a wall, beside those the bends ask for
	Expansions   int // expansion fittings at risers
	Connectors   int // cable connectors at metal boxes
	NailPlates   int // where the cable is within 1 1/4 in of a face
	Bushings     int // insulated bushings, 4 AWG and larger
}

// Cable is a cable's size and its insulated conductors, without the ground.
type Cable struct {
	Size       string // AWG: "14" … "2"
	Conductors int    // 2 or 3
	Material   string // "CU", "AL"; "" is what the method comes in
}

// Conductors are like conductors of one raceway.
type Conductors struct {
	Size       string // AWG
	Count      int
	Material   string // "CU", "AL"; "" is copper
	Insulation string // "THWN-2", "XHHW-2"; "" is THWN-2
}

// Termination is how the circuit ends: a receptacle, or nothing when the
// equipment is wired in.
type Termination struct {
	Receptacle string // NEMA configuration; "" is none
	Extent     Extent
	Cover      bool   // with a receptacle replaced or kept: a new cover too
	Grade      string // "" is fit for hours at full current; "heavy_gfci_wr" has its own protection
	Box        BoxWork
	Wet        bool
}

// Extent says how much of an outlet is new.
type Extent uint8

const (
	// NewOutlet: box, receptacle and cover.
	NewOutlet Extent = iota
	// NewReceptacle: a receptacle in the box that is there.
	NewReceptacle
	// KeepOutlet: the outlet stays as it is.
	KeepOutlet
)

// BoxWork says how a box is put in.
type BoxWork string

const (
	NewWork     BoxWork = "new"
	OldWork     BoxWork = "old"
	SurfaceWork BoxWork = "surface"
)

// Junction is a junction or pull box.
type Junction struct {
	Size string // "4sq", "6x6x4"; "" is the cheapest
	Wet  bool
}

// Disconnect is a disconnecting means to fit; no Amps is none.
type Disconnect struct {
	Amps  unit.Amps
	Fused bool
}

// Management is an energy-management device; no Method is none.
type Management struct {
	Method string // "load_switch", "load_shed", "measured_limit", "shared_circuit"
	Amps   unit.Amps
}

// Service is a service upgrade, or a new panelboard at the same rating where
// From equals To. It is its own bill; no To is none.
type Service struct {
	From, To unit.Amps
	Feed     string // "oh", "ug"
	// Surge and EmergencyDisconnect are fitted where the edition asks for them.
	Surge               bool
	EmergencyDisconnect bool
	Electrodes          Electrodes // beside those of the kit: pipes to bond
}

// Route is where the circuit runs.
type Route struct {
	Segments    []Segment // from the panel to the car
	PanelDrop   unit.Feet // from the panel to the level of the run
	DeviceDrop  unit.Feet // from the level of the run to the device
	Firestops   int       // separations pierced
	WoodWalls   int       // framed walls drilled, sleeved and sealed
	Masonry     int       // masonry walls cored
	Entries     int       // raceway entries from outside to seal
	AccessHoles int       // holes cut in finished surfaces
	Patches     int       // holes patched by the shop
	Surface     string    // "gypsum", "plaster", "stucco", "wood_siding", "brick"; of the patches
}

// Segment is one part of the route.
type Segment struct {
	Kind   SegmentKind
	Feet   unit.Feet // 0 to 2000
	Wiring int       // index into Design.Wiring
}

// SegmentKind is what the run goes through there.
type SegmentKind uint8

const (
	// Open: bare joists or studs.
	Open SegmentKind = iota
	// Fished: inside a finished wall or ceiling.
	Fished
	// Attic: across an attic.
	Attic
	// Crawl: through a crawl space.
	Crawl
	// Surface: on the face of a wall.
	Surface
	// TrenchLawn: dug by machine through lawn.
	TrenchLawn
	// TrenchHand: dug by hand through lawn.
	TrenchHand
	// TrenchBed: dug by hand through a planted bed.
	TrenchBed
	// TrenchGravel: through a gravel drive.
	TrenchGravel
	// TrenchConcrete: under concrete, cut and poured back.
	TrenchConcrete
	// TrenchAsphalt: under asphalt, cut and patched.
	TrenchAsphalt
	// TrenchPavers: under pavers, lifted and laid again.
	TrenchPavers
	segmentKinds
)

// Conditions are the things that make hours longer, at most one per group.
// The zero of each group is: no such factor applies.
type Conditions struct {
	House, Height, Attic, Crawl, Masonry, Soil, Panel Condition
}

// Condition is the code of a factor in the price book, "house.before_1960".
type Condition string

// PermitSet is what a permit is asked for.
type PermitSet uint8

const (
	// PermitCircuit: a new or altered branch circuit.
	PermitCircuit PermitSet = 1 << iota
	// PermitService: a service upgrade.
	PermitService
	// PermitSubpanel: a feeder or subpanel.
	PermitSubpanel
)

// LabelSet is the labels to fix.
type LabelSet uint8

const (
	LabelCircuit LabelSet = 1 << iota
	LabelSetting
	LabelDisconnect
	LabelUnderground
	LabelManagement
	LabelDirectory // of a new panel's circuits
)

// Discount is an amount taken off the lines of some classes, spread over them
// by largest remainder. Permit and tax are never discounted.
type Discount struct {
	Minor int64
	Over  ClassSet
}
