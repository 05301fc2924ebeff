package circuit

import (
	"daybreak/internal/edition"
	"daybreak/internal/unit"
)

// Outcome is how a design ended.
type Outcome uint8

// The outcomes. NotServed: the design needs a method this room does not size
// yet; a quote on it stands at most subject to a site check. Impossible: no
// candidate meets all limits; see Result.Losers and Result.WouldDo.
const (
	Designed Outcome = iota + 1
	NotServed
	Impossible
)

// Result is a finished design: the circuit, why it is so, what else was
// weighed, and the material it takes.
type Result struct {
	Outcome Outcome
	Reason  Reason   // why not served or impossible
	WouldDo []Remedy // what would make an impossible job possible
	// MostHere is the largest standard setting this job could carry as it
	// stands; 0 unless Impossible and there is one.
	MostHere unit.Amps

	Load   unit.Amps // current the charger counts for, the plate's or the setting
	Design unit.Amps // load × continuous factor
	Device unit.Amps // overcurrent device
	Poles  int       // 1 at 120 V, else 2

	Chosen     Candidate   // zero unless Designed
	Candidates []Candidate // all that meet every limit, best first
	Losers     []Candidate // those that fail, with the limits they fail

	Hardwired   bool
	Receptacle  Receptacle // zero when hardwired
	GroundFault edition.Cited[edition.Requirement]
	GFCI        bool // a GFCI breaker is priced: required, or the safer reading
	Disconnect  bool
	Individual  bool        // the circuit serves nothing else
	Coupler     unit.Inches // least height of the stored connector
	// StructureDisconnect is needed where the circuit reaches another building.
	StructureDisconnect bool
	Labels              LabelSet
	Notes               []Note // said beside the circuit, in order of weight
	Takeoff             Takeoff
}

// Receptacle is the outlet a plug-in charger needs.
type Receptacle struct {
	Config           string // "14-50"
	Amps             unit.Amps
	Neutral          bool // four-wire: a neutral is pulled
	TamperResistant  bool
	WeatherResistant bool
	InUseCover       bool // outdoors, weatherproof with the plug in
}

// Candidate is one way to build the circuit, sized.
type Candidate struct {
	Parts       [mostParts]Part // those past a last change of method are zero
	Box         bool            // a junction box at each change of method
	DropVolts   unit.Volts
	DropPercent float64
	Fails       Limit     // limits not met; 0 for a candidate that will do
	Column      Column    // what the terminals were taken at
	Device      unit.Amps // as in the result, so a cost needs only this
	Poles       int
	GFCI        bool
	Hardwired   bool
	Receptacle  Receptacle // zero when hardwired
	Disconnect  bool
	Labels      LabelSet
	Place       edition.Place
	Rank        float64 // as Job.Cost gave it, or the material order
	// StructureDisconnect is needed where the circuit reaches another building;
	// one device may serve both duties.
	StructureDisconnect bool
	Whip                unit.Feet // flexible at the charger, of the last part
	WhipTrade           edition.Trade
	Separations         int
	fed                 *Fed      // of a feeder
	route               []stretch // drops merged in
	spans               [mostParts]span
	raised              bool // a hot is larger than the tests asked for
	anyMark             bool // a ground is right for marked terminals too
}

// Part is a stretch wired one way.
type Part struct {
	Method  edition.Method
	Raceway edition.Raceway // NoRaceway for cable
	Trade   edition.Trade   // "" for cable
	// Riser is the raceway where a buried run comes out of the ground, and
	// wherever Raceway would be hit; the sleeve of a buried cable.
	Riser       edition.Raceway
	FillPercent float64
	Metal       edition.Material // of the hots and the neutral
	Hot         edition.Size     // each hot
	Ground      edition.Size
	Neutral     bool
	Wet         bool // outside or buried: wet-rated fittings
	Feet        unit.Feet
	Ampacity    unit.Amps    // in its surroundings
	Terminals   unit.Amps    // at its terminals
	minimum     edition.Size // of the hots, before any increase
}

