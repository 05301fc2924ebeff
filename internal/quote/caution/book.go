package caution

import (
	"io/fs"
	"regexp"
	"slices"
	"strings"

	"daybreak/internal/facts"
	"daybreak/internal/facts/condition"
	"daybreak/internal/fault"
	"daybreak/internal/fault/datafile"
	"daybreak/internal/working"
)

// Book holds every finding and contradiction, checked. It is read-only after
// [Load] and safe for concurrent use.
type Book struct {
	entries  []*entry
	byCode   map[string]*entry
	severity []string // said first, in this order
}

// entry is one finding or contradiction as it stands in the file.
type entry struct {
	Code      string
	Gravity   Gravity
	Halts     Reach
	Emergency bool
	Site      bool
	Call      string
	Slotted   bool
	Source    *working.Source
	place     int // in the file
	askings   []asking
}

// checked reports whether the entry can come out as to be checked.
func (e *entry) checked() bool {
	return e.Site || e.askings[0].check != nil
}

// asking is one entry asked of one slot.
type asking struct {
	slot               string // "outlet", "other_outlet", …; "" when it is about neither
	when, whole, check *condition.Condition
	pair               []string
	reads              []*facts.Leaf // of when and check
}

type row struct {
	Code      string         `yaml:"code"`
	Area      string         `yaml:"area"`
	Gravity   Gravity        `yaml:"gravity"`
	Halts     Reach          `yaml:"halts"`
	Emergency bool           `yaml:"emergency"`
	Slot      string         `yaml:"slot"`
	When      string         `yaml:"when"`
	WholeWhen string         `yaml:"whole_when"`
	Check     string         `yaml:"check"`
	Pair      []string       `yaml:"pair"`
	Site      bool           `yaml:"site"`
	Call      string         `yaml:"call"`
	Section   string         `yaml:"section"`
	Status    working.Status `yaml:"status"`
	Note      string         `yaml:"note"`
}

type document struct {
	Publication    string   `yaml:"publication"`
	Severity       []string `yaml:"severity"`
	Findings       []row    `yaml:"findings"`
	Contradictions []row    `yaml:"contradictions"`
}

var (
	areas     = []string{"panel", "outlet", "wiring", "site", "use", "people"}
	gravities = []Gravity{Halt, AddsLines, Said}
	reaches   = []Reach{Quote, ExistingOutlet, OptionsUsing}
	calls     = []string{"nobody", "electrician", "utility", "locate", "gas_utility", "dealer"}
	// twins names the second slot of a kind.
	twins = map[string]string{"outlet": "other_outlet", "vehicle": "second_vehicle"}
)

// Load reads findings.yaml. A row without source or status, a word that is on
// no list, a condition that does not compile, a path that is no leaf and an
// unknown field are faults with file and line.
func Load(fsys fs.FS) (*Book, error) {
	const name = "findings.yaml"
	var doc document
	f, err := datafile.Open(fsys, name, &doc)
	if err != nil {
		return nil, err
	}
	if doc.Publication == "" || len(doc.Findings) == 0 {
		return nil, fault.InFile(name, 1, "publication", doc.Publication, "a publication and a list of findings")
	}
	b := &Book{byCode: map[string]*entry{}, severity: doc.Severity}
	for i := range doc.Findings {
		if err := b.add(&doc.Findings[i], doc.Publication, "D-", "findings", i, f); err != nil {
			return nil, err
		}
	}
	for i := range doc.Contradictions {
		if err := b.add(&doc.Contradictions[i], doc.Publication, "C-", "contradictions", i, f); err != nil {
			return nil, err
		}
	}
	for i, code := range doc.Severity {
		if b.byCode[code] == nil {
			return nil, fault.InFile(name, f.Line("severity", i), "severity", code, "codes of this file")
		}
	}
	return b, nil
}

var codeForm = regexp.MustCompile(`^(D-[1-6][0-9]{2}|C-[0-9]{2})$`)

