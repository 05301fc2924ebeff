package condition

import (
	"daybreak/internal/facts"

	"cel.dev/cel-go/common/types"
	"cel.dev/cel-go/common/types/ref"
	"cel.dev/cel-go/interpreter"
)

// household lends the facts to the interpreter as they stand; it is the same
// memory under another name, so an evaluation copies nothing.
type household facts.Facts

// ResolveName gives the value of a leaf, or an unknown that carries its place
// in the leaf table.
func (h *household) ResolveName(name string) (any, bool) {
	f := (*facts.Facts)(h)
	if v, ok := variables[name]; ok {
		return v.resolve(f), true
	}
	return nil, false
}

// Parent is none.
func (h *household) Parent() interpreter.Activation { return nil }

// variable is one name a condition may mention, with its answers made ready.
type variable struct {
	leaf    *facts.Leaf
	root    string // knownOf, toldOf, unsureOf, or empty for the value itself
	unknown *types.Unknown
	words   []ref.Val // of a Choice, by ordinal
}

var variables = makeVariables()

func makeVariables() map[string]*variable {
	m := make(map[string]*variable, 4*len(facts.Leaves()))
	for _, l := range facts.Leaves() {
		v := &variable{leaf: l, unknown: types.NewUnknown(int64(l.Index)+1, types.NewAttributeTrail(l.Path))}
		if l.Kind == facts.Choice {
			v.words = []ref.Val{types.String("")}
			for _, w := range l.Words {
				v.words = append(v.words, types.String(w))
			}
		}
		m[l.Path] = v
		for _, root := range []string{knownOf, toldOf, unsureOf} {
			m[root+"."+l.Path] = &variable{leaf: l, root: root}
		}
	}
	return m
}

func (v *variable) resolve(f *facts.Facts) ref.Val {
	slot := v.leaf.At(f)
	state := slot.State()
	switch v.root {
	case knownOf:
		return types.Bool(state >= facts.Told)
	case toldOf:
		return types.Bool(state == facts.Told)
	case unsureOf:
		return types.Bool(state == facts.Unsure || state == facts.Narrowed)
	}
	if state < facts.Told {
		return v.unknown
	}
	switch v.leaf.Kind {
	case facts.Choice:
		n, _ := slot.Number()
		return v.words[int(n)]
	case facts.Flag:
		n, _ := slot.Number()
		return types.Bool(n == 1)
	case facts.Set:
		return types.NewStringList(types.DefaultTypeAdapter, slot.Value().([]string))
	case facts.Text:
		s, _ := slot.Text()
		return types.String(s)
	case facts.Day:
		return types.String(slot.Value().(facts.Date).String())
	}
	n, _ := slot.Number()
	return types.Double(n)
}
