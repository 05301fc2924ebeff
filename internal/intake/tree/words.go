package tree

import (
	"io/fs"
	"maps"
	"slices"
	"strings"

	"daybreak/internal/facts"
	"daybreak/internal/fault"
	"daybreak/internal/fault/datafile"
)

// Words is everything people read of a tree in one locale. Texts may hold
// {names} that the edge fills in.
type Words struct {
	Locale         string                       `yaml:"locale"`
	Name           string                       `yaml:"name"`   // of the locale, in itself
	Help           map[string]string            `yaml:"help"`   // buttons and notices of every turn
	States         map[string]string            `yaml:"states"` // how we came by a fact
	Bases          map[string]string            `yaml:"bases"`  // what a derived fact rests on
	Checks         map[string]string            `yaml:"checks"` // said when an answer is not accepted
	Units          map[string]string            `yaml:"units"`  // by the leaf table's spelling; {n} is the number
	Leaves         map[string]string            `yaml:"leaves"` // chip labels, by path
	Values         map[string]map[string]string `yaml:"values"` // by word list, by word
	Contradictions map[string]string            `yaml:"contradictions"`
	Questions      map[string]QuestionWords     `yaml:"questions"`
}

// QuestionWords is one question as it is read.
type QuestionWords struct {
	Words   string            `yaml:"words"` // to the shopper
	Agent   string            `yaml:"agent"` // aloud, by an agent
	Why     string            `yaml:"why"`   // why we ask
	Find    []string          `yaml:"find"`  // how to find out, step by step
	Choices map[string]string `yaml:"choices"`
}

var (
	helpKeys  = []string{"unsure", "skip", "why", "find", "change", "undo", "stop", "danger", "walk", "guess", "done", "true", "false", "open"}
	stateKeys = []string{"unknown", "unsure", "narrowed", "told", "derived"}
	checkKeys = []string{"number", "whole", "postal", "hour", "choice", "several", "vehicle", "not_asked"}
)

// loadWords reads a locale and checks that it has every text of the tree and
// the leaf table, and no other.
func loadWords(fsys fs.FS, name string, t *Tree) (*Words, []byte, error) {
	w := &Words{}
	opened, err := datafile.Open(fsys, name, w)
	if err != nil {
		return nil, nil, err
	}
	f := file{opened}
	if w.Locale != localeOf(name) || w.Name == "" {
		return nil, nil, f.fault(w.Locale, "the locale the file is named for, and its own name", "locale")
	}
	for _, part := range []struct {
		key  string
		have map[string]string
		want []string
	}{
		{"help", w.Help, helpKeys},
		{"states", w.States, stateKeys},
		{"bases", w.Bases, facts.BasisWords()},
		{"checks", w.Checks, checkKeys},
		{"units", w.Units, unitsOf(t)},
		{"leaves", w.Leaves, leafPaths()},
		{"contradictions", w.Contradictions, contradictionIDs(t)},
	} {
		if err := sameKeys(f, part.have, part.want, part.key); err != nil {
			return nil, nil, err
		}
	}
	if err := w.checkValues(f); err != nil {
		return nil, nil, err
	}
	if err := w.checkQuestions(f, t); err != nil {
		return nil, nil, err
	}
	return w, f.Raw, nil
}

// sameKeys faults the first key that is missing, empty or too many.
func sameKeys(f file, have map[string]string, want []string, at ...any) error {
	for _, key := range want {
		if strings.TrimSpace(have[key]) == "" {
			return located(f, "no text for "+key, at)
		}
	}
	for _, key := range slices.Sorted(maps.Keys(have)) {
		if !slices.Contains(want, key) {
			return located(f, key, append(slices.Clone(at), key))
		}
	}
	return nil
}

func located(f file, got string, at []any) *fault.Fault {
	return f.fault(got, "a text for every id of the tree and the fact list, and no other", at...)
}

func (w *Words) checkValues(f file) error {
	for _, list := range facts.Lists() {
		if err := sameKeys(f, w.Values[list.Name], list.Words, "values", list.Name); err != nil {
			return err
		}
	}
	if len(w.Values) != len(facts.Lists()) {
		return located(f, "another word list", []any{"values"})
	}
	return nil
}

func (w *Words) checkQuestions(f file, t *Tree) error {
	for _, q := range t.questions {
		words, ok := w.Questions[q.ID]
		if !ok {
			return located(f, "no texts for "+q.ID, []any{"questions"})
		}
		texts := map[string]string{"words": words.Words, "agent": words.Agent, "why": words.Why, "find": strings.Join(words.Find, " ")}
		if err := sameKeys(f, texts, []string{"words", "agent", "why", "find"}, "questions", q.ID); err != nil {
			return err
		}
		ids := make([]string, len(q.Choices))
		for i, c := range q.Choices {
			ids[i] = c.ID
		}
		if err := sameKeys(f, words.Choices, ids, "questions", q.ID, "choices"); err != nil {
			return err
		}
	}
	for _, id := range slices.Sorted(maps.Keys(w.Questions)) {
		if _, ok := t.byID[id]; !ok {
			return located(f, id, []any{"questions", id})
		}
	}
	return nil
}

func leafPaths() []string {
	var paths []string
	for _, l := range facts.Leaves() {
		paths = append(paths, l.Path)
	}
	return paths
}

// unitsOf lists the units of the leaf table and those a question accepts.
func unitsOf(t *Tree) []string {
	var units []string
	for _, l := range facts.Leaves() {
		units = append(units, l.Unit)
	}
	for _, q := range t.questions {
		units = append(units, q.Accepts...)
	}
	slices.Sort(units)
	return slices.DeleteFunc(slices.Compact(units), func(u string) bool { return u == "" })
}

func contradictionIDs(t *Tree) []string {
	var ids []string
	for _, c := range t.contradictions {
		ids = append(ids, c.ID)
	}
	return ids
}
