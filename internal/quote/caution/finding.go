package caution

import "daybreak/internal/working"

// Gravity says what a finding does to a quote.
type Gravity string

const (
	// Halt: the quote, or the part named by [Reach], cannot be booked.
	Halt Gravity = "halt"
	// AddsLines: work or a check is added to the quote.
	AddsLines Gravity = "adds_lines"
	// Said: spoken where it matters.
	Said Gravity = "said"
	// ToBeChecked: could be so; it stands on the list to verify.
	ToBeChecked Gravity = "to_be_checked"
)

// Reach says what a halt stops.
type Reach string

const (
	// Nothing is stopped.
	Nothing Reach = "nothing"
	// Quote: everything waits.
	Quote Reach = "quote"
	// ExistingOutlet: every option on the outlet named waits; a new circuit stays open.
	ExistingOutlet Reach = "existing_outlet"
	// OptionsUsing: every option that goes on using the cord, adapter, setting or equipment named waits.
	OptionsUsing Reach = "options_using"
)

// Finding is one thing found.
type Finding struct {
	Code    string   // "D-201", "C-01"
	Gravity Gravity  //
	Halts   Reach    // with Halt; Nothing otherwise
	Slot    string   // "outlet", "other_outlet", "vehicle", "second_vehicle" when it is about one of them; else ""
	Leaves  []string // paths it rests on; when to be checked, the paths that are missing
	Words   string   // key of its words: the code

	Emergency bool            // the line for smoke, flame or shock is spoken with it
	Call      string          // whom to call: nobody, electrician, utility, locate, gas_utility, dealer
	Source    *working.Source // section and status; nil with a contradiction
}

// Stops reports whether the findings stop every option on one outlet: by a
// halt of that slot, or of the whole quote.
func Stops(found []Finding, slot string) bool {
	for _, f := range found {
		here := f.Slot == slot || f.Slot == ""
		if f.Gravity == Halt && (f.Halts == Quote || f.Halts == ExistingOutlet && here) {
			return true
		}
	}
	return false
}

// Halted reports whether any finding stops the whole quote.
func Halted(found []Finding) bool {
	for _, f := range found {
		if f.Gravity == Halt && f.Halts == Quote {
			return true
		}
	}
	return false
}
