package wire_test

import (
	"slices"
	"strings"
	"testing"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/facts"
	"daybreak/internal/service/wire"

	"buf.build/gen/go/bufbuild/protovalidate/protocolbuffers/go/buf/validate"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"
)

// sideLists stand beside the slots of Facts and are no leaves.
var sideLists = []string{"unsure", "narrowed", "derived"}

// The contract and the leaf table are one list: same paths in the same order,
// same kinds, units, limits and words.
func TestContractHoldsTheLeavesOfTheCore(t *testing.T) {
	onWire := map[string]protoreflect.FieldDescriptor{}
	var paths []string
	var walk func(m protoreflect.MessageDescriptor, prefix string)
	walk = func(m protoreflect.MessageDescriptor, prefix string) {
		for i := range m.Fields().Len() {
			f := m.Fields().Get(i)
			path := prefix + string(f.Name())
			switch {
			case slices.Contains(sideLists, path):
			case f.Kind() == protoreflect.MessageKind && !strings.HasSuffix(string(f.Message().Name()), "Set"):
				walk(f.Message(), path+".")
			default:
				onWire[path] = f
				paths = append(paths, path)
			}
		}
	}
	walk((&daybreakv1.Facts{}).ProtoReflect().Descriptor(), "")

	var core []string
	for _, l := range facts.Leaves() {
		core = append(core, l.Path)
	}
	require.ElementsMatch(t, core, paths)
	for _, l := range facts.Leaves() {
		t.Run(l.Path, func(t *testing.T) { requireSameLeaf(t, l, onWire[l.Path]) })
	}
}

func requireSameLeaf(t *testing.T, l *facts.Leaf, f protoreflect.FieldDescriptor) {
	rules, _ := proto.GetExtension(f.Options(), validate.E_Field).(*validate.FieldRules)
	unit, _ := proto.GetExtension(f.Options(), daybreakv1.E_Unit).(string)
	switch l.Kind {
	case facts.Number:
		require.Equal(t, protoreflect.DoubleKind, f.Kind())
		require.Equal(t, l.Unit, unit)
		requireLimits(t, l, rules.GetDouble().GetGte(), rules.GetDouble().GetLte(), rules.GetDouble().GetIn())
		require.True(t, rules.GetDouble().GetFinite())
	case facts.Whole:
		require.Equal(t, protoreflect.Int32Kind, f.Kind())
		require.Equal(t, l.Unit, unit)
		requireLimits(t, l, float64(rules.GetInt32().GetGte()), float64(rules.GetInt32().GetLte()), floats(rules.GetInt32().GetIn()))
	case facts.Money:
		require.Equal(t, protoreflect.Int64Kind, f.Kind())
		requireLimits(t, l, float64(rules.GetInt64().GetGte()), float64(rules.GetInt64().GetLte()), nil)
	case facts.Flag:
		require.Equal(t, protoreflect.BoolKind, f.Kind())
	case facts.Choice:
		require.Equal(t, protoreflect.EnumKind, f.Kind())
		require.True(t, rules.GetEnum().GetDefinedOnly())
		requireSameWords(t, l, f.Enum())
	case facts.Set:
		require.Equal(t, protoreflect.MessageKind, f.Kind())
		requireSameWords(t, l, f.Message().Fields().Get(0).Enum())
	case facts.Text, facts.Day:
		require.Equal(t, protoreflect.StringKind, f.Kind())
		require.NotEmpty(t, rules.GetString().GetPattern())
	default:
		require.Fail(t, "a kind this test does not know", l.Kind)
	}
	if f.Kind() != protoreflect.MessageKind {
		require.True(t, f.HasPresence(), "a leaf that is not told must be told apart from zero")
	}
}

func requireLimits(t *testing.T, l *facts.Leaf, low, high float64, oneOf []float64) {
	if len(l.OneOf) > 0 {
		require.ElementsMatch(t, l.OneOf, oneOf)
		return
	}
	require.Equal(t, []float64{l.Low, l.High}, []float64{low, high})
}

