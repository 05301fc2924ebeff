package panel

import "daybreak/internal/unit"

// Input is one dwelling, its supply and the charger to be added, all known.
// Where a rule has a branch for not knowing, that is a word of the field.
type Input struct {
	Rules      *Rules          // the edition in force, from [Book.Rules]
	Dwelling   Dwelling        // whose sheet applies
	Stage      Stage           // an existing dwelling, or a new one
	Carries    Carries         // what the conductors under test supply
	Volts      unit.Volts      // 240, or 208 for two legs of a 208Y/120 supply
	FloorArea  unit.SquareFeet // 100 to 30 000; 0 only where Carries is not [WholeDwelling]
	SmallCirc  int             // small-appliance circuits, 2 to 20; 0 only as for FloorArea
	LaundryCir int             // laundry circuits, 0 to 10; 0 with a shared laundry
	Loads      []Load          // at most 64 entries, nameplates
	Heat       Heat
	Cooling    unit.VoltAmps // the larger cooling load that can run at once, 0 to 200 000
	Change     Change        // whether the job also adds heating or cooling
	Supply     Ratings
	Protection Protection
	Chargers   []Charger // the chargers this job adds, at most 4; none asks about the house as it is
	Management Management
	Measured   Measured
	Source     Backfeed
	Spaces     Spaces
}

// Dwelling is the kind of home, as far as a load calculation asks.
type Dwelling uint8

// The kinds of home.
const (
	House Dwelling = iota
	Row
	Flat
	Mobile
	OtherDwelling
)

// Stage says whether the dwelling stands already; 220.83 is for those that do.
type Stage uint8

// The stages.
const (
	Existing Stage = iota
	NewDwelling
)

// Carries says what the supply conductors under test feed.
type Carries uint8

const (
	// WholeDwelling is a service or feeder that carries all of one dwelling.
	WholeDwelling Carries = iota
	// PartOfDwelling is a subpanel or garage feeder: general method only.
	PartOfDwelling
	// HousePanel is an apartment building's common panel: general method only.
	HousePanel
)

// Change says whether heating or cooling is added with the charger, which
// turns 220.83(A) into 220.83(B).
type Change uint8

// The changes.
const (
	NothingElse Change = iota
	HeatingOrCoolingAdded
)

// Protection is what the panel protects its circuits with.
type Protection uint8

// The kinds of protection.
const (
	Breakers Protection = iota
	Fuses
	BreakersAndFuses
)

// Load is an appliance at its nameplate. A gas appliance is left out.
type Load struct {
	Kind  LoadKind
	VA    unit.VoltAmps // each, 0 to 60 000
	Count int           // 1 to 20
}

// HeatKind is how electricity heats the dwelling.
type HeatKind uint8

const (
	// NoElectricHeat: fuel or none; the other fields of [Heat] are not read. The
	// furnace fan is a [Load].
	NoElectricHeat HeatKind = iota
	// HeatPumpAlone has no supplementary electric heat.
	HeatPumpAlone
	// HeatPumpWithStrips has supplementary electric heat in a central system.
	HeatPumpWithStrips
	// Resistance is baseboard, wall or furnace heat.
	Resistance
	// Storage is thermal storage, or heat expected to run continuously.
	Storage
)

// Heat is the electric space heating.
type Heat struct {
	Kind       HeatKind
	VA         unit.VoltAmps // resistance or storage heat in all, or the strips; 0 to 200 000
	Units      int           // separately controlled units of resistance heat; a central furnace is one
	Compressor unit.VoltAmps // of a heat pump, with its fan; 0 to 100 000
	Interlock  Interlock
}

// Interlock says whether a heat pump's compressor can run with its strips.
type Interlock uint8

// The interlocks; running together is the safe one where nobody knows.
const (
	RunsWithStrips Interlock = iota
	NeverWithStrips
)

