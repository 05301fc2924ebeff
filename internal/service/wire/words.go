package wire

import (
	"embed"
	"io/fs"
	"strings"
	"unicode"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/facts"
	"daybreak/internal/intake/tree"
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
	facts   *tree.Words
}

// LoadWords reads the words of a locale, "en" being the one there is. The words
// of dangers are held against the book they are of; the tree names the facts.
func LoadWords(dangers *caution.Book, questions *tree.Tree) (*Words, error) {
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
	w := &Words{Locale: "en-US", rules: rules, quotes: quotes, own: own, dangers: texts}
	w.facts = w.treeWords(questions)
	return w, nil
}

// sentence is a sentence of room quote; nil when there is nothing to say.
func (w *Words) sentence(s quote.Sentence) *daybreakv1.Words {
	if s.Empty() {
		return nil
	}
	return said(s, w.quotes.Say(w.called(s)))
}

// called is a sentence with the paths in it put as people call them.
func (w *Words) called(s quote.Sentence) quote.Sentence {
	out := quote.Sentence{Key: s.Key, Args: make([]working.Term, len(s.Args))}
	copy(out.Args, s.Args)
	for i := range out.Args {
		if _, ok := facts.LeafAt(out.Args[i].Word); ok {
			out.Args[i].Word = w.leaf(out.Args[i].Word)
		}
	}
	return out
}

// leaf is what people call a fact, as it stands within a sentence.
func (w *Words) leaf(path string) string {
	name := w.facts.Leaves[path]
	if name == "" {
		return path
	}
	if r := []rune(name); len(r) > 1 && unicode.IsUpper(r[0]) && !unicode.IsUpper(r[1]) {
		return strings.ToLower(string(r[0])) + string(r[1:])
	}
	return name
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
