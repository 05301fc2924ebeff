package facts

// Way is a set of ways the wire may go. Zero is the empty set.
type Way uint32

const (
	WayOpen Way = 1 << iota
	WayFish
	WayAttic
	WayCrawl
	WaySurface
	WayOutside
	WayTrench
)

var wayWords = []string{
	"open", "fish", "attic", "crawl", "surface", "outside", "trench",
}

// Has reports whether every word of x is in the set.
func (s Way) Has(x Way) bool { return s&x == x }

// Any reports whether some word of x is in the set.
func (s Way) Any(x Way) bool { return s&x != 0 }

// String lists the words of the set, joined by commas.
func (s Way) String() string { return joinWords(wayWords, uint32(s)) }

// TrenchSurface is what lies on top of the ground to be dug. Zero is no word at all.
type TrenchSurface uint8

const (
	TrenchSurfaceLawn TrenchSurface = iota + 1
	TrenchSurfaceBed
	TrenchSurfaceGravel
	TrenchSurfacePavers
	TrenchSurfaceConcrete
	TrenchSurfaceAsphalt
)

var trenchSurfaceWords = []string{
	"lawn", "bed", "gravel", "pavers", "concrete", "asphalt",
}

// String is the word itself.
func (v TrenchSurface) String() string { return wordAt(trenchSurfaceWords, uint8(v)) }

// WallFinish is what the walls on the way are made of. Zero is no word at all.
type WallFinish uint8

const (
	WallFinishOpen WallFinish = iota + 1
	WallFinishGypsum
	WallFinishPlaster
	WallFinishBrick
	WallFinishStucco
	WallFinishWoodSiding
	WallFinishMixed
)

var wallFinishWords = []string{
	"open", "gypsum", "plaster", "brick", "stucco", "wood_siding", "mixed",
}

// String is the word itself.
func (v WallFinish) String() string { return wordAt(wallFinishWords, uint8(v)) }

// WorkHeight is how high the work is. Zero is no word at all.
type WorkHeight uint8

const (
	WorkHeightTo8Ft WorkHeight = iota + 1
	WorkHeight812Ft
	WorkHeightOver12Ft
)

var workHeightWords = []string{
	"to_8_ft", "8_12_ft", "over_12_ft",
}

// String is the word itself.
func (v WorkHeight) String() string { return wordAt(workHeightWords, uint8(v)) }

// AtticKind is how easily the attic can be worked in. Zero is no word at all.
type AtticKind uint8

const (
	AtticKindWalkable AtticKind = iota + 1
	AtticKindLowOrDeepInsulation
)

var atticKindWords = []string{
	"walkable", "low_or_deep_insulation",
}

// String is the word itself.
func (v AtticKind) String() string { return wordAt(atticKindWords, uint8(v)) }

// CrawlKind is the height of the crawl space. Zero is no word at all.
type CrawlKind uint8

const (
	CrawlKindOver30In CrawlKind = iota + 1
	CrawlKind1830In
)

var crawlKindWords = []string{
	"over_30_in", "18_30_in",
}

// String is the word itself.
func (v CrawlKind) String() string { return wordAt(crawlKindWords, uint8(v)) }

// Soil is what must be dug. Zero is no word at all.
type Soil uint8

const (
	SoilLoam Soil = iota + 1
	SoilClayOrRoots
	SoilRockOrFrozen
)

var soilWords = []string{
	"loam", "clay_or_roots", "rock_or_frozen",
}

// String is the word itself.
func (v Soil) String() string { return wordAt(soilWords, uint8(v)) }
