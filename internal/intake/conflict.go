package intake

import (
	"fmt"
	"strings"

	"daybreak/internal/facts"
	"daybreak/internal/fault"
	"daybreak/internal/intake/tree"
)

// conflict faults a writer whose base is older than the head, when a fact it
// writes, or one its question's condition reads, changed in between. It shows
// both values. A change to the very value it writes is no conflict, and an
// undo, which names its entry, never is one.
func conflict(l Log, t *tree.Tree, w *tree.World, written *State, base int, writes []*facts.Leaf, q *tree.Question) error {
	then, now := Fold(l.At(base), t, w), Fold(l, t, w)
	for _, leaf := range writes {
		if !same(leaf, &then.Told, &now.Told) && !same(leaf, &now.Told, &written.Told) {
			return stale(leaf, &now.Told, &written.Told)
		}
	}
	if q == nil || q.When == nil {
		return nil
	}
	for _, path := range q.When.Reads() {
		if leaf, ok := facts.LeafAt(path); ok && !same(leaf, &then.Facts, &now.Facts) {
			return stale(leaf, &now.Facts, &then.Facts)
		}
	}
	return nil
}

func same(l *facts.Leaf, a, b *facts.Facts) bool {
	return string(l.At(a).AppendCanonical(nil)) == string(l.At(b).AppendCanonical(nil))
}

func stale(l *facts.Leaf, now, mine *facts.Facts) error {
	return &fault.Fault{
		Kind: fault.KindConflict, Reason: "STALE_REVISION", Field: l.Path, Got: shown(l, mine),
		Accepted: "a look at what was said since, and the answer again",
		Detail:   "it now stands at " + shown(l, now),
	}
}

// shown prints a leaf without its path: "told 200".
func shown(l *facts.Leaf, f *facts.Facts) string {
	line := strings.TrimSuffix(string(l.At(f).AppendCanonical(nil)), "\n")
	if _, rest, ok := strings.Cut(line, " "); ok {
		return rest
	}
	return fmt.Sprint(facts.Unknown)
}
