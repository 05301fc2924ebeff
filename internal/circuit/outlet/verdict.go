package outlet

import (
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Word is the verdict on an outlet, worst last.
type Word uint8

const (
	// Use: usable now.
	Use Word = iota
	// UseLower: usable now at a reduced setting.
	UseLower
	// NeedsWork: usable after the work named, and until then at [Verdict.Now].
	NeedsWork
	// Stop: not to be used; a quote that rests on it is halted.
	Stop
)

// String gives the word as data files and the wire spell it.
func (w Word) String() string {
	return [...]string{"use", "use_lower", "needs_work", "stop"}[w]
}

// Reason is one rule that matched.
type Reason struct {
	Rule    string          // "O-09"
	Words   string          // key of its plain sentence in room working: "outlet.rule.o09"
	Finding string          // safety finding it raises, "D-209"; "" when none
	Source  *working.Source // section and status
}

// Verdict is what may be done with an existing outlet.
type Verdict struct {
	Word    Word
	Now     unit.Amps          // setting that may be used today; 0 is none
	Plan    unit.Amps          // Now, read on the safer side while a reading in Verify is missing
	After   Reading[unit.Amps] // what this outlet and circuit can do once put right; not read: never by this outlet
	Reasons []Reason           // in the order of the rules
	Ways    []Way              // what could be made of the same wires, least work first
	Verify  []Check            // what somebody must read or test before it is firm
}

// Findings lists the safety findings raised, each once, in order of the rules.
func (v Verdict) Findings() []string {
	var out []string
	for _, r := range v.Reasons {
		if r.Finding != "" && indexOf(out, r.Finding) < 0 {
			out = append(out, r.Finding)
		}
	}
	return out
}

// Way is one thing that could be made of the existing circuit.
type Way struct {
	Kind       WayKind
	Setting    unit.Amps // largest setting then
	Breaker    unit.Amps // rating of the breaker then
	Receptacle string    // id of the receptacle then; "" when equipment is wired in
	Work       []Work    // what pricing prices, in the order of the job; empty is nothing to do
	Lasting    bool      // nothing is left that invites a larger load
}

// WayKind names a way.
type WayKind string

const (
	// AsItIs: the outlet as it stands.
	AsItIs WayKind = "as_it_is"
	// SetDown: equipment locked at the setting and labelled; the outlet stays.
	SetDown WayKind = "set_down"
	// PutRight: the receptacle, and what else is wrong, put right.
	PutRight WayKind = "put_right"
	// WiredIn: the receptacle removed and the equipment wired to the circuit.
	WiredIn WayKind = "wired_in"
)

// Work is one piece of work that a price book can price.
type Work struct {
	Kind       WorkKind
	Receptacle string    // id, with [NewReceptacle], [InUseCover]
	Grade      string    // industrial, ev_listed, with [NewReceptacle]
	Amps       unit.Amps // breaker rating with breakers; the setting with [LockSetting]
	Poles      int       // 1 or 2, with breakers
	Feet       unit.Feet // with [MoveOutlet]
}

// Words is the key of the work's words in room working.
func (w Work) Words() string { return "outlet.work." + string(w.Kind) }

// WorkKind names a piece of work.
type WorkKind string

const (
	Inspect         WorkKind = "inspect"          // box, splices and cable looked at before anything else
	Reterminate     WorkKind = "reterminate"      // aluminium wire on listed connectors, torqued
	NewReceptacle   WorkKind = "new_receptacle"   // receptacle replaced
	NewBreaker      WorkKind = "new_breaker"      // breaker replaced by another rating
	GFCIBreaker     WorkKind = "gfci_breaker"     // breaker replaced by one with ground-fault protection
	WeatherCover    WorkKind = "in_use_cover"     // extra-duty cover that closes over the plug
	Hardwire        WorkKind = "hardwire"         // equipment wired in at the box
	LockSetting     WorkKind = "lock_setting"     // setting behind a tool-held cover, label changed
	MountEquipment  WorkKind = "mount_equipment"  // portable unit fastened in place
	SharingSwitch   WorkKind = "sharing_switch"   // listed switch that never lets appliance and car run together
	SharingChargers WorkKind = "sharing_chargers" // equipment that shares its load by listing
	MoveOutlet      WorkKind = "move_outlet"      // outlet moved nearer the car
	GroundConductor WorkKind = "ground_conductor" // an equipment ground proven or brought in
)

// Check is something to read or test before a verdict is firm.
type Check string

const (
	CheckBreaker   Check = "breaker"   // the number on the handle
	CheckWire      Check = "wire"      // size and metal of the wire
	CheckCondition Check = "condition" // heat, marks, grip
	CheckSharing   Check = "sharing"   // what else is on the breaker
	CheckGrade     Check = "grade"     // light-duty or made for hours of full current
	CheckGFCI      Check = "gfci"      // ground-fault protection
	CheckCover     Check = "cover"     // cover that closes over the plug
	CheckReach     Check = "reach"     // the cable reaches without a cord
	CheckSetting   Check = "setting"   // the setting is locked away
	CheckGround    Check = "ground"    // an equipment ground apart from the neutral
)

// Words is the key of the check's words in room working.
func (c Check) Words() string { return "outlet.verify." + string(c) }

// Keys lists every key this room can put into a sheet, a reason, a piece of
// work or a check, so that words can be proven to be there.
func Keys() []string {
	keys := []string{"outlet.wire.carries", "outlet.wire.bears", "outlet.cap.face", "outlet.cap.breaker", "outlet.cap.wire",
		"outlet.cap.equipment", "outlet.cap.setting", "outlet.verdict.now", "outlet.verdict.plan", "outlet.verdict.after", "outlet.verdict.never"}
	for _, k := range append([]WayKind{AsItIs}, wayKinds...) {
		keys = append(keys, "outlet.way."+string(k))
	}
	for _, k := range workOrder {
		keys = append(keys, Work{Kind: k}.Words())
	}
	for _, c := range checkOrder {
		keys = append(keys, c.Words())
	}
	if b, err := ours(); err == nil {
		for _, r := range b.rules {
			keys = append(keys, r.reason.Words)
		}
	}
	return keys
}
