// Package working keeps the chain of steps behind a number: the rule, its
// inputs, its result and the section that says so.
//
// Working is values, not text. A [Step] names a rule; formula and sentence
// live under that name in words/<locale>/<room>.yaml, so one sheet prints in
// any language. Engines take a *[Sheet] and call [Sheet.Add]; a nil sheet keeps
// nothing and costs nothing, so draws and full quotes run one code path and
// the working cannot disagree with the number.
//
// Read [Step], then [Source]. The room does not format for people: see
// [Words.Sentence] for filling a rule's words, and the edge for the rest.
package working

// Status says how firmly a value of a table is known to be what the standard
// prints.
type Status string

const (
	// Verified: seen in the publication named.
	Verified Status = "verified"
	// SecondHand: seen quoted by another publication.
	SecondHand Status = "verified second-hand"
	// FromMemory: written down from memory; to be checked.
	FromMemory Status = "from memory"
	// Computed: arithmetic on verified values.
	Computed Status = "computed"
	// Judgement: engineering judgement; no standard prints it.
	Judgement Status = "engineering judgement"
)

// Known reports whether s is one of the five words.
func (s Status) Known() bool {
	switch s {
	case Verified, SecondHand, FromMemory, Computed, Judgement:
		return true
	}
	return false
}

// Source is where a value or rule is written.
type Source struct {
	Publication string // "NEC 2023", "SAE J1772", "Alder Bay demo price book"
	Section     string // "Table 310.16", "625.41"; empty when there is none
	Cell        string // the row and column of a table, when it is one
	Status      Status
}

// Term is a number with its unit, or a word from a closed list. The unit is
// spelt as printed: "A", "V", "ft", "kWh", "VA", "AWG", "%", "".
type Term struct {
	Name  string // "setting", "device"; a key of the rule's words
	Value float64
	Unit  string
	Word  string // when not empty, the term is this word, not Value
}

// Num is a numeric term.
func Num[T ~float64 | ~int](name string, value T, unit string) Term {
	return Term{Name: name, Value: float64(value), Unit: unit}
}

// Word is a term that is a word, such as a conductor size or a verdict.
func Word(name, word string) Term { return Term{Name: name, Word: word} }

// Step is one line of working.
type Step struct {
	Rule   string // key of the rule's words, "circuit.device"
	In     [4]Term
	Out    Term
	Source *Source
}

// Sheet collects steps in the order they were taken.
type Sheet struct {
	Steps []Step
}

// Add appends a step; on a nil sheet it does nothing.
func (s *Sheet) Add(step Step) {
	if s != nil {
		s.Steps = append(s.Steps, step)
	}
}

// Keeping reports whether steps are kept, for callers whose terms are costly
// to make.
func (s *Sheet) Keeping() bool { return s != nil }

// In packs up to four terms for a step.
func In(terms ...Term) (in [4]Term) {
	copy(in[:], terms)
	return in
}
