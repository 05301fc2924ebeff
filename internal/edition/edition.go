package edition

import "daybreak/internal/unit"

// Edition answers what a designer asks the code book, and says where it is
// written. An Edition is immutable and safe for concurrent use. Every method
// that returns an error returns one matching [ErrUnanswerable] when the book
// has no answer, and a fault naming the argument when it is not finite,
// negative or of no known kind.
type Edition interface {
	// Name is the book and its year as printed, "NEC 2023".
	Name() string
	Conductors
	Protection
	Grounding
	Raceways
	Structures
	Charging
}

// Conductors are the questions about what a wire may carry, and what it loses.
type Conductors interface {
	// Sizes is the book's ladder of conductors, from small to large; Sizes()[i]
	// has rank i+1. It must not be changed.
	Sizes() []Size
	// SizeNamed finds a size by its printed or trade name, "8 AWG" or "8".
	SizeNamed(name string) (Size, error)
	// TableAmpacity is the table value at a conductor temperature rating in °C,
	// no factors applied.
	TableAmpacity(Size, Material, unit.Celsius) (Cited[unit.Amps], error)
	// TerminalAmpacity is what the terminals allow: the table value of the
	// column the marking and circuit rating permit, or the method's own if lower.
	TerminalAmpacity(Wire, Marking, unit.Amps) (Cited[unit.Amps], error)
	// Ampacity is what the wire may carry in its surroundings: base column ×
	// ambient factor × adjustment factor, not above the method's cap.
	Ampacity(Wire, Surroundings) (Cited[unit.Amps], error)
	// AmbientFactor is the correction for a conductor rating at an ambient.
	AmbientFactor(rating, ambient unit.Celsius) (Cited[float64], error)
	// AdjustmentFactor is the share left with this many current-carrying
	// conductors together.
	AdjustmentFactor(currentCarrying int) (Cited[float64], error)
	// RooftopAmbient is the ambient to design for, that far above a roof in sun.
	RooftopAmbient(outdoor unit.Celsius, above unit.Inches) (Cited[unit.Celsius], error)
	// MethodSizes is the smallest and largest size the method comes in.
	MethodSizes(Method, Material) (Cited[SizeRange], error)
	// Impedance is Ze at a power factor, one way, as installed.
	Impedance(Wire, Raceway, PowerFactor) (Cited[OhmsPer1000Feet], error)
	// DropAdvice is the voltage drop the book advises at most, in per cent.
	DropAdvice() Cited[DropAdvice]
	// Area is a conductor's cross-section.
	Area(Size) (Cited[CircularMils], error)
}

// Protection are the questions about overcurrent devices.
type Protection interface {
	// NextDevice is the smallest standard rating at or above a current.
	NextDevice(unit.Amps) (Cited[unit.Amps], error)
	// LargestDevice is the largest standard device that may protect a conductor
	// of that ampacity (already corrected and limited by its terminals).
	LargestDevice(Size, Material, unit.Amps) (Cited[unit.Amps], error)
	// ContinuousFactor is what a continuous load counts for, 1.25.
	ContinuousFactor() Cited[float64]
	// ReceptacleFits tells whether one receptacle of that rating may be the only
	// one on a circuit of that rating.
	ReceptacleFits(receptacle, device unit.Amps) Cited[bool]
	// SharedReceptacleFits is the same where two or more receptacles share the
	// circuit; a duplex counts as two.
	SharedReceptacleFits(receptacle, device unit.Amps) Cited[bool]
	// ReceptacleShare is the part of a receptacle's rating a continuous current
	// may use, 0.8.
	ReceptacleShare() Cited[float64]
}

// Grounding are the questions about equipment grounding conductors.
type Grounding interface {
	// GroundingConductor is the smallest by the device ahead of it.
	GroundingConductor(device unit.Amps, m Material) (Cited[Size], error)
	// GroundingIncreased is the grounding conductor when the hots are larger
	// than the minimum the load needed.
	GroundingIncreased(device unit.Amps, m Material, minimum, installed Size) (Cited[IncreasedGround], error)
	// CableGround is the grounding conductor a cable comes with, in the metal of
	// its hots.
	CableGround(Method, Size) (Cited[Size], error)
	// ElectrodeConductor is the grounding electrode conductor by the largest
	// service conductor; the answer is a size in each metal.
	ElectrodeConductor(Size, Material) (Cited[ElectrodeSizes], error)
}

// Raceways are the questions about where wiring goes and what it fills.
type Raceways interface {
	// RacewayFor is the smallest trade size that holds the contents.
	RacewayFor(Raceway, Contents) (Cited[Filled], error)
	// RacewayCount is how many like conductors a trade size holds.
	RacewayCount(Raceway, Trade, Method, Size) (Cited[int], error)
	// SleeveFor is the smallest trade size of conduit that guards one cable.
	SleeveFor(cable Method, s Size, conductors int) (Cited[Trade], error)
	// BoxFill is the volume the contents of a box need.
	BoxFill(BoxContents) (Cited[CubicInches], error)
	// BoxFor is the smallest listed box for a volume.
	BoxFor(CubicInches) (Cited[Box], error)
	// Supports is how the method is fastened.
	Supports(Method, Raceway, Trade) (Cited[Supports], error)
	// FitIn is whether a method may be used in some surroundings.
	FitIn(Method, Raceway, Run) Cited[Fitness]
	// CoverDepth is the least cover of a buried run.
	CoverDepth(Burial, BuriedWiring) (Cited[Cover], error)
	// Bends is the most degrees of bend between pull points.
	Bends() Cited[float64]
}

