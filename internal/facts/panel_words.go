package facts

// PanelLocation is where the breaker box stands. Zero is no word at all.
type PanelLocation uint8

const (
	PanelLocationGarage PanelLocation = iota + 1
	PanelLocationOtherSide
	PanelLocationBasement
	PanelLocationUtility
	PanelLocationOutside
	PanelLocationCloset
	PanelLocationBath
	PanelLocationFar
	PanelLocationMeterRoom
	PanelLocationPedestal
)

var panelLocationWords = []string{
	"garage", "other_side", "basement", "utility", "outside", "closet", "bath", "far", "meter_room", "pedestal",
}

// String is the word itself.
func (v PanelLocation) String() string { return wordAt(panelLocationWords, uint8(v)) }

// Protection is what protects the circuits. Zero is no word at all.
type Protection uint8

const (
	ProtectionBreakers Protection = iota + 1
	ProtectionFuses
	ProtectionBoth
)

var protectionWords = []string{
	"breakers", "fuses", "both",
}

// String is the word itself.
func (v Protection) String() string { return wordAt(protectionWords, uint8(v)) }

// Crowding is how hard the panel is to work in. Zero is no word at all.
type Crowding uint8

const (
	CrowdingTidy Crowding = iota + 1
	CrowdingCrowded
	CrowdingObsoleteType
)

var crowdingWords = []string{
	"tidy", "crowded", "obsolete_type",
}

// String is the word itself.
func (v Crowding) String() string { return wordAt(crowdingWords, uint8(v)) }

// PanelTrouble is a set of troubles at the panel or service. Zero is the empty set.
type PanelTrouble uint32

const (
	PanelTroubleWet PanelTrouble = 1 << iota
	PanelTroubleTrips
	PanelTroubleTold
	PanelTroubleSplitBus
	PanelTroubleDoubleTap
	PanelTroubleOpenFront
	PanelTroubleOnFailureList
	PanelTroubleDims
	PanelTroubleMixedBreakers
	PanelTroubleBlocked
	PanelTroubleNoElectrode
	PanelTroubleDropDamaged
	PanelTroubleMeterDamaged
)

var panelTroubleWords = []string{
	"wet", "trips", "told", "split_bus", "double_tap", "open_front", "on_failure_list", "dims", "mixed_breakers",
	"blocked", "no_electrode", "drop_damaged", "meter_damaged",
}

// Has reports whether every word of x is in the set.
func (s PanelTrouble) Has(x PanelTrouble) bool { return s&x == x }

// Any reports whether some word of x is in the set.
func (s PanelTrouble) Any(x PanelTrouble) bool { return s&x != 0 }

// String lists the words of the set, joined by commas.
func (s PanelTrouble) String() string { return joinWords(panelTroubleWords, uint32(s)) }

// HeatKind is the main heat of the home. Zero is no word at all.
type HeatKind uint8

const (
	HeatKindFuel HeatKind = iota + 1
	HeatKindHeatPump
	HeatKindHpStrips
	HeatKindDuctless
	HeatKindFurnace
	HeatKindBaseboard
	HeatKindNone
)

var heatKindWords = []string{
	"fuel", "heat_pump", "hp_strips", "ductless", "furnace", "baseboard", "none",
}

// String is the word itself.
func (v HeatKind) String() string { return wordAt(heatKindWords, uint8(v)) }

// CoolKind is how the home is cooled. Zero is no word at all.
type CoolKind uint8

const (
	CoolKindNone CoolKind = iota + 1
	CoolKindWindow
	CoolKindCentral
	CoolKindMini
)

var coolKindWords = []string{
	"none", "window", "central", "mini",
}

// String is the word itself.
func (v CoolKind) String() string { return wordAt(coolKindWords, uint8(v)) }

// BackfeedKind is what else feeds the panel. Zero is no word at all.
type BackfeedKind uint8

const (
	BackfeedKindNone BackfeedKind = iota + 1
	BackfeedKindSolar
	BackfeedKindBattery
	BackfeedKindBoth
)

var backfeedKindWords = []string{
	"none", "solar", "battery", "both",
}

// String is the word itself.
func (v BackfeedKind) String() string { return wordAt(backfeedKindWords, uint8(v)) }

// ReadyForCar is what was left for a car when the home was wired. Zero is no word at all.
type ReadyForCar uint8

const (
	ReadyForCarNone ReadyForCar = iota + 1
	ReadyForCarRaceway
	ReadyForCarCircuit
)

var readyForCarWords = []string{
	"none", "raceway", "circuit",
}

// String is the word itself.
func (v ReadyForCar) String() string { return wordAt(readyForCarWords, uint8(v)) }

// MeterOwner is whose meter the panel hangs on. Zero is no word at all.
type MeterOwner uint8

const (
	MeterOwnerOwn MeterOwner = iota + 1
	MeterOwnerBuilding
)

var meterOwnerWords = []string{
	"own", "building",
}

// String is the word itself.
func (v MeterOwner) String() string { return wordAt(meterOwnerWords, uint8(v)) }

// MeterLocation is where the meter stands. Zero is no word at all.
type MeterLocation uint8

const (
	MeterLocationWithPanel MeterLocation = iota + 1
	MeterLocationOtherWall
	MeterLocationMeterRoom
	MeterLocationPole
)

var meterLocationWords = []string{
	"with_panel", "other_wall", "meter_room", "pole",
}

// String is the word itself.
func (v MeterLocation) String() string { return wordAt(meterLocationWords, uint8(v)) }

// Approver is who may approve the work. Zero is no word at all.
type Approver uint8

const (
	ApproverSelf Approver = iota + 1
	ApproverLandlord
	ApproverAssociation
	ApproverPark
)

var approverWords = []string{
	"self", "landlord", "association", "park",
}

// String is the word itself.
func (v Approver) String() string { return wordAt(approverWords, uint8(v)) }

// Fuel is what an appliance runs on; none is a told absence. Zero is no word at all.
type Fuel uint8

const (
	FuelNone Fuel = iota + 1
	FuelElectric
	FuelGas
)

var fuelWords = []string{
	"none", "electric", "gas",
}

// String is the word itself.
func (v Fuel) String() string { return wordAt(fuelWords, uint8(v)) }