func floats(in []int32) (out []float64) {
	for _, x := range in {
		out = append(out, float64(x))
	}
	return out
}

// Enum numbers are the places of the words in their list, so that the mapping
// needs no names.
func requireSameWords(t *testing.T, l *facts.Leaf, e protoreflect.EnumDescriptor) {
	require.True(t, strings.EqualFold(l.List, string(e.Name())), "list %s, enum %s", l.List, e.Name())
	zero := string(e.Values().ByNumber(0).Name())
	prefix, ok := strings.CutSuffix(zero, "UNSPECIFIED")
	require.True(t, ok)
	require.Equal(t, len(l.Words)+1, e.Values().Len())
	for i, w := range l.Words {
		require.Equal(t, wire.EnumName(prefix, w), string(e.Values().ByNumber(protoreflect.EnumNumber(i+1)).Name()))
	}
}

// What no message of the contract may have, whatever it is about.
func TestContractKeepsItsRules(t *testing.T) {
	var files int
	protoregistry.GlobalFiles.RangeFilesByPackage("daybreak.v1", func(file protoreflect.FileDescriptor) bool {
		files++
		for i := range file.Messages().Len() {
			requireRules(t, file.Messages().Get(i))
		}
		for i := range file.Enums().Len() {
			e := file.Enums().Get(i)
			require.True(t, strings.HasSuffix(string(e.Values().ByNumber(0).Name()), "_UNSPECIFIED"), e.FullName())
		}
		return true
	})
	require.Positive(t, files)
}

func requireRules(t *testing.T, m protoreflect.MessageDescriptor) {
	for i := range m.Fields().Len() {
		f := m.Fields().Get(i)
		require.False(t, f.IsMap(), "%s is a map: its order is not ours", f.FullName())
		require.NotEqual(t, protoreflect.FloatKind, f.Kind(), "%s: quantities are doubles", f.FullName())
	}
	for i := range m.Messages().Len() {
		requireRules(t, m.Messages().Get(i))
	}
}

// Every string, list and number of a request has a limit.
func TestEveryRequestFieldIsLimited(t *testing.T) {
	seen := map[protoreflect.FullName]bool{}
	var walk func(m protoreflect.MessageDescriptor)
	walk = func(m protoreflect.MessageDescriptor) {
		if seen[m.FullName()] {
			return
		}
		seen[m.FullName()] = true
		for i := range m.Fields().Len() {
			f := m.Fields().Get(i)
			rules, _ := proto.GetExtension(f.Options(), validate.E_Field).(*validate.FieldRules)
			requireLimited(t, f, rules)
			if f.Message() != nil {
				walk(f.Message())
			}
		}
	}
	for _, file := range []protoreflect.FileDescriptor{
		daybreakv1.File_daybreak_v1_intake_service_proto, daybreakv1.File_daybreak_v1_quote_service_proto,
		daybreakv1.File_daybreak_v1_design_service_proto, daybreakv1.File_daybreak_v1_catalogue_service_proto,
	} {
		for i := range file.Services().Get(0).Methods().Len() {
			walk(file.Services().Get(0).Methods().Get(i).Input())
		}
	}
}

func requireLimited(t *testing.T, f protoreflect.FieldDescriptor, rules *validate.FieldRules) {
	if strings.HasPrefix(string(f.FullName()), "daybreak.v1.Derived.") {
		return // the list itself is refused in requests
	}
	if f.IsList() {
		require.True(t, rules.GetRepeated().HasMaxItems(), "%s: a list without an end", f.FullName())
		rules = rules.GetRepeated().GetItems()
	}
	switch f.Kind() {
	case protoreflect.StringKind:
		s := rules.GetString()
		require.True(t, s.HasMaxLen() || s.HasPattern() || s.HasLen(), "%s: a text without an end", f.FullName())
	case protoreflect.BytesKind:
		require.Fail(t, "no request takes bytes", f.FullName())
	case protoreflect.EnumKind:
		require.True(t, rules.GetEnum().GetDefinedOnly(), "%s: any number would do", f.FullName())
	}
}
