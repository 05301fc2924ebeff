package circuit

import (
	"daybreak/internal/edition"
	"daybreak/internal/unit"
)

// Job is one branch circuit to design. Every field is known: a caller that
// does not know a value draws or assumes one and says so.
type Job struct {
	Setting    unit.Amps            // charger output as set, 6 to 80 A
	Rating     unit.Amps            // output on the rating plate; 0 when the setting is the plate's own figure
	Volts      unit.Volts           // 120, 208 or 240
	Means      edition.SettingMeans // what holds the setting below the plate
	Fastening  edition.Fastening    // how the charger is held
	Connection Connection           // plug, hardwired, or the designer's choice
	Plug       string               // configuration the charger's plug needs, "14-50"; "" for the designer's choice
	Place      edition.Place        // where the charger is
	Route      Route                // from panel to charger
	Terminals  edition.Marking      // both ends; Unmarked is also the word for not knowing
	Ambient    unit.Celsius         // hottest air along the run, −40 to 85 °C
	Concrete   bool                 // a concrete building: no cable inside framing
	Methods    MethodSet            // ways of wiring allowed; 0 for all
	// Hot is the only size of the hots that is wanted; zero for the designer's
	// choice.
	Hot edition.Size
	// OtherCurrentCarrying counts conductors of other circuits in the same
	// raceway; they are taken to be as thick as this circuit's.
	OtherCurrentCarrying int
	// Structure is how the charger's building stands to the panel's.
	Structure Structure
	// Separations counts fire-rated walls and floors the run pierces, 0 to 20.
	Separations int
	// OverRoof has the run lie in the sun RoofGap inches above a roof.
	OverRoof bool
	RoofGap  unit.Inches
	// Whip is how many feet at a hardwired charger are flexible conduit, 0 to 6.
	Whip unit.Feet
	// FeederPercent is the voltage drop spent ahead of the panel this circuit
	// starts from, 0 to 10 %.
	FeederPercent float64
	// DropPercent is the most voltage drop, above 0 to 10; 0 takes the book's advice.
	DropPercent float64
	// MaxDevice is the largest breaker the charger's instructions allow; 0 when they name none.
	MaxDevice unit.Amps
	// Devices are the breaker ratings the shop stocks, ascending; nil for every standard one.
	Devices []unit.Amps
	// Cost ranks candidates, smallest first; +Inf marks one the shop cannot
	// build, and the next size is tried. nil ranks by material. It must not
	// keep the pointer.
	Cost func(*Candidate) float64
}

// Connection is what the household wishes at the charger's end.
type Connection uint8

// The wishes. AnyConnection hardwires at 208 and 240 V and plugs in at 120 V.
const (
	AnyConnection Connection = iota
	WantReceptacle
	WantHardwired
)

// Route is the way from panel to charger, in order.
type Route struct {
	Segments   []Segment
	PanelDrop  unit.Feet // vertical at the panel, runs like the first segment
	DeviceDrop unit.Feet // vertical at the charger, runs like the last segment
}

// Segment is one stretch of a route. The last three fields are of a trench.
type Segment struct {
	Kind SegmentKind
	Feet unit.Feet
	// Over is what lies over the run; 0 where nobody said, and no trench is
	// designed then.
	Over edition.Burial
	// Ground is what is opened to dig.
	Ground Ground
	// DeepestCover that can be dug; 0 for as deep as the code asks.
	DeepestCover unit.Inches
}

// Ground is what a trench is dug through. Lawn is also the word for any earth.
type Ground uint8

// The kinds of ground.
const (
	Lawn Ground = iota
	Bed
	Gravel
	Pavers
	ConcreteSlab
	Asphalt
	grounds
)

// Structure is how the charger's building stands to the panel's.
type Structure uint8

// The structures. A circuit from a panel inside the detached building is
// SameStructure; its feeder is designed by DesignFeeder.
const (
	SameStructure   Structure = iota
	UnfedStructure            // another building or structure that has no supply today
	SuppliedAlready           // another building that has one: no second circuit may go there
	structures
)

// SegmentKind is what a stretch of route runs through.
type SegmentKind uint8

// The kinds of stretch.
const (
	OpenFraming SegmentKind = iota + 1 // unfinished framing in reach
	Fished                             // inside finished walls
	Attic
	CrawlSpace
	Surface // on a finished wall indoors or in a garage, exposed
	Outside // on an outside wall
	Trench  // underground
	segmentKinds
)

// MethodSet is a set of ways of wiring.
type MethodSet uint16

// The ways of wiring. A cable and a raceway, or two cables, may follow each
// other along a route, with a box at each change, two at most.
const (
	UseNMB MethodSet = 1 << iota
	UseEMT
	UsePVC
	UseOther // a way of wiring that is not designed here
	UseUFB   // cable buried as it is
	UseRMC
	UseMC
	UseXHHW2 // XHHW-2 instead of THWN-2 in every raceway
	UseSER   // feeders only
	methodSets
)
