package tree

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"errors"
	"io/fs"
	"path"
	"slices"
	"strings"

	"daybreak/internal/facts"
	"daybreak/internal/facts/condition"
	"daybreak/internal/fault/datafile"
)

//go:embed house
var embedded embed.FS

// Embedded returns the tree that ships with the program.
func Embedded() fs.FS {
	sub, err := fs.Sub(embedded, "house")
	if err != nil {
		panic(err) // the folder is named in the embed directive above
	}
	return sub
}

const (
	questionsFile = "questions.yaml"
	defaultLocale = "en"
)

// Load reads questions.yaml and every words/<locale>.yaml and checks them. All
// faults of the structure are joined, each with file, line and field; words
// are checked once the structure holds.
func Load(fsys fs.FS) (*Tree, error) {
	var doc treeDoc
	opened, err := datafile.Open(fsys, questionsFile, &doc)
	if err != nil {
		return nil, err
	}
	f := file{opened}
	b := builder{file: f, doc: &doc, tree: &Tree{byID: map[string]*Question{}, words: map[string]*Words{}}}
	b.build()
	if len(b.faults) > 0 {
		return nil, errors.Join(b.faults...)
	}
	digest := sha256.New()
	digest.Write(f.Raw)
	names, err := fs.Glob(fsys, "words/*.yaml")
	if err != nil || len(names) == 0 {
		return nil, f.fault("no words", "a words folder with one file for each locale")
	}
	for _, name := range names {
		w, raw, err := loadWords(fsys, name, b.tree)
		if err != nil {
			return nil, err
		}
		digest.Write(raw)
		b.tree.words[w.Locale] = w
		b.tree.locales = append(b.tree.locales, w.Locale)
	}
	// Names come sorted; the default locale goes to the front.
	if i := slices.Index(b.tree.locales, defaultLocale); i > 0 {
		b.tree.locales = slices.Insert(slices.Delete(b.tree.locales, i, i+1), 0, defaultLocale)
	}
	b.tree.revision = hex.EncodeToString(digest.Sum(nil)[:8])
	return b.tree, nil
}

// localeOf is the file's name without folder and ending.
func localeOf(name string) string { return strings.TrimSuffix(path.Base(name), ".yaml") }

// builder turns the document into a tree and collects what is wrong with it.
type builder struct {
	file   file
	doc    *treeDoc
	tree   *Tree
	faults []error
}

func (b *builder) fault(got any, accepted string, path ...any) {
	b.faults = append(b.faults, b.file.fault(got, accepted, path...))
}

func (b *builder) build() {
	if b.doc.Version != 1 {
		b.fault(b.doc.Version, "version 1", "version")
	}
	for i := range b.doc.Questions {
		b.question(i, &b.doc.Questions[i])
	}
	b.order()
	if len(b.faults) > 0 {
		return
	}
	b.distributions()
	b.contradictions()
	if len(b.faults) > 0 {
		return
	}
	b.sortSteps()
	b.dimensions()
	b.reachable()
}

// leaf finds the leaf of a path, or faults.
func (b *builder) leaf(p string, at ...any) *facts.Leaf {
	l, ok := facts.LeafAt(p)
	if !ok {
		b.fault(p, "the path of a fact, such as "+facts.NearestPath(p), at...)
	}
	return l
}

// condition compiles a condition, or faults. An empty one is nil.
func (b *builder) condition(src string, at ...any) *condition.Condition {
	if src == "" {
		return nil
	}
	c, err := condition.Compile(src)
	if err != nil {
		b.fault(src, "a condition: "+err.Error(), at...)
		return nil
	}
	return c
}
