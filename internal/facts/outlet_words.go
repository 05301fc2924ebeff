package facts

// OutletPresent is whether an outlet stands within reach, and which kind. Zero is no word at all.
type OutletPresent uint8

const (
	OutletPresentNone OutletPresent = iota + 1
	OutletPresentNormal
	OutletPresentBig
)

var outletPresentWords = []string{
	"none", "normal", "big",
}

// String is the word itself.
func (v OutletPresent) String() string { return wordAt(outletPresentWords, uint8(v)) }

// Configuration is the face of a receptacle by its NEMA configuration. Zero is no word at all.
type Configuration uint8

const (
	Configuration5x15 Configuration = iota + 1
	Configuration5x15GFCI
	Configuration1x15
	Configuration5x20
	ConfigurationTTx30
	Configuration6x15
	Configuration6x20
	Configuration6x30
	Configuration6x50
	Configuration10x30
	Configuration10x50
	Configuration14x30
	Configuration14x50
	Configuration14x60
	ConfigurationL6x20
	ConfigurationL6x30
	ConfigurationL14x30
)

var configurationWords = []string{
	"5-15", "5-15 GFCI", "1-15", "5-20", "TT-30", "6-15", "6-20", "6-30", "6-50", "10-30", "10-50", "14-30", "14-50",
	"14-60", "L6-20", "L6-30", "L14-30",
}

// String is the word itself.
func (v Configuration) String() string { return wordAt(configurationWords, uint8(v)) }

// Sharing is what else the outlet's circuit carries. Zero is no word at all.
type Sharing uint8

const (
	SharingIndividual Sharing = iota + 1
	SharingDryer
	SharingRange
	SharingAppliance
	SharingWelderBuilt
	SharingGeneralIdle
	SharingGeneralLoaded
	SharingGarageLoads
)

var sharingWords = []string{
	"individual", "dryer", "range", "appliance", "welder_built", "general_idle", "general_loaded", "garage_loads",
}

// String is the word itself.
func (v Sharing) String() string { return wordAt(sharingWords, uint8(v)) }

// CurrentUse is how a car is charged at the outlet today. Zero is no word at all.
type CurrentUse uint8

const (
	CurrentUseNo CurrentUse = iota + 1
	CurrentUseDirect
	CurrentUseExtension
	CurrentUseStrip
	CurrentUseTimer
	CurrentUseAdapter
)

var currentUseWords = []string{
	"no", "direct", "extension", "strip", "timer", "adapter",
}

// String is the word itself.
func (v CurrentUse) String() string { return wordAt(currentUseWords, uint8(v)) }

// OutletCondition is a set of faults seen at the outlet. Zero is the empty set.
type OutletCondition uint32

const (
	OutletConditionArcing OutletCondition = 1 << iota
	OutletConditionBackstabbed
	OutletConditionBareWire
	OutletConditionBurnt
	OutletConditionBuzz
	OutletConditionCracked
	OutletConditionHot
	OutletConditionLooseGrip
	OutletConditionLooseInWall
	OutletConditionMelted
	OutletConditionOpenGround
	OutletConditionPainted
	OutletConditionReversed
	OutletConditionShock
	OutletConditionSmell
	OutletConditionUngroundedThreeProng
	OutletConditionWater
	OutletConditionWorn
)

var outletConditionWords = []string{
	"arcing", "backstabbed", "bare_wire", "burnt", "buzz", "cracked", "hot", "loose_grip", "loose_in_wall", "melted",
	"open_ground", "painted", "reversed", "shock", "smell", "ungrounded_three_prong", "water", "worn",
}

// Has reports whether every word of x is in the set.
func (s OutletCondition) Has(x OutletCondition) bool { return s&x == x }

// Any reports whether some word of x is in the set.
func (s OutletCondition) Any(x OutletCondition) bool { return s&x != 0 }

// String lists the words of the set, joined by commas.
func (s OutletCondition) String() string { return joinWords(outletConditionWords, uint32(s)) }

// OutletGrade is how heavily the receptacle is built. Zero is no word at all.
type OutletGrade uint8

const (
	OutletGradeResidential OutletGrade = iota + 1
	OutletGradeIndustrial
	OutletGradeEvListed
)

var outletGradeWords = []string{
	"residential", "industrial", "ev_listed",
}

// String is the word itself.
func (v OutletGrade) String() string { return wordAt(outletGradeWords, uint8(v)) }

// OutletLocation is the kind of place the outlet stands in, for ground-fault protection. Zero is no word at all.
type OutletLocation uint8

const (
	OutletLocationIndoor OutletLocation = iota + 1
	OutletLocationGarage
	OutletLocationOutdoor
)

var outletLocationWords = []string{
	"indoor", "garage", "outdoor",
}

// String is the word itself.
func (v OutletLocation) String() string { return wordAt(outletLocationWords, uint8(v)) }

// WireSize is a conductor size in American Wire Gauge. Zero is no word at all.
type WireSize uint8

const (
	WireSize14 WireSize = iota + 1
	WireSize12
	WireSize10
	WireSize8
	WireSize6
	WireSize4
	WireSize3
	WireSize2
)

var wireSizeWords = []string{
	"14", "12", "10", "8", "6", "4", "3", "2",
}

// String is the word itself.
func (v WireSize) String() string { return wordAt(wireSizeWords, uint8(v)) }

// WireMaterial is the metal of a conductor: copper or aluminium. Zero is no word at all.
type WireMaterial uint8

const (
	WireMaterialCu WireMaterial = iota + 1
	WireMaterialAl
)

var wireMaterialWords = []string{
	"cu", "al",
}

// String is the word itself.
func (v WireMaterial) String() string { return wordAt(wireMaterialWords, uint8(v)) }

// WireMethod is how the conductors are run: nonmetallic-sheathed cable or a raceway. Zero is no word at all.
type WireMethod uint8

const (
	WireMethodNm WireMethod = iota + 1
	WireMethodRaceway
)

var wireMethodWords = []string{
	"nm", "raceway",
}

// String is the word itself.
func (v WireMethod) String() string { return wordAt(wireMethodWords, uint8(v)) }
