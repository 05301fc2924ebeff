package caution

import (
	"cmp"
	"slices"

	"daybreak/internal/facts"
	"daybreak/internal/facts/condition"
)

// Raised is a finding another room came to, such as the verdict on an outlet.
type Raised struct {
	Code string
	Slot string // "outlet", "other_outlet", or "" when it is about neither
}

// Findings lays every condition beside the facts, adds what other rooms
// raised, and returns each code once a slot, gravest first: by gravity, then
// the severity order of the file, then by what is halted, code and slot. A
// raised code the book does not hold halts the quote, since a danger is never
// dropped.
func (b *Book) Findings(f *facts.Facts, raised ...Raised) []Finding {
	var out []Finding
	for _, e := range b.entries {
		for i := range e.askings {
			if found, ok := e.find(&e.askings[i], f); ok {
				out = append(out, found)
			}
		}
	}
	for _, r := range raised {
		e, known := b.byCode[r.Code]
		if !known {
			e = &entry{Code: r.Code, Gravity: Halt, Halts: Quote, Call: "electrician"}
		}
		out = append(out, e.finding(e.Gravity, e.Halts, r.Slot, nil))
	}
	return merge(b.sorted(out))
}

// OnSite lists what only an electrician can see. It stands on every list to
// verify before work begins.
func (b *Book) OnSite() []Finding {
	var out []Finding
	for _, e := range b.entries {
		if e.Site {
			out = append(out, e.finding(ToBeChecked, Nothing, "", nil))
		}
	}
	return out
}

// Codes lists every code of the book, in the order of the file.
func (b *Book) Codes() []string {
	out := make([]string, len(b.entries))
	for i, e := range b.entries {
		out[i] = e.Code
	}
	return out
}

func (e *entry) find(a *asking, f *facts.Facts) (Finding, bool) {
	if !a.touched(f) {
		return Finding{}, false
	}
	if a.when != nil && a.when.Truth(f) == condition.True {
		halts := e.Halts
		if a.whole != nil && a.whole.Truth(f) == condition.True {
			halts = Quote
		}
		leaves := a.pair
		if leaves == nil {
			leaves = having(f, a.when.Reads(), true)
		}
		return e.finding(e.Gravity, halts, a.slot, leaves), true
	}
	if a.check != nil && a.check.Truth(f) == condition.True {
		leaves := having(f, a.check.Reads(), false)
		if len(leaves) == 0 {
			leaves = a.check.Reads()
		}
		return e.finding(ToBeChecked, Nothing, a.slot, leaves), true
	}
	return Finding{}, false
}

// touched reports whether any leaf the asking reads was ever answered. No
// condition holds for a household of which nothing is known (a test proves it
// of each), so the rest need not be evaluated.
func (a *asking) touched(f *facts.Facts) bool {
	return slices.ContainsFunc(a.reads, func(l *facts.Leaf) bool { return l.At(f).State() != facts.Unknown })
}

func (e *entry) finding(g Gravity, halts Reach, slot string, leaves []string) Finding {
	return Finding{Code: e.Code, Gravity: g, Halts: halts, Slot: slot, Leaves: leaves, Words: e.Code,
		Emergency: e.Emergency && g == Halt, Call: e.Call, Source: e.Source}
}

// having keeps the paths that have a value to use, or those that have none.
func having(f *facts.Facts, paths []string, value bool) []string {
	var out []string
	for _, p := range paths {
		if l, ok := facts.LeafAt(p); ok && l.At(f).Has() == value {
			out = append(out, p)
		}
	}
	return out
}

var (
	gravityOrder = []Gravity{Halt, AddsLines, Said, ToBeChecked}
	reachOrder   = []Reach{Quote, ExistingOutlet, OptionsUsing, Nothing}
)

func (b *Book) sorted(found []Finding) []Finding {
	rank := func(f Finding) int {
		if i := slices.Index(b.severity, f.Code); i >= 0 {
			return i
		}
		return len(b.severity)
	}
	slices.SortStableFunc(found, func(x, y Finding) int {
		return cmp.Or(
			cmp.Compare(slices.Index(gravityOrder, x.Gravity), slices.Index(gravityOrder, y.Gravity)),
			cmp.Compare(rank(x), rank(y)),
			cmp.Compare(slices.Index(reachOrder, x.Halts), slices.Index(reachOrder, y.Halts)),
			cmp.Compare(y.Code[:1], x.Code[:1]), // findings before contradictions
			cmp.Compare(x.Code, y.Code),
			cmp.Compare(twinLast(x.Slot), twinLast(y.Slot)),
		)
	})
	return found
}

func twinLast(slot string) string {
	for slot1, twin := range twins {
		if slot == twin {
			return slot1 + "~"
		}
	}
	return slot
}

// merge keeps the gravest of each code and slot, with the leaves of all. The
// list is sorted, so the gravest stands first.
func merge(found []Finding) []Finding {
	var out []Finding
	for _, f := range found {
		i := slices.IndexFunc(out, func(o Finding) bool { return o.Code == f.Code && o.Slot == f.Slot })
		if i < 0 {
			out = append(out, f)
			continue
		}
		if out[i].Gravity != f.Gravity {
			continue
		}
		for _, l := range f.Leaves {
			if !slices.Contains(out[i].Leaves, l) {
				out[i].Leaves = append(slices.Clone(out[i].Leaves), l)
			}
		}
	}
	return out
}
