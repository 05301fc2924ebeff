package quote

import (
	"embed"
	"io/fs"
	"maps"
	"math"
	"slices"
	"strings"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"go.yaml.in/yaml/v3"
)

//go:embed words
var embeddedWords embed.FS

// EmbeddedWords returns the words that ship with the program.
func EmbeddedWords() fs.FS {
	sub, err := fs.Sub(embeddedWords, "words")
	if err != nil {
		panic(err) // the folder is named in the embed directive above
	}
	return sub
}

// Words turns sentences into text in one locale.
type Words struct {
	Locale string
	texts  map[string]string
}

// LoadWords reads <locale>.yaml: a mapping from key to text with {name} for
// each argument. A key given twice or a text that is no text is a fault with
// file and line.
func LoadWords(fsys fs.FS, locale string) (*Words, error) {
	name := locale + ".yaml"
	raw, err := fs.ReadFile(fsys, name)
	if err != nil {
		return nil, fault.InFile(name, 0, "", "no file", "a .yaml file with the words of this locale")
	}
	var doc yaml.Node
	if err := yaml.Unmarshal(raw, &doc); err != nil {
		return nil, fault.InFile(name, 0, "", err, "YAML")
	}
	if len(doc.Content) == 0 || doc.Content[0].Kind != yaml.MappingNode {
		return nil, fault.InFile(name, 1, "", "another shape", "a mapping from key to text")
	}
	w := &Words{Locale: locale, texts: map[string]string{}}
	m := doc.Content[0]
	for i := 0; i+1 < len(m.Content); i += 2 {
		key, val := m.Content[i], m.Content[i+1]
		if val.Kind != yaml.ScalarNode || val.Value == "" {
			return nil, fault.InFile(name, val.Line, key.Value, "no text", "a text")
		}
		if _, twice := w.texts[key.Value]; twice {
			return nil, fault.InFile(name, key.Line, key.Value, "given twice", "each key once")
		}
		w.texts[key.Value] = val.Value
	}
	return w, nil
}

// Has reports whether a key has a text.
func (w *Words) Has(key string) bool { _, ok := w.texts[key]; return ok }

// Keys lists every key that has a text, in order.
func (w *Words) Keys() []string { return slices.Sorted(maps.Keys(w.texts)) }

// Text is the text of a key without arguments; the key itself when there is none.
func (w *Words) Text(key string) string {
	if t, ok := w.texts[key]; ok {
		return t
	}
	return key
}

// Say fills a sentence's text with its arguments.
func (w *Words) Say(s Sentence) string {
	text, ok := w.texts[s.Key]
	if !ok {
		return s.Key
	}
	pairs := make([]string, 0, 2*len(s.Args))
	for _, a := range s.Args {
		pairs = append(pairs, "{"+a.Name+"}", w.term(a))
	}
	return strings.NewReplacer(pairs...).Replace(text)
}

func (w *Words) term(t working.Term) string {
	if t.Word != "" {
		if text, ok := w.texts["word."+t.Word]; ok {
			return text
		}
		if text, ok := w.texts["leaf."+t.Word]; ok {
			return text
		}
		return t.Word
	}
	switch {
	case strings.HasPrefix(t.Unit, MoneyUnit):
		return Rounded(int64(math.Round(t.Value)), strings.TrimPrefix(t.Unit, MoneyUnit))
	case t.Unit == "h":
		return w.hours(t.Value)
	case t.Unit == "A":
		return unit.Print(t.Value, 1) + " " + w.Text("unit.amps")
	case t.Unit == AmpsEach:
		return unit.Print(t.Value, 1) + " " + w.Text("unit.amp")
	case t.Unit == "V":
		return unit.Print(t.Value, 0) + " " + w.Text("unit.volts")
	case t.Unit == "mi":
		return unit.Print(t.Value, 0) + " " + w.Text("unit.miles")
	}
	return working.Term{Value: math.Round(t.Value*10) / 10, Unit: t.Unit}.Text()
}

// hours says a time as people do: minutes below one hour, halves below ten.
func (w *Words) hours(h float64) string {
	switch {
	case h < 0.95:
		return unit.Print(math.Max(5, math.Round(h*12)*5), 0) + " " + w.Text("unit.minutes")
	case h < 1.25:
		return w.Text("unit.one_hour")
	case h < 10:
		return unit.Print(math.Round(h*2)/2, 1) + " " + w.Text("unit.hours")
	}
	return unit.Print(math.Round(h), 0) + " " + w.Text("unit.hours")
}

// Rounded prints an amount of a range: to 10 below 1 000, to 50 below 5 000,
// else to 100 of the currency's major unit. Bill lines are never printed so.
func Rounded(minor int64, code string) string {
	major := float64(minor) / 100
	step := 100.0
	switch {
	case math.Abs(major) < 1000:
		step = 10
	case math.Abs(major) < 5000:
		step = 50
	}
	n := int64(math.Round(major/step) * step)
	digits := unit.Print(float64(n), 0)
	var b strings.Builder
	for i, c := range digits {
		if i > 0 && (len(digits)-i)%3 == 0 && digits[i-1] != '-' {
			b.WriteByte(',')
		}
		b.WriteRune(c)
	}
	if code == "USD" {
		return "$" + b.String()
	}
	return b.String() + " " + code
}