func (b *Book) add(r *row, publication, kind, list string, i int, f *datafile.File) error {
	bad := func(field string, got any, accepted string) error {
		return fault.InFile(f.Name, f.Line(list, i, field), field, got, accepted)
	}
	twin, slotted := twins[r.Slot]
	contradiction := kind == "C-"
	switch {
	case !codeForm.MatchString(r.Code) || !strings.HasPrefix(r.Code, kind) || b.byCode[r.Code] != nil:
		return bad("code", r.Code, kind+" and its number, each once")
	case !slices.Contains(gravities, r.Gravity):
		return bad("gravity", string(r.Gravity), "halt, adds_lines or said")
	case (r.Gravity == Halt) != slices.Contains(reaches, r.Halts):
		return bad("halts", string(r.Halts), "with halt alone: quote, existing_outlet or options_using")
	case r.Slot != "" && !slotted:
		return bad("slot", r.Slot, "outlet or vehicle")
	case r.WholeWhen != "" && (r.When == "" || r.Halts == Quote || r.Gravity != Halt):
		return bad("whole_when", r.WholeWhen, "with a lesser halt and its condition alone")
	case r.When == "" && !r.Site:
		return bad("when", "nothing", "a condition, or site: true")
	case contradiction && (len(r.Pair) != 2 || r.Check != "" || r.Site):
		return bad("pair", r.Pair, "the two paths that cannot both be right")
	case !contradiction && len(r.Pair) != 0:
		return bad("pair", r.Pair, "with contradictions alone")
	case !contradiction && !slices.Contains(areas, r.Area):
		return bad("area", r.Area, strings.Join(areas, ", "))
	case !contradiction && (r.Section == "" || !r.Status.Known()):
		return bad("status", string(r.Status), "a section and one of the five words of status")
	case (!contradiction || r.Gravity == Halt) && !slices.Contains(calls, r.Call):
		return bad("call", r.Call, strings.Join(calls, ", "))
	}
	e := &entry{Code: r.Code, Gravity: r.Gravity, Halts: r.Halts, Emergency: r.Emergency, Site: r.Site, Call: r.Call,
		Slotted: slotted, place: len(b.entries),
		Source: &working.Source{Publication: publication, Section: r.Section, Status: r.Status}}
	if e.Gravity != Halt {
		e.Halts = Nothing
	}
	if contradiction {
		e.Source = nil
	}
	slots := []string{""}
	if slotted {
		slots = []string{r.Slot, twin}
	}
	for _, slot := range slots {
		a, err := ask(r, slot, bad)
		if err != nil {
			return err
		}
		e.askings = append(e.askings, a)
	}
	b.entries = append(b.entries, e)
	b.byCode[e.Code] = e
	return nil
}

// ask compiles an entry's conditions for one slot.
func ask(r *row, slot string, bad func(string, any, string) error) (asking, error) {
	a := asking{slot: slot}
	for _, c := range []struct {
		field, source string
		into          **condition.Condition
	}{{"when", r.When, &a.when}, {"whole_when", r.WholeWhen, &a.whole}, {"check", r.Check, &a.check}} {
		if c.source == "" {
			continue
		}
		compiled, err := condition.Compile(forSlot(c.source, r.Slot, slot))
		if err != nil {
			got, accepted := any(err.Error()), "a condition over fact paths"
			if f, ok := fault.As(err); ok {
				got, accepted = f.Got, f.Accepted
			}
			return a, bad(c.field, got, accepted)
		}
		*c.into = compiled
		for _, path := range compiled.Reads() {
			if l, ok := facts.LeafAt(path); ok {
				a.reads = append(a.reads, l)
			}
		}
	}
	for _, path := range r.Pair {
		path = forSlot(path, r.Slot, slot)
		if _, ok := facts.LeafAt(path); !ok {
			return a, bad("pair", path, "the path of a leaf")
		}
		a.pair = append(a.pair, path)
	}
	return a, nil
}

// groups finds the head of a path of a slotted group; "other_outlet." is none.
var groups = regexp.MustCompile(`\b(outlet|vehicle)\.`)

// forSlot says a text that names one slot of the other.
func forSlot(text, from, to string) string {
	if from == to {
		return text
	}
	return groups.ReplaceAllStringFunc(text, func(m string) string {
		if m == from+"." {
			return to + "."
		}
		return m
	})
}