// Ratings are the currents that limit a supply, each 15 to 1200 A. See [Rated].
// For a feeder they are the feeder's device, subpanel main, bus and conductors.
type Ratings struct {
	Service    unit.Amps // the rating of the service or feeder
	Main       unit.Amps // the main device's handle, derated or not
	Bus        unit.Amps // the panelboard's bus
	Conductors unit.Amps // the rating the supply conductors may serve (310.12), see [Rules.ConductorsServe]
	Meter      unit.Amps // the meter socket or the utility's limit
}

// Rated gives the ratings of a supply whose parts are all of one size.
func Rated(a unit.Amps) Ratings { return Ratings{a, a, a, a, a} }

// Charger is one circuit for charging that the job adds. Two chargers that
// share a limit by listed load sharing are one Charger at the shared maximum.
type Charger struct {
	Plate   Plate
	Setting unit.Amps  // nameplate, or the setting that counts by 625.42; 1 to 80 A
	Volts   unit.Volts // 120, or the supply's own volts
	Circuit Circuit
}

// Plate says whether the charger's rating is known.
type Plate uint8

// Whether the rating is known. An unknown plate is accepted only in editions
// that give a load for it.
const (
	PlateKnown Plate = iota
	PlateUnknown
)

// Circuit says whether the charger needs new spaces in the panel.
type Circuit uint8

// The circuits.
const (
	NewCircuit Circuit = iota
	ExistingCircuit
)

// Management is an energy management system that measures the service and
// throttles the chargers of the job.
type Management struct {
	Kind     ManagementKind
	Setpoint unit.Amps // what the service is held to; a continuous load
	FailSafe unit.Amps // what the charger falls back to when the signal is lost; 0 is off
}

// ManagementKind says whether the chargers are managed.
type ManagementKind uint8

// The kinds of management.
const (
	Unmanaged ManagementKind = iota
	MeasuredService
)

// Measured is the demand the utility or a recorder measured.
type Measured struct {
	Record      Record
	Peak        unit.Kilowatts // highest demand over the interval, 0.1 to 200
	IntervalMin int            // 15, 30 or 60 minutes
	Generation  Generation     // what a peak in a house with a source counts
	Added       Added          // heat, cooling or a car since
}

// Record is how long demand was recorded.
type Record uint8

// The records.
const (
	NoRecord Record = iota
	OneYear
	ThirtyDays
)

// Generation says whether a measured peak counts the house's demand with any
// solar or battery output added back.
type Generation uint8

// The words for a measured peak. They matter only where there is a source.
const (
	GenerationUnknown Generation = iota
	GrossOfGeneration
	NetOfGeneration
)

// Added says whether heat, cooling or a car was added since the record.
type Added uint8

// The words for loads added since.
const (
	NothingAdded Added = iota
	LoadAdded
)

// Backfeed is a source connected on the load side of the main.
type Backfeed struct {
	Kind         SourceKind
	Output       unit.Amps // continuous output current; breaker ÷ 1.25 where only that is known
	Place        Place
	Accepted     BusRule   // the rule the installation was accepted by
	LoadBreakers unit.Amps // sum of all breakers on the bus but the main, source included; for [SumOfBreakers]
}

// SourceKind is what feeds back.
type SourceKind uint8

// The sources.
const (
	NoSource SourceKind = iota
	Solar
	Battery
	SolarAndBattery
)

// Place is where a source's breaker sits on the bus.
type Place uint8

// The places; unknown counts as not at the far end.
const (
	PlaceUnknown Place = iota
	FarEnd
	ElsewhereOnBus
)

// Spaces are the free breaker spaces of the panel.
type Spaces struct {
	Seen   Seen
	Free   int // free full-size spaces, 0 to 84
	Tandem Tandem
}

// Seen says whether somebody counted the spaces.
type Seen uint8

// Whether spaces were counted.
const (
	NotSeen Seen = iota
	Counted
)

// Tandem says whether the panel's label allows tandem breakers in places that
// would help.
type Tandem uint8

// The words for tandems; unknown counts as not allowed.
const (
	TandemUnknown Tandem = iota
	TandemAllowed
	TandemBarred
)
