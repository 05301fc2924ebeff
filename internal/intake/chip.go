package intake

import (
	"cmp"
	"slices"

	"daybreak/internal/facts"
	"daybreak/internal/intake/tree"
)

// Chip is one known fact, as it is shown back.
type Chip struct {
	Leaf      *facts.Leaf
	State     facts.State
	Basis     facts.Basis      // of a derived fact
	Value     any              // as [facts.Slot.Value]; nil when there is none
	Narrowing *facts.Narrowing // when narrowed
	Question  string           // that asks for it; "" when none does
	Entry     int              // that said it; 0 when derived
}

// Chips lists what is known: what was said, in the order it was said last, and
// then what follows from it, in the order of the leaf table.
func (s *State) Chips(t *tree.Tree) []Chip {
	var chips []Chip
	for _, l := range facts.Leaves() {
		slot := l.At(&s.Facts)
		if slot.State() == facts.Unknown {
			continue
		}
		c := Chip{Leaf: l, State: slot.State(), Basis: slot.Basis(), Value: slot.Value()}
		if n, ok := s.Facts.NarrowedTo(l); ok {
			c.Narrowing = &n
		}
		if c.State != facts.Derived {
			c.Entry = s.sources[l.Index].entry
		}
		if q := s.sources[l.Index].question; q != nil && c.Entry > 0 {
			c.Question = q.ID
		} else if asked := t.Setting(l.Path); len(asked) > 0 {
			c.Question = asked[0].ID
		}
		chips = append(chips, c)
	}
	slices.SortStableFunc(chips, func(a, b Chip) int {
		return cmp.Or(cmp.Compare(later(a), later(b)), cmp.Compare(a.Leaf.Index, b.Leaf.Index))
	})
	return chips
}

func later(c Chip) int {
	if c.Entry == 0 {
		return 1 << 30
	}
	return c.Entry
}