// Conductors is how many insulated conductors the part has, without the
// grounding conductor: 2, or 3 with a neutral.
func (p *Part) Conductors() int {
	if p.Neutral {
		return 3
	}
	return 2
}

// Column is the terminal column a candidate was sized at.
type Column uint8

// The columns. AssumesMarked fails until both ends are seen to be marked.
const (
	SixtyColumn Column = iota + 1
	MarkedColumn
	AssumesMarked
)

// Limit is a set of limits a candidate does not meet.
type Limit uint16

// The limits, in the order of the design.
const (
	FailsTerminals  Limit = 1 << iota // table ampacity at the terminals below 125 % of the load
	FailsConditions                   // corrected ampacity below the load
	FailsProtection                   // device larger than the conductor may have
	FailsDrop                         // voltage drop above the limit
	FailsGround                       // a cable's grounding conductor is too small
	FailsFill                         // no trade size holds it
	FailsPlace                        // the method may not be used on this route
	FailsMarking                      // right only if both ends are marked 75 °C
	FailsStock                        // the shop does not sell it
	FailsSize                         // the method does not come in a size large enough
)

// Reason is why there is no design, from a closed list; its words are the
// edge's.
type Reason uint8

// The reasons.
const (
	NoReason             Reason = iota
	UndergroundRoute            // a trench of which nobody said what lies over it
	OtherMethodWanted           // only methods not sized here were allowed
	TooManyChanges              // the route would change method more than twice
	NoMethodFits                // no allowed method may be used on this route
	NoConductor                 // no size passes all tests
	DropTooHigh                 // no size holds the voltage drop
	DeviceAboveEquipment        // the charger's instructions allow no breaker that large
	NoReceptacle                // no receptacle of that kind fits the device
	NothingStocked              // every candidate is outside the shop's stock
	SecondSupply                // the building has a supply: it gets one feeder instead
	TooShallow                  // no wiring may lie as shallow as can be dug there
)

// Remedy is one thing that would make an impossible job possible.
type Remedy uint8

// The remedies.
const (
	LowerSetting Remedy = iota + 1
	AllowRaceway
	CheckMarking
	Hardwire
	LargerPlug
	ShorterRoute
	AskElectrician
	OneFeeder
	DigDeeper
	LargerConductor
)

// LabelSet is a set of labels the circuit needs.
type LabelSet uint8

// The labels.
const (
	CircuitLabel    LabelSet = 1 << iota // circuit directory
	SettingLabel                         // the restricted setting is shown
	DisconnectLabel                      // where the disconnect is
	BuriedLabel                          // where the buried run is
)

// Note is something said beside the circuit, from a closed list.
type Note uint8

// The notes.
const (
	NoteAskAHJGroundFault   Note = iota + 1 // two readings; the GFCI breaker is priced
	NoteSettingDoesNotCount                 // the plate counts, not the setting
	NoteHardwiredAbove40                    // above 40 A the charger is hardwired
	NoteHardwiredOutdoors                   // contact and weather, not to escape ground-fault protection
	NoteTorque                              // tighten to the marked torque
	NoteCheckMarking                        // marked ends would allow a smaller conductor
	NoteDropRaised                          // a larger size for voltage drop
	NoteExposedWall                         // cable low on a wall may be hit: raceway priced; heights are local practice
	NoteNoCableOutdoors                     // cable may not be wet, in raceway neither
	NoteNoCableInConcrete
	NoteLicensed            // licensed electrician and local authority decide
	NoteStructureDisconnect // a disconnect at the building, no electrode needed
	NoteSecondSupplyForCars // an extra supply for listed equipment may exist: ask the AHJ
	NoteCallBeforeDigging   // the utilities mark their lines first
	NoteGroundWhicheverMark // the ground suits the terminals, marked or not
	NoteReplaceOldSupply    // the old run is taken out: one supply to a building
	NoteNeutralApart        // neutral and ground stay apart in the panel fed
	NoteAluminiumTerminals  // terminals must be marked for aluminium
)
