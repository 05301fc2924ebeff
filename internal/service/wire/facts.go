package wire

import (
	"errors"
	"fmt"
	"slices"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/facts"
	"daybreak/internal/fault"

	"google.golang.org/protobuf/reflect/protoreflect"
)

// Facts reads the household a message tells. Every leaf that is refused is a
// fault named by its path below field ("facts.panel.service_amps"); on any, the
// household is not to be used.
func Facts(field string, m *daybreakv1.Facts) (facts.Facts, error) {
	in := reading{prefix: field + "."}
	if m == nil {
		return in.facts, nil
	}
	in.told(m.ProtoReflect(), root)
	for i, path := range m.GetUnsure() {
		in.unsure(fmt.Sprintf("unsure[%d]", i), path)
	}
	for i, n := range m.GetNarrowed() {
		in.narrowed(fmt.Sprintf("narrowed[%d]", i), n)
	}
	if len(m.GetDerived()) > 0 {
		in.refuse(fault.Invalid("derived", len(m.GetDerived()), "nothing: it is given in replies only"))
	}
	slices.SortFunc(in.refused, func(a, b *fault.Fault) int { return compare(a.Field, b.Field) })
	errs := make([]error, len(in.refused))
	for i, f := range in.refused {
		errs[i] = f
	}
	return in.facts, errors.Join(errs...)
}

// reading is a household being filled, and what was refused of it.
type reading struct {
	prefix  string
	facts   facts.Facts
	refused []*fault.Fault
}

func (in *reading) refuse(err error) {
	f, ok := fault.As(err)
	if !ok {
		f = fault.Invalid("", err, "a fact of the list")
	}
	named := *f
	named.Field = in.prefix + f.Field
	in.refused = append(in.refused, &named)
}

// told walks the fields that are present.
func (in *reading) told(m protoreflect.Message, n *node) {
	m.Range(func(f protoreflect.FieldDescriptor, v protoreflect.Value) bool {
		b := n.fields[f.Number()]
		switch {
		case b.below != nil:
			in.told(v.Message(), b.below)
		case b.leaf != nil:
			if err := b.leaf.At(&in.facts).Tell(plain(b.leaf, v)); err != nil {
				in.refuse(err)
			}
		}
		return true
	})
}

// plain is a field's value as the leaf takes it.
func plain(l *facts.Leaf, v protoreflect.Value) any {
	switch l.Kind {
	case facts.Number:
		return v.Float()
	case facts.Whole, facts.Money:
		return v.Int()
	case facts.Flag:
		return v.Bool()
	case facts.Choice:
		return wordOf(l.Words, v.Enum())
	case facts.Set:
		m := v.Message()
		list := m.Get(m.Descriptor().Fields().ByNumber(setWords)).List()
		words := make([]string, list.Len())
		for i := range words {
			words[i] = wordOf(l.Words, list.Get(i).Enum())
		}
		return words
	}
	return v.String()
}

func (in *reading) unsure(field, path string) {
	leaf, ok := facts.LeafAt(path)
	if !ok {
		in.refuse(at(field, facts.UnknownPath(path)))
		return
	}
	slot := leaf.At(&in.facts)
	if slot.State() != facts.Unknown {
		in.refuse(fault.Invalid(field, path, "the path of a fact that is told nowhere else"))
		return
	}
	slot.Unsure()
}

func (in *reading) narrowed(field string, n *daybreakv1.Narrowed) {
	leaf, ok := facts.LeafAt(n.GetPath())
	if !ok {
		in.refuse(at(field+".path", facts.UnknownPath(n.GetPath())))
		return
	}
	if leaf.At(&in.facts).State() != facts.Unknown {
		in.refuse(fault.Invalid(field+".path", n.GetPath(), "the path of a fact that is told nowhere else"))
		return
	}
	if len(n.GetNumbers()) > 0 && len(n.GetWords()) > 0 {
		in.refuse(fault.Invalid(field, "numbers and words", "numbers for a number, words for a word"))
		return
	}
	values := make([]any, 0, facts.MostCandidates)
	for _, x := range n.GetNumbers() {
		values = append(values, x)
	}
	for _, w := range n.GetWords() {
		values = append(values, w)
	}
	if err := in.facts.Narrow(n.GetPath(), facts.Weight(n.GetKind()), values...); err != nil {
		in.refuse(at(field, err))
	}
}

