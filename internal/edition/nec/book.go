package nec

import (
	"daybreak/internal/edition"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Book is one edition of the National Electrical Code, every dated entry
// resolved. It is immutable and safe for concurrent use.
type Book struct {
	name  string
	sizes []edition.Size
	cmil  []edition.Cited[edition.CircularMils] // by rank

	ampacity   [3][][3]entry[unit.Amps] // by material, rank, column 60 75 90
	ambient    []ambientBand
	adjustment []adjustmentRow
	rooftop    struct{ closer, adder edition.Cited[float64] }
	methods    [edition.MethodKinds]methodRule
	grounds    []entry[edition.Size] // of cables, by rank
	serGrounds []entry[edition.Size]
	sleeves    [][2]entry[edition.Trade] // by rank; of two conductors, of three
	impedance  [3][]wireImpedance        // by material, rank
	drop       edition.Cited[edition.DropAdvice]

	devices     []edition.Cited[unit.Amps] // ascending
	small       [3][]entry[unit.Amps]      // by material, rank
	terminals   []terminalRow
	nextLimit   edition.Cited[float64]
	continuous  edition.Cited[float64]
	share       edition.Cited[float64]
	single      *working.Source
	sharedSizes []sharedRow

	grounding []groundingRow
	rounding  edition.Cited[float64]
	increase  *working.Source
	electrode []electrodeRow

	area      [3][]entry[edition.SquareInches] // by insulation: THWN-2, XHHW-2, bare; rank
	trades    []edition.Trade
	raceways  [edition.RacewayKinds][]entry[edition.SquareInches] // by trade
	fill      [3]edition.Cited[float64]                           // of one, two, more
	nipple    edition.Cited[float64]
	countUp   float64
	bends     edition.Cited[float64]
	allowance []entry[edition.CubicInches] // by rank
	boxRules  struct{ clamps, gang, free, further float64 }
	boxSource *working.Source
	boxes     []edition.Cited[edition.Box]
	supports  map[string]edition.Cited[edition.Supports]
	places    [edition.RunKinds]placeRow
	cover     [edition.BurialKinds][edition.BuriedWiringKinds]edition.Cited[edition.Cover]

	structure structureRules

	charging chargingRules
	faults   []faultRow
	faces    []edition.Cited[edition.Face]
}

// entry is a table cell that may hold nothing.
type entry[T any] struct {
	cited edition.Cited[T]
	there bool
}

type ambientBand struct {
	to     unit.Celsius
	factor [3]entry[float64]
}

type adjustmentRow struct {
	to     int
	factor edition.Cited[float64]
}

type methodRule struct {
	there           bool
	base, cap       int // columns 0 1 2; cap −1 for none
	capSmall        int // column for sizes up to smallTo, −1 for none
	smallTo         edition.Size
	smallCu, largeS edition.Size
	smallAl         edition.Size
	source          *working.Source
}

type wireImpedance struct {
	there  bool
	x      [3]float64 // by conduit: PVC, aluminium, steel
	r, z   [3]float64
	source *working.Source
}

type terminalRow struct {
	to               unit.Amps
	unmarked, marked int
	source           *working.Source
}

type sharedRow struct {
	circuit, smallest, largest unit.Amps
	source                     *working.Source
}

type groundingRow struct {
	to   unit.Amps
	size [3]edition.Cited[edition.Size]
}

type electrodeRow struct {
	to     [3]float64 // circular mils
	sizes  edition.ElectrodeSizes
	source *working.Source
}

type placeRow struct {
	cable   [edition.MethodKinds]edition.Fitness
	raceway [edition.RacewayKinds]edition.Fitness
	source  *working.Source
}

type chargingRules struct {
	settingCounts                             string
	settingSource                             *working.Source
	floor                                     edition.Cited[float64]
	unknown                                   entry[float64]
	individualA, individualV, disconnect      edition.Cited[float64]
	couplerIndoor, couplerOutdoor             edition.Cited[float64]
	tamper, weather, plugIn, smallestSettingA edition.Cited[float64]
}

type faultRow struct {
	connection edition.Connection
	place      edition.Place // 0 for any
	to         unit.Amps
	required   edition.Requirement // 0 where the book is silent
	source     *working.Source
}

// Name is the book and its year, "NEC 2023".
func (b *Book) Name() string { return b.name }

func (b *Book) silent(question, why string) error {
	return &edition.Unanswerable{Book: b.name, Question: question, Why: why}
}
