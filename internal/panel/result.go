package panel

import (
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Method is a way the code permits a load to be calculated.
type Method uint8

// The methods in the order they are tried and printed.
const (
	ExistingDwelling Method = iota // 220.83
	OptionalDwelling               // 220.82
	MeasuredDemand                 // 220.87
	MobileHome                     // 550.18
	General                        // article 220 Part III
	methodCount
)

// Reading is how a charger's load is read into a method.
type Reading uint8

const (
	// Continuous takes the charger at 125 %, outside any bracket. It decides *fits*.
	Continuous Reading = iota
	// Full takes it at 100 %, outside any bracket. It is the load printed.
	Full
	// Literal takes it inside the 40 % bracket, where the edition's words allow.
	Literal
	readingCount
)

// Verdict says whether the supply carries the charger.
type Verdict uint8

const (
	// DoesNotFit: no reading of any deciding method passes.
	DoesNotFit Verdict = iota
	// AskTheAHJ: only the literal reading passes.
	AskTheAHJ
	// Tight: the full reading passes, the continuous one does not.
	Tight
	// Fits: the continuous reading passes.
	Fits
)

// Outcome is what one method says.
type Outcome struct {
	Method    Method
	Refusal   Refusal // [Permitted], or why the method may not be used
	Decides   bool    // whether it counts towards the verdict; the others are printed beside
	Base      unit.VoltAmps
	VA        [readingCount]unit.VoltAmps
	Amps      [readingCount]unit.Amps // unrounded
	NoLiteral bool                    // the method or edition has no literal reading
	Verdict   Verdict
	// AllInside is 220.83(A) read to the letter: existing heating and cooling
	// and the charger inside the bracket. 0 when the sheet has no such reading.
	AllInside unit.VoltAmps
	// General, GeneralNet and HVAC are the parts of the optional sheets: the
	// loads in the bracket before and after it, and what stands outside.
	General, GeneralNet, HVAC unit.VoltAmps
	Source                    *working.Source
}

// Refusal is why a method may not be used here.
type Refusal uint8

// The refusals.
const (
	Permitted Refusal = iota
	RefusedNewDwelling
	RefusedPartFeeder
	RefusedUnder100A
	RefusedMobile
	RefusedNotMobile
	RefusedNoRecord
	RefusedGeneration // the edition bars the record where there is a source
	RefusedNetData
	RefusedLoadAdded
)

// Limit is what sets a capacity.
type Limit uint8

// The limits, in the order a tie is settled.
const (
	ByService Limit = iota
	ByConductors
	ByMain
	ByBus
	ByMeter
)

// Capacity is the most the supply may carry, and what sets it.
type Capacity struct {
	Amps  unit.Amps
	SetBy Limit
}

// Result is what [Calculate] finds. It holds no pointer into the input.
type Result struct {
	Capacity Capacity
	Methods  [methodCount]Outcome // indexed by [Method]
	Verdict  Verdict
	Bare     Verdict // the verdict without energy management; the same where there is none
	Deciding Method  // the method that gives the verdict
	Reading  Reading // the reading that gives it
	Total    unit.Amps
	Spare    unit.Amps // capacity less the deciding method's continuous total; negative is how much it is short
	Managed  ManagedCheck
	Spaces   SpacesCheck
	Bus      BusCheck
	Measures []Measure // cheapest first; empty when it fits and there is room
	Cautions CautionSet
	Odd      OddSet
	// UnseenArea: the edition's floor-area load for existing dwellings was not
	// seen in the book (120.83 of 2026), and by the older, larger one the verdict
	// would be lower. The AHJ should say which holds.
	UnseenArea bool
	// Worksheets are the permitted methods laid out line by line. They are
	// built only when a sheet is kept.
	Worksheets []Worksheet
}

// ManagedCheck is the check of an energy management system.
type ManagedCheck struct {
	Kind        ManagementKind
	Holds       bool      // setpoint × 1.25 ≤ capacity, and the house alone and the fallback fit
	MaxSetpoint unit.Amps // capacity ÷ 1.25
	Source      *working.Source
}

// Worksheet is one method as an inspector reads it.
type Worksheet struct {
	Method Method
	Lines  []Line
}

// Line is one line of a worksheet. Its words stand under Key.
type Line struct {
	Key    string       // "panel.line.floor_area"
	What   string       // the appliance or reading a repeated line is about
	Given  working.Term // what the house has: 2 200 ft², 2 circuits, 12 000 VA
	Used   working.Term // what the rule makes of it: 3 VA/ft², 40 %
	Out    working.Term // VA, or A on the closing lines
	Source *working.Source
}
