package circuit

import (
	"daybreak/internal/edition"
	"daybreak/internal/unit"
)

// Takeoff is the material a circuit takes, before any allowance: real lengths,
// no tails, slack or waste (those are the estimator's, see room pricing). It
// is plain: a list of needs, in the order a bill reads.
type Takeoff struct {
	Needs []Need
	// RouteFeet is the real one-way length, drops included.
	RouteFeet unit.Feet
}

// Item is a kind of material or device, from a closed list.
type Item uint8

// The items. The fields of Need that say which one are named beside each.
const (
	BreakerItem    Item = iota + 1 // Amps, Poles, GFCI; each
	CableItem                      // Method, Size, Ground, Conductors, Run; ft of one stretch
	WireItem                       // Size, Ground false or true; ft of route for one conductor × Conductors
	GroundWireItem                 // Size; ft of route
	RacewayItem                    // Raceway, Trade, Wet, Run; ft of one stretch
	JunctionItem                   // Wet; each: box where cable becomes raceway
	DeviceBoxItem                  // Amps of the receptacle, Gangs, Wet; each
	ReceptacleItem                 // Config, Amps, Wet; each
	CoverItem                      // Config, Wet: in-use; each
	DisconnectItem                 // Amps; each
	NailPlateItem                  // each
	ConnectorItem                  // Method, Raceway, Size, Trade, Wet: ends into boxes; each
	WallEntryItem                  // through an outside wall; each
	LabelItem                      // Labels; each kind once
)

// Need is one line of a take-off. Quantity is in feet or pieces by Item.
type Need struct {
	Item       Item
	Quantity   float64
	Method     edition.Method
	Raceway    edition.Raceway
	Trade      edition.Trade
	Run        SegmentKind // the stretch it runs through; 0 where it has none
	Part       int         // 0 or 1: which part of the candidate
	Size       edition.Size
	Ground     edition.Size
	Conductors int // insulated conductors, without the grounding conductor
	Amps       unit.Amps
	Poles      int
	GFCI       bool
	Config     string
	Gangs      int
	Wet        bool
	Labels     LabelSet
}
