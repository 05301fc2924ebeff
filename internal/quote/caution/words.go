package caution

import (
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"

	"daybreak/internal/facts"
	"daybreak/internal/fault"
	"daybreak/internal/fault/datafile"
	"daybreak/internal/unit"
)

// Text is what people read about one finding, filled with the household's own
// values.
type Text struct {
	Level string // the gravity as the word of a heading: "Stop"
	Title string
	Seen  string // what was seen or told; to be checked: what to look at
	DoNow string // "" when there is nothing to do now
	Why   string
	Ask   string // with a halt: what to ask the one who is called
	Call  string // whom to call; "" for nobody
}

// Words holds the texts of one locale. It is read-only after [LoadWords].
type Words struct {
	Locale    string
	Emergency string // spoken first where there is smoke, flame or shock
	levels    map[Gravity]string
	calls     map[string]string
	texts     map[string]wordsRow
}

type wordsRow struct {
	Title string `yaml:"title"`
	Seen  string `yaml:"seen"`
	DoNow string `yaml:"do_now"`
	Why   string `yaml:"why"`
	Ask   string `yaml:"ask"`
	Check string `yaml:"check"`
}

type wordsFile struct {
	Locale    string              `yaml:"locale"`
	Emergency string              `yaml:"emergency"`
	Levels    map[Gravity]string  `yaml:"levels"`
	Calls     map[string]string   `yaml:"calls"`
	Findings  map[string]wordsRow `yaml:"findings"`
}

// LoadWords reads words/<locale>.yaml and holds it against the book: a code
// without words, words without a code, a placeholder that is no leaf and an
// unknown field are faults with file and line.
func LoadWords(fsys fs.FS, locale string, b *Book) (*Words, error) {
	name := path.Join("words", locale+".yaml")
	var doc wordsFile
	f, err := datafile.Open(fsys, name, &doc)
	if err != nil {
		return nil, err
	}
	if doc.Locale != locale || doc.Emergency == "" {
		return nil, fault.InFile(name, 1, "locale", doc.Locale, "the locale of the file's name and an emergency line")
	}
	for _, g := range gravityOrder {
		if doc.Levels[g] == "" {
			return nil, fault.InFile(name, f.Line("levels"), "levels", string(g), "a word for each gravity")
		}
	}
	for _, c := range calls {
		if said, ok := doc.Calls[c]; !ok || (said == "") != (c == "nobody") {
			return nil, fault.InFile(name, f.Line("calls", c), "calls", c, "a sentence for each but nobody")
		}
	}
	for code := range doc.Findings {
		if b.byCode[code] == nil {
			return nil, fault.InFile(name, f.Line("findings", code), code, "words", "a code of findings.yaml")
		}
	}
	for _, e := range b.entries {
		if field, got, accepted := doc.Findings[e.Code].trouble(e); field != "" {
			return nil, fault.InFile(name, f.Line("findings", e.Code, field), e.Code+"."+field, got, accepted)
		}
	}
	return &Words{Locale: locale, Emergency: doc.Emergency, levels: doc.Levels, calls: doc.Calls, texts: doc.Findings}, nil
}

func (r wordsRow) trouble(e *entry) (field, got, accepted string) {
	switch {
	case r.Title == "":
		return "title", r.Title, "a title"
	case r.Seen == "":
		return "seen", r.Seen, "what was seen"
	case r.Why == "":
		return "why", r.Why, "the reason"
	case (e.Gravity == Halt) != (r.Ask != ""):
		return "ask", r.Ask, "with a halt alone: what to ask the one who is called"
	case e.checked() != (r.Check != ""):
		return "check", r.Check, "with a check or site alone: what to look at"
	}
	for field, text := range map[string]string{"title": r.Title, "seen": r.Seen, "do_now": r.DoNow, "why": r.Why, "ask": r.Ask, "check": r.Check} {
		for _, m := range placeholder.FindAllStringSubmatch(text, -1) {
			if _, ok := facts.LeafAt(m[1]); !ok {
				return field, m[1], "the path of a leaf"
			}
		}
	}
	return "", "", ""
}

var placeholder = regexp.MustCompile(`\{([^}]*)\}`)

// Of gives the words of a finding, filled with the household's values. A leaf
// without a value reads as "unknown". A code without words is said by its
// code alone.
func (w *Words) Of(found Finding, f *facts.Facts) Text {
	row, ok := w.texts[found.Words]
	if !ok {
		row = wordsRow{Title: found.Code, Seen: found.Code}
	}
	group := found.Slot
	for first, twin := range twins {
		if found.Slot == twin {
			group = first
		}
	}
	fill := func(text string) string {
		return placeholder.ReplaceAllStringFunc(text, func(m string) string {
			return printed(forSlot(m[1:len(m)-1], group, found.Slot), f)
		})
	}
	if found.Gravity == ToBeChecked {
		return Text{Level: w.levels[ToBeChecked], Title: fill(row.Title), Seen: fill(row.Check), Why: fill(row.Why)}
	}
	return Text{
		Level: w.levels[found.Gravity], Title: fill(row.Title), Seen: fill(row.Seen), DoNow: fill(row.DoNow),
		Why: fill(row.Why), Ask: fill(row.Ask), Call: w.calls[found.Call],
	}
}

// ToAsk gathers what a halted quote still gives: what to ask those who are
// called, each question once, in the order of the findings.
func (w *Words) ToAsk(found []Finding, f *facts.Facts) []string {
	var out []string
	for _, x := range found {
		if x.Gravity != Halt {
			continue
		}
		if ask := w.Of(x, f).Ask; ask != "" && !slices.Contains(out, ask) {
			out = append(out, ask)
		}
	}
	return out
}

func printed(path string, f *facts.Facts) string {
	l, ok := facts.LeafAt(path)
	if !ok {
		return path
	}
	slot := l.At(f)
	switch v := slot.Value().(type) {
	case nil:
		return "unknown"
	case float64:
		return unit.Print(v, l.Decimals)
	case string:
		return v
	case []string:
		return strings.Join(v, ", ")
	}
	n, _ := slot.Number()
	return unit.Print(n, 0)
}
