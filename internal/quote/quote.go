package quote

import (
	"daybreak/internal/charging"
	"daybreak/internal/circuit"
	"daybreak/internal/circuit/outlet"
	"daybreak/internal/facts"
	"daybreak/internal/panel"
	"daybreak/internal/pricing"
	"daybreak/internal/quote/caution"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Standing is how firm a quote is.
type Standing uint8

// The standings, softest first; Halted overrides all.
const (
	Ballpark           Standing = iota + 1 // deciding facts are unknown
	SubjectToSiteCheck                     // known well enough to price, to be seen on site
	ReadyToBook
	Halted // a danger was found; cannot be accepted
)

// Word is the standing as data and wire spell it.
func (s Standing) Word() string {
	return wordOf([]string{"", "ballpark", "subject_to_site_check", "ready_to_book", "halted"}, int(s))
}

// Role is what an option is shown as.
type Role uint8

// The roles. One option may hold the first two.
const (
	EnoughForNow Role = 1 << iota
	BestFit
	RoomToGrow
)

// Words lists the roles held.
func (r Role) Words() []string {
	var out []string
	for i, w := range []string{"enough_for_now", "best_fit", "room_to_grow"} {
		if r&(1<<i) != 0 {
			out = append(out, w)
		}
	}
	return out
}

// Way is how an option charges.
type Way uint8

// The ways, from least work to most.
const (
	ExistingOutlet Way = iota + 1 // the outlet that is there, as it is or put right
	NewReceptacle                 // a new circuit that ends in a receptacle
	Hardwired                     // a new circuit wired to the charger
)

// Word is the way as data and wire spell it.
func (w Way) Word() string {
	return wordOf([]string{"", "existing_outlet", "new_receptacle", "hardwired"}, int(w))
}

// Quote is the answer.
type Quote struct {
	AsOf     unit.Date
	Expires  unit.Date
	Standing Standing
	Reasons  []Sentence // why the standing is no firmer
	Headline Sentence   // the result in one sentence

	Edition      string // "NEC 2023"
	Locality     Locality
	Need         Need
	Options      []Option // shown, cheapest first; at most three
	Others       []Option // weighed and not shown, each with why
	Findings     []caution.Finding
	Verify       []Sentence // what is to be seen on site
	Assumptions  []Assumption
	Band         Band // the range over what is not known; zero until room band fills it
	BookFindings []pricing.Finding
	Demo         bool

	Revisions   []Revision
	Fingerprint string // hexadecimal SHA-256 over facts, date and revisions
	Reference   string // short, to be read aloud
	Working     []working.Step
}

// Locality is the place as the shop's table proposes it.
type Locality struct {
	PostalCode   string
	Name         string // authority having jurisdiction
	Assumed      bool   // nobody confirmed it
	Place        string
	Jurisdiction string
}

// Revision names one book the quote was made with.
type Revision struct{ Book, Name, Digest string }

// Need is what the driver has to put back.
type Need struct {
	Miles       unit.Miles         // a normal weekday
	EnergyKWh   unit.KilowattHours // at the wall, that day, mild
	WorstKWh    unit.KilowattHours // the 90th-percentile weekday of the coldest month
	WindowHours unit.Hours         // plugged in at night
	Hybrid      bool
	CarKW       unit.Kilowatts // what the car takes at most
	CarAmps     unit.Amps
}

// Option is one complete way to charge at home.
type Option struct {
	ID       string // "new-hardwired-32", stable for one household
	Role     Role
	Way      Way
	Level    charging.Level
	Setting  unit.Amps
	Volts    unit.Volts
	Breaker  unit.Amps
	Managed  bool
	Setpoint unit.Amps // of the energy management, on the service
	FailSafe unit.Amps // what it falls back to when its signal is lost; 0 is off

	Rate          charging.Rate
	HoursNormal   unit.Hours // to put back a normal weekday
	HoursFull     unit.Hours // from empty to full
	MilesPerHour  float64
	RefillsWorst  bool       // refills the 90th-percentile weekday of the coldest month
	WinterMiles   unit.Miles // the longest day of the coldest month that a night puts back
	Circuit       *circuit.Result
	Feeder        *circuit.FeederResult // to a new panel in another building, which the circuit starts from
	Outlet        *outlet.Verdict
	OutletWay     outlet.Way // with Outlet
	OutletSlot    string     // "outlet" or "other_outlet"
	Panel         *panel.Result
	Taken         *panel.Measure // the measure it rests on; nil where the panel is as it stands
	Subpanel      unit.Amps      // a small panel beside a full one, in the bill; 0 for none
	Tandems       int            // tandem breakers that free spaces, in the bill
	EquipmentCode string

	Bill      pricing.Bill
	Price     pricing.Spread // all-in, P10 and P90 of the bill
	Apart     []Apart        // bills of their own beside it; priced in full only where laid out in full
	Flips     []Sentence     // the smallest change of one fact that would change the panel's verdict
	Priced    bool           // false when a part is not priced yet; Unpriced says which
	Unpriced  []Sentence
	Why       Sentence // why it is shown, or why it is not
	Change    Sentence // what would change this
	Findings  []caution.Finding
	Verify    []Sentence
	Possible  bool
	SafeFirst []Sentence     // what must be put right before it may be used
	Adapter   bool           // the car needs a listed AC adapter
	Care      []Sentence     // how to use it safely, from the first day
	Working   []working.Step // behind its numbers; kept for the options shown
}

// Apart is work beside a circuit on a bill of its own, with its own permit, tax
// and range: a new panel in place of fuses, a larger service.
type Apart struct {
	What string // key of its sentence
	Bill pricing.Bill
}

// Sentence is words to be made at the edge: a key and its arguments.
type Sentence struct {
	Key  string
	Args []working.Term
}

// Said makes a sentence.
func Said(key string, args ...working.Term) Sentence { return Sentence{Key: key, Args: args} }

// Empty reports whether there is nothing to say.
func (s Sentence) Empty() bool { return s.Key == "" }

// Assumption is one leaf nobody told, and what it was taken for.
type Assumption struct {
	Path     string
	Value    string
	Basis    facts.Basis
	Decides  bool    // it may change verdict, level, circuit or 5 % of the price
	Swing    int64   // what it moves the best fit's price by, P10 to P90, minor units
	Question string  // question that would settle it; "" when none asks
	Share    float64 // part of the band's variance it explains, 0 to 1
}

// Band is the range of installed price over what is not known.
type Band struct {
	Draws         int   // households drawn; 1 when nothing is open, 0 when none could be priced
	Unpriced      int   // draws for which no way could be priced
	P10, P50, P90 int64 // minor units
	Currency      unit.Currency
}

func wordOf(words []string, i int) string {
	if i < 0 || i >= len(words) {
		return ""
	}
	return words[i]
}
