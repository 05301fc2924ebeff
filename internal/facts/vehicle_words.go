package facts

// Archetype is the kind of vehicle when no model is named: a row of the archetype table. Zero is no word at all.
type Archetype uint8

const (
	ArchetypeCityHatch Archetype = iota + 1
	ArchetypeOlderHatch
	ArchetypeCompactHatch
	ArchetypeMidSedanEff
	ArchetypeMidSedanLong
	ArchetypeLuxSedan
	ArchetypeSmallSuv2wd
	ArchetypeSmallSuvAwd
	ArchetypeThreeRowSuv
	ArchetypePickupStd
	ArchetypePickupMax
	ArchetypeVan
	ArchetypePhevSedan
	ArchetypePhevSuv
)

var archetypeWords = []string{
	"city-hatch", "older-hatch", "compact-hatch", "mid-sedan-eff", "mid-sedan-long", "lux-sedan", "small-suv-2wd",
	"small-suv-awd", "three-row-suv", "pickup-std", "pickup-max", "van", "phev-sedan", "phev-suv",
}

// String is the word itself.
func (v Archetype) String() string { return wordAt(archetypeWords, uint8(v)) }

// Inlet is the alternating-current inlet of the vehicle (SAE J1772, SAE J3400). Zero is no word at all.
type Inlet uint8

const (
	InletJ1772 Inlet = iota + 1
	InletJ3400
)

var inletWords = []string{
	"J1772", "J3400",
}

// String is the word itself.
func (v Inlet) String() string { return wordAt(inletWords, uint8(v)) }

// DCInlet is the inlet for charging on the road; never quoted for a dwelling. Zero is no word at all.
type DCInlet uint8

const (
	DCInletNone DCInlet = iota + 1
	DCInletCCS1
	DCInletJ3400
	DCInletCHAdeMO
)

var dcInletWords = []string{
	"none", "CCS1", "J3400", "CHAdeMO",
}

// String is the word itself.
func (v DCInlet) String() string { return wordAt(dcInletWords, uint8(v)) }

// SuppliedCord is the cord set that came with the vehicle. Zero is no word at all.
type SuppliedCord uint8

const (
	SuppliedCordNone SuppliedCord = iota + 1
	SuppliedCord120V12A
	SuppliedCord120V240V
)

var suppliedCordWords = []string{
	"none", "120V-12A", "120V-240V",
}

// String is the word itself.
func (v SuppliedCord) String() string { return wordAt(suppliedCordWords, uint8(v)) }
