package facts

// CodeEdition is the year of the electrical code the permit is judged by. Zero is no word at all.
type CodeEdition uint8

const (
	CodeEdition2017 CodeEdition = iota + 1
	CodeEdition2020
	CodeEdition2023
	CodeEdition2026
)

var codeEditionWords = []string{
	"2017", "2020", "2023", "2026",
}

// String is the word itself.
func (v CodeEdition) String() string { return wordAt(codeEditionWords, uint8(v)) }

// ClimateZone is the building climate region of the home. Zero is no word at all.
type ClimateZone uint8

const (
	ClimateZoneVeryColdCold ClimateZone = iota + 1
	ClimateZoneMixedHumid
	ClimateZoneMixedDryHotDry
	ClimateZoneHotHumid
	ClimateZoneMarine
)

var climateZoneWords = []string{
	"very_cold_cold", "mixed_humid", "mixed_dry_hot_dry", "hot_humid", "marine",
}

// String is the word itself.
func (v ClimateZone) String() string { return wordAt(climateZoneWords, uint8(v)) }

// DangerSign is a set of signs seen at an outlet or the breaker box; some halt the quote. Zero is the empty set.
type DangerSign uint32

const (
	DangerSignHot DangerSign = 1 << iota
	DangerSignBurnt
	DangerSignBuzz
	DangerSignWet
	DangerSignLoose
	DangerSignCracked
	DangerSignTrips
	DangerSignTold
)

var dangerSignWords = []string{
	"hot", "burnt", "buzz", "wet", "loose", "cracked", "trips", "told",
}

// Has reports whether every word of x is in the set.
func (s DangerSign) Has(x DangerSign) bool { return s&x == x }

// Any reports whether some word of x is in the set.
func (s DangerSign) Any(x DangerSign) bool { return s&x != 0 }

// String lists the words of the set, joined by commas.
func (s DangerSign) String() string { return joinWords(dangerSignWords, uint32(s)) }

// Reported is a set of things the household mentioned that raise a caution. Zero is the empty set.
type Reported uint32

const (
	ReportedAluminiumBranch Reported = 1 << iota
	ReportedBadInsulation
	ReportedBatteryWarning
	ReportedBumper
	ReportedBuriedUnknown
	ReportedCableAcrossPath
	ReportedCableDamaged
	ReportedCableTrip
	ReportedChargerTrips
	ReportedChildren
	ReportedCombustibles
	ReportedFloods
	ReportedHeartDevice
	ReportedHotGarage
	ReportedKnobAndTube
	ReportedNmOutdoors
	ReportedOpenSplices
	ReportedPlateBroken
	ReportedTingle
	ReportedUnpermitted
	ReportedVapour
	ReportedWaterNear
)

var reportedWords = []string{
	"aluminium_branch", "bad_insulation", "battery_warning", "bumper", "buried_unknown", "cable_across_path",
	"cable_damaged", "cable_trip", "charger_trips", "children", "combustibles", "floods", "heart_device", "hot_garage",
	"knob_and_tube", "nm_outdoors", "open_splices", "plate_broken", "tingle", "unpermitted", "vapour", "water_near",
}

// Has reports whether every word of x is in the set.
func (s Reported) Has(x Reported) bool { return s&x == x }

// Any reports whether some word of x is in the set.
func (s Reported) Any(x Reported) bool { return s&x != 0 }

// String lists the words of the set, joined by commas.
func (s Reported) String() string { return joinWords(reportedWords, uint32(s)) }

// DwellingKind is the kind of home. Zero is no word at all.
type DwellingKind uint8

const (
	DwellingKindHouse DwellingKind = iota + 1
	DwellingKindRow
	DwellingKindFlat
	DwellingKindMobile
	DwellingKindOther
)

var dwellingKindWords = []string{
	"house", "row", "flat", "mobile", "other",
}

// String is the word itself.
func (v DwellingKind) String() string { return wordAt(dwellingKindWords, uint8(v)) }

// Tenure is how the household holds the home. Zero is no word at all.
type Tenure uint8

const (
	TenureOwn Tenure = iota + 1
	TenureRent
	TenureAssoc
)

var tenureWords = []string{
	"own", "rent", "assoc",
}

// String is the word itself.
func (v Tenure) String() string { return wordAt(tenureWords, uint8(v)) }

// Permission is whether the owner or board has agreed to the work. Zero is no word at all.
type Permission uint8

const (
	PermissionWritten Permission = iota + 1
	PermissionAsked
	PermissionNotYet
	PermissionRefused
)

var permissionWords = []string{
	"written", "asked", "not_yet", "refused",
}

// String is the word itself.
func (v Permission) String() string { return wordAt(permissionWords, uint8(v)) }

// Parking is where the car stands at night. Zero is no word at all.
type Parking uint8

const (
	ParkingAttached Parking = iota + 1
	ParkingDetached
	ParkingCarport
	ParkingDriveway
	ParkingShared
	ParkingStreet
)

var parkingWords = []string{
	"attached", "detached", "carport", "driveway", "shared", "street",
}

// String is the word itself.
func (v Parking) String() string { return wordAt(parkingWords, uint8(v)) }

// Mounting is where the charging equipment will hang. Zero is no word at all.
type Mounting uint8

const (
	MountingInside Mounting = iota + 1
	MountingOutside
	MountingPost
)

var mountingWords = []string{
	"inside", "outside", "post",
}

// String is the word itself.
func (v Mounting) String() string { return wordAt(mountingWords, uint8(v)) }

// DetachedFeed is what feeds the detached building today. Zero is no word at all.
type DetachedFeed uint8

const (
	DetachedFeedNone DetachedFeed = iota + 1
	DetachedFeedTwoWire
	DetachedFeedThreeWire
	DetachedFeedFourWire
)

var detachedFeedWords = []string{
	"none", "two_wire", "three_wire", "four_wire",
}

// String is the word itself.
func (v DetachedFeed) String() string { return wordAt(detachedFeedWords, uint8(v)) }

// ServiceFeed is how the utility's conductors reach the home. Zero is no word at all.
type ServiceFeed uint8

const (
	ServiceFeedOverhead ServiceFeed = iota + 1
	ServiceFeedUnderground
)

var serviceFeedWords = []string{
	"overhead", "underground",
}

// String is the word itself.
func (v ServiceFeed) String() string { return wordAt(serviceFeedWords, uint8(v)) }

// Generator is how a standby generator is connected, if there is one. Zero is no word at all.
type Generator uint8

const (
	GeneratorNone Generator = iota + 1
	GeneratorInterlock
	GeneratorTransfer
	GeneratorUnsafe
)

var generatorWords = []string{
	"none", "interlock", "transfer", "unsafe",
}

// String is the word itself.
func (v Generator) String() string { return wordAt(generatorWords, uint8(v)) }

// IncomeBand is household income as a share of the area median, in percent. Zero is no word at all.
type IncomeBand uint8

const (
	IncomeBandTo80 IncomeBand = iota + 1
	IncomeBandTo150
	IncomeBandAbove
)

var incomeBandWords = []string{
	"to_80", "to_150", "above",
}

// String is the word itself.
func (v IncomeBand) String() string { return wordAt(incomeBandWords, uint8(v)) }