// at moves a fault to the field of the message it stands in.
func at(field string, err error) error {
	f, ok := fault.As(err)
	if !ok {
		return err
	}
	moved := *f
	if moved.Got == "" {
		moved.Got = fmt.Sprintf("%q", f.Field)
	}
	moved.Field = field
	return &moved
}

func compare(a, b string) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// FactsMessage tells a household on the wire. Derived leaves stand in their
// slots and are named in `derived` with where they came from.
func FactsMessage(f *facts.Facts) *daybreakv1.Facts {
	out := &daybreakv1.Facts{}
	fill(out.ProtoReflect(), root, f, out)
	for _, n := range f.Narrowings() {
		out.Narrowed = append(out.Narrowed, narrowedMessage(n))
	}
	return out
}

// fill sets the fields of m that have a value and reports whether any had.
func fill(m protoreflect.Message, n *node, f *facts.Facts, out *daybreakv1.Facts) bool {
	some := false
	for _, b := range n.fields {
		switch {
		case b.below != nil:
			child := m.NewField(b.field).Message()
			if fill(child, b.below, f, out) {
				m.Set(b.field, protoreflect.ValueOfMessage(child))
				some = true
			}
		case b.leaf != nil:
			some = fillLeaf(m, b, f, out) || some
		}
	}
	return some
}

func fillLeaf(m protoreflect.Message, b branch, f *facts.Facts, out *daybreakv1.Facts) bool {
	slot := b.leaf.At(f)
	switch slot.State() {
	case facts.Unsure:
		out.Unsure = append(out.Unsure, b.leaf.Path)
		return false
	case facts.Derived:
		out.Derived = append(out.Derived, &daybreakv1.Derived{Path: b.leaf.Path, Source: slot.Basis().String()})
	case facts.Told:
	default:
		return false
	}
	m.Set(b.field, value(m, b, slot))
	return true
}

func value(m protoreflect.Message, b branch, slot facts.Slot) protoreflect.Value {
	x, _ := slot.Number()
	switch b.leaf.Kind {
	case facts.Number:
		return protoreflect.ValueOfFloat64(x)
	case facts.Whole:
		return protoreflect.ValueOfInt32(int32(x))
	case facts.Money:
		return protoreflect.ValueOfInt64(int64(x))
	case facts.Flag:
		return protoreflect.ValueOfBool(x == 1)
	case facts.Choice:
		return protoreflect.ValueOfEnum(protoreflect.EnumNumber(x))
	case facts.Set:
		set := m.NewField(b.field)
		list := set.Message().Mutable(b.field.Message().Fields().ByNumber(setWords)).List()
		for i := range b.leaf.Words {
			if uint32(x)&(1<<i) != 0 {
				list.Append(protoreflect.ValueOfEnum(protoreflect.EnumNumber(i + 1)))
			}
		}
		return set
	case facts.Day:
		d, _ := slot.Value().(facts.Date)
		return protoreflect.ValueOfString(d.String())
	}
	s, _ := slot.Text()
	return protoreflect.ValueOfString(s)
}

func narrowedMessage(n facts.Narrowing) *daybreakv1.Narrowed {
	out := &daybreakv1.Narrowed{Path: n.Leaf().Path, Kind: daybreakv1.NarrowedKind(n.Weight())}
	if n.Leaf().Kind != facts.Choice {
		out.Numbers = n.Numbers()
		return out
	}
	for _, v := range n.Values() {
		word, _ := v.(string)
		out.Words = append(out.Words, word)
	}
	return out
}
