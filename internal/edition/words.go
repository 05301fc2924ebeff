package edition

// Size names a conductor size of one book: its rank from small to large and
// the name printed beside it. Sizes of one book compare with == and by Rank;
// the zero Size is none. Only a book makes sizes.
type Size struct {
	rank uint8
	name string
}

// NewSize is for books: rank counts from 1, name is as printed ("8 AWG",
// "10 mm²").
func NewSize(rank int, name string) Size { return Size{rank: uint8(rank), name: name} }

// Rank is the place in the book's ladder of sizes, from 1 for the smallest.
func (s Size) Rank() int { return int(s.rank) }

// String is the size as printed, "8 AWG".
func (s Size) String() string { return s.name }

// None reports whether there is no size.
func (s Size) None() bool { return s.rank == 0 }

// Trade is the size as a price book writes it, the printed name before its
// unit: "8" for "8 AWG", "250" for "250 kcmil".
func (s Size) Trade() string {
	for i := range len(s.name) {
		if s.name[i] == ' ' {
			return s.name[:i]
		}
	}
	return s.name
}

// Material is what a conductor is made of.
type Material uint8

// The conductor metals.
const (
	Copper Material = iota + 1
	Aluminium
)

// Method is a way of wiring, as far as ampacity depends on it.
type Method uint8

// The wiring methods a book may know.
const (
	NMB         Method = iota + 1 // nonmetallic-sheathed cable, dry places
	UFB                           // underground feeder cable
	MC                            // metal-clad cable
	SER                           // service-entrance cable used inside
	THWN2                         // single conductors in raceway, 90 °C wet and dry
	XHHW2                         // single conductors in raceway, 90 °C wet and dry
	THWNWet                       // THWN without the -2, in a wet place
	methodCount = iota
)

// MethodKinds is how many wiring methods there are, for arrays indexed by Method.
const MethodKinds = methodCount + 1

// Cable reports whether the method is a cable with its own grounding
// conductor, rather than single conductors pulled into a raceway.
func (m Method) Cable() bool { return m >= NMB && m <= SER }

// Raceway is a kind of conduit or tubing.
type Raceway uint8

// The raceways a book may know. NoRaceway is a cable run by itself.
const (
	NoRaceway Raceway = iota
	EMT
	PVC40
	PVC80
	RMC
	AluminiumConduit // rigid conduit of aluminium
	IMC
	FMC
	LFMC
	LFNCA
	LFNCB
	ENT
	raceways
)

// RacewayKinds is how many kinds there are, for arrays indexed by Raceway.
const RacewayKinds = int(raceways)

// Marking is what the terminals at both ends are marked for.
type Marking uint8

// The markings. Unmarked is also the word for not knowing: both are used at
// the lower column.
const (
	Unmarked Marking = iota + 1
	Marked75
)

// Place is where the charging equipment or receptacle is.
type Place uint8

// The places, in the words of the ground-fault rules.
const (
	Indoor  Place = iota + 1 // inside, not a garage
	Garage                   // inside a garage or accessory building at or below grade
	Outdoor                  // open air, carport, outside wall
)

// Connection is how the equipment meets the circuit.
type Connection uint8

// The connections.
const (
	PlugIn    Connection = iota + 1 // by a receptacle
	Hardwired                       // permanently wired
)

// Requirement is a rule's answer where the rule may be read in two ways.
type Requirement uint8

// The answers. AskAHJ: two readings exist and the authority decides; the
// designer plans on the safer.
const (
	NotRequired Requirement = iota + 1
	Required
	AskAHJ
)

// SettingMeans is what holds the equipment below its rating plate.
type SettingMeans uint8

// The means. A phone app's slider never lowers what the circuit must carry.
const (
	RatingPlate      SettingMeans = iota + 1 // no lower setting
	RestrictedAccess                         // installer's setting behind a cover or password, with label
	AppSlider                                // the driver can change it
)

// Fastening is how the equipment is held in place.
type Fastening uint8

// The fastenings.
const (
	FixedInPlace  Fastening = iota + 1 // permanently fastened
	CordConnected                      // portable or hung, by cord and plug
)

// Run is a kind of surroundings a wiring method passes through.
type Run uint8

// The surroundings, in the words of the wiring-method articles.
const (
	DryConcealed Run = iota + 1
	UnfinishedBasement
	GarageWall
	AtticSpace
	CrawlSpace
	IndoorWall
	OutdoorWall
	Underground
	runs
)

// RunKinds is how many kinds of surroundings there are, for arrays indexed by Run.
const RunKinds = int(runs)

// Fitness is whether a method may be used in some surroundings.
type Fitness uint8

// The answers. Protected: only behind protection from physical damage.
const (
	Unfit Fitness = iota + 1
	Fit
	FitProtected
)

// Burial is what lies over or around an underground run.
type Burial uint8

// The rows of the cover table.
const (
	GeneralBurial Burial = iota + 1
	UnderTrenchConcrete
	UnderBuilding
	UnderExteriorSlab
	UnderStreet
	UnderDwellingDrive
	burials
)

// BuriedWiring is what lies in the trench.
type BuriedWiring uint8

// The columns of the cover table.
const (
	DirectBurialCable BuriedWiring = iota + 1
	MetalConduit
	NonmetallicConduit
	SmallGFCIBranch // 120 V or less, 20 A or less, with ground-fault protection
	LowVoltage      // 30 V or less
	buriedWirings
)

// BurialKinds and BuriedWiringKinds are the table's sides, for arrays.
const (
	BurialKinds       = int(burials)
	BuriedWiringKinds = int(buriedWirings)
)

// Supply is what feeds a building that is not the one of the service.
type Supply uint8

// The supplies. Both bring an equipment grounding conductor with them.
const (
	OneCircuit  Supply = iota + 1 // a single branch circuit
	OwnPanel                      // a feeder to a panel there
	supplyKinds = iota
)

// SupplyKinds is how many kinds of supply there are, for arrays indexed by Supply.
const SupplyKinds = supplyKinds + 1
