package working

import (
	"embed"
	"io/fs"
	"path"
	"strings"

	"daybreak/internal/fault"
	"daybreak/internal/unit"

	"go.yaml.in/yaml/v3"
)

//go:embed words
var embedded embed.FS

// Embedded returns the words that ship with the program.
func Embedded() fs.FS {
	sub, err := fs.Sub(embedded, "words")
	if err != nil {
		panic(err) // the folder is named in the embed directive above
	}
	return sub
}

// Rule is how one rule reads in one locale. Both texts may hold {name} for any
// term of the step, and {out} for its result.
type Rule struct {
	Formula  string `yaml:"formula"`  // "1.25 × {setting} = {out}"
	Sentence string `yaml:"sentence"` // "The charger runs for hours, so the circuit is sized at 125 %."
}

// Words holds every rule's words in one locale. It is read-only after loading.
type Words struct {
	Locale string
	rules  map[string]Rule
}

// LoadWords reads every file of a locale's folder. A rule without a formula or
// sentence, a rule named twice or an unknown key is a fault with file and line.
func LoadWords(fsys fs.FS, locale string) (*Words, error) {
	files, err := fs.Glob(fsys, path.Join(locale, "*.yaml"))
	if err != nil || len(files) == 0 {
		return nil, fault.InFile(locale, 0, "", "no file", "a folder of .yaml files with rules")
	}
	w := &Words{Locale: locale, rules: map[string]Rule{}}
	for _, name := range files {
		raw, err := fs.ReadFile(fsys, name)
		if err != nil {
			return nil, fault.InFile(name, 0, "", err, "a readable file")
		}
		var doc yaml.Node
		if err := yaml.Unmarshal(raw, &doc); err != nil {
			return nil, fault.InFile(name, 0, "", err, "YAML")
		}
		if len(doc.Content) == 0 || doc.Content[0].Kind != yaml.MappingNode {
			return nil, fault.InFile(name, 1, "", "another shape", "a mapping from rule key to formula and sentence")
		}
		m := doc.Content[0]
		for i := 0; i+1 < len(m.Content); i += 2 {
			key, val := m.Content[i], m.Content[i+1]
			var r Rule
			if err := val.Decode(&r); err != nil || r.Formula == "" || r.Sentence == "" {
				return nil, fault.InFile(name, key.Line, key.Value, "incomplete", "a formula and a sentence")
			}
			if _, twice := w.rules[key.Value]; twice {
				return nil, fault.InFile(name, key.Line, key.Value, "named twice", "each rule once")
			}
			w.rules[key.Value] = r
		}
	}
	return w, nil
}

// Has reports whether a rule has words.
func (w *Words) Has(rule string) bool { _, ok := w.rules[rule]; return ok }

// Formula fills a step's formula.
func (w *Words) Formula(s Step) string { return w.fill(w.rules[s.Rule].Formula, s) }

// Sentence fills a step's sentence.
func (w *Words) Sentence(s Step) string { return w.fill(w.rules[s.Rule].Sentence, s) }

func (w *Words) fill(text string, s Step) string {
	if text == "" {
		return s.Rule
	}
	pairs := []string{"{out}", s.Out.Text()}
	for _, t := range s.In {
		if t.Name != "" {
			pairs = append(pairs, "{"+t.Name+"}", t.Text())
		}
	}
	return strings.NewReplacer(pairs...).Replace(text)
}

// Text prints a term: at most three decimals and its unit after a space.
func (t Term) Text() string {
	if t.Word != "" {
		return t.Word
	}
	s := unit.Print(t.Value, 3)
	if t.Unit == "" {
		return s
	}
	return s + " " + t.Unit
}
