package wire

import (
	"embed"
	"io/fs"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/quote"
	"daybreak/internal/quote/caution"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

//go:embed words
var embedded embed.FS

// embeddedWords are the words of this room: what the wire says beside the
// sentences of other rooms.
func embeddedWords() fs.FS {
	sub, err := fs.Sub(embedded, "words")
	if err != nil {
		panic(err) // the folder is named in the embed directive above
	}
	return sub
}

// Words are all the words a reply may need in one locale. They do not change.
type Words struct {
	Locale  string // BCP 47, as replies name it
	rules   *working.Words
	quotes  *quote.Words
	own     *quote.Words
	dangers *caution.Words
}

// LoadWords reads the words of a locale, "en" being the one there is. The words
// of dangers are held against the book they are of.
func LoadWords(dangers *caution.Book) (*Words, error) {
	const folder = "en"
	rules, err := working.LoadWords(working.Embedded(), folder)
	if err != nil {
		return nil, err
	}
	quotes, err := quote.LoadWords(quote.EmbeddedWords(), folder)
	if err != nil {
		return nil, err
	}
	own, err := quote.LoadWords(embeddedWords(), folder)
	if err != nil {
		return nil, err
	}
	texts, err := caution.LoadWords(caution.Embedded(), folder, dangers)
	if err != nil {
		return nil, err
	}
	return &Words{Locale: "en-US", rules: rules, quotes: quotes, own: own, dangers: texts}, nil
}

// sentence is a sentence of room quote; nil when there is nothing to say.
func (w *Words) sentence(s quote.Sentence) *daybreakv1.Words {
	if s.Empty() {
		return nil
	}
	return said(s, w.quotes.Say(s))
}

func (w *Words) sentences(all []quote.Sentence) []*daybreakv1.Words {
	var out []*daybreakv1.Words
	for _, s := range all {
		out = append(out, w.sentence(s))
	}
	return out
}

// say is a text of this room with its arguments.
func (w *Words) say(key string, terms ...working.Term) *daybreakv1.Words {
	s := quote.Said(key, terms...)
	return said(s, w.own.Say(s))
}

// rule is the plain sentence of a rule's words, for keys of room working that
// are no step.
func (w *Words) rule(key string, terms ...working.Term) *daybreakv1.Words {
	step := working.Step{Rule: key, In: working.In(terms...)}
	return said(quote.Said(key, terms...), w.rules.Sentence(step))
}

func said(s quote.Sentence, text string) *daybreakv1.Words {
	out := &daybreakv1.Words{Key: s.Key, Text: text}
	for _, a := range s.Args {
		value := a.Word
		if value == "" {
			value = unit.Print(a.Value, 4) + a.Unit
		}
		out.Arguments = append(out.Arguments, &daybreakv1.WordsArgument{Name: a.Name, Value: value})
	}
	return out
}