// Structures are the questions about what is fed beyond the service: a detached
// building, or a panel that hangs on another.
type Structures interface {
	// Supplies is how many feeders or branch circuits may supply one building.
	Supplies() Cited[int]
	// StructureDisconnect is the least rating of the disconnecting means at a
	// building.
	StructureDisconnect(Supply) Cited[unit.Amps]
	// StructureRods is how many ground rods a building needs where nobody has
	// measured that one will do.
	StructureRods(Supply) Cited[int]
	// RodConductor is the largest conductor a rod ever needs, copper.
	RodConductor() Cited[Size]
	// EmergingHeight is how high above ground a buried run is guarded where it
	// comes up.
	EmergingHeight() Cited[unit.Feet]
	// EmergingDepth is how far below ground a cable's guard starts at most.
	EmergingDepth() Cited[unit.Inches]
}

// Charging are the questions about electric vehicle supply equipment.
type Charging interface {
	// SettingCounts tells whether a setting below the rating plate is the load.
	SettingCounts(SettingMeans, Fastening) Cited[bool]
	// ChargerLoad is the load a known rating counts for in a load calculation.
	ChargerLoad(unit.VoltAmps) Cited[unit.VoltAmps]
	// UnknownChargerLoad is the load when no rating is known.
	UnknownChargerLoad() (Cited[unit.VoltAmps], error)
	// IndividualCircuit tells whether the outlet needs a circuit of its own.
	IndividualCircuit(unit.Amps, unit.Volts) Cited[bool]
	// GroundFault tells whether a class A device is needed upstream.
	GroundFault(Place, Connection, unit.Amps) (Cited[Requirement], error)
	// Disconnect tells whether a disconnecting means is needed at the equipment.
	Disconnect(Connection, unit.Amps) Cited[bool]
	// CouplerHeight is the least height of the stored connector.
	CouplerHeight(Place) Cited[unit.Inches]
	// TamperResistant and WeatherResistant are about a nonlocking receptacle;
	// the second holds outdoors.
	TamperResistant(receptacle unit.Amps) Cited[bool]
	WeatherResistant(receptacle unit.Amps) Cited[bool]
	// PlugInLimit is the largest output offered with a plug, 40 A.
	PlugInLimit() Cited[unit.Amps]
	// SmallestSetting is the least a charger can be set to, 6 A.
	SmallestSetting() Cited[unit.Amps]
	// Faces are the receptacle configurations the book knows, small to large.
	// The slice must not be changed.
	Faces() []Cited[Face]
}

// Wire is a conductor as installed: how it is run, how large, of what.
type Wire struct {
	Method   Method
	Size     Size
	Material Material
}

// Surroundings are what takes away from a wire's ampacity.
type Surroundings struct {
	Ambient         unit.Celsius // hottest air along the run
	CurrentCarrying int          // conductors that count, together in one raceway or cable; at least 1
}

// PowerFactor is how an impedance is taken.
type PowerFactor struct {
	// Value is 0 < pf ≤ 1 for R·pf + X·sin(arccos pf).
	Value float64
	// Printed takes the table's own effective column at 0.85 instead.
	Printed bool
}

// SizeRange is the smallest and largest size a method comes in. A zero Size
// leaves that end to the book's ladder.
type SizeRange struct{ Smallest, Largest Size }

// DropAdvice is in per cent of the nominal voltage.
type DropAdvice struct{ BranchPercent, TotalPercent float64 }

// IncreasedGround is a grounding conductor raised with its hots.
type IncreasedGround struct {
	Need CircularMils // in proportion of circular mils
	Size Size         // first at or above, never larger than the hots
}

// ElectrodeSizes is the electrode conductor in each metal.
type ElectrodeSizes struct{ Copper, Aluminium Size }

// Trade is a raceway's trade size, such as "3/4".
type Trade string

// Pull is a number of like conductors in a raceway. Method names the
// insulation; for a bare conductor set Bare.
type Pull struct {
	Count  int
	Size   Size
	Method Method
	Bare   bool
}

// Contents is what one raceway holds, grounding conductor included. Nipple
// marks a piece of 24 in or less between enclosures.
type Contents struct {
	Pulls  [4]Pull
	Nipple bool
}

// Filled is the raceway found and how full it is.
type Filled struct {
	Trade       Trade
	FillPercent float64
}

// Face is a receptacle configuration.
type Face struct {
	Config  string // "14-50"
	Amps    unit.Amps
	Volts   unit.Volts // nominal, 120 or 240; a 240 V face serves 208 V
	Neutral bool
	Ground  bool // has an equipment ground
	New     bool // may be given to a new charging circuit
}

// BoxContents is what takes volume in a box: conductors that end or are
// spliced, grounding conductors, internal clamps (by the largest conductor),
// and a device (by its largest conductor, with the gangs it needs).
type BoxContents struct {
	Conductors [4]Pull
	Grounds    [4]Pull
	Clamp      Size
	Device     Size
	Gangs      int // 0 counts as 1
}

// Box is a listed box and its volume.
type Box struct {
	Name   string
	Volume CubicInches
}

// Supports is how far apart fasteners may be, and how far the first from a box.
type Supports struct {
	Spacing unit.Feet
	FromBox unit.Inches
}
