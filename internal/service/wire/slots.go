package wire

import (
	"strings"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/facts"

	"google.golang.org/protobuf/reflect/protoreflect"
)

// node is a message of the contract's Facts, laid beside the leaf table: for
// each of its fields, by number, the leaf it holds or the message below.
type node struct {
	fields []branch
}

type branch struct {
	field protoreflect.FieldDescriptor
	leaf  *facts.Leaf
	below *node
}

// root is the whole of Facts; it does not change.
var root = grow(daybreakv1.File_daybreak_v1_facts_proto.Messages().ByName("Facts"), "")

func grow(m protoreflect.MessageDescriptor, prefix string) *node {
	n := &node{}
	fields := m.Fields()
	for i := range fields.Len() {
		f := fields.Get(i)
		for len(n.fields) <= int(f.Number()) {
			n.fields = append(n.fields, branch{})
		}
		path := prefix + string(f.Name())
		b := branch{field: f}
		if leaf, ok := facts.LeafAt(path); ok {
			b.leaf = leaf
		} else if f.Kind() == protoreflect.MessageKind && !f.IsList() {
			b.below = grow(f.Message(), path+".")
		}
		n.fields[f.Number()] = b
	}
	return n
}

// words of a set stand in this field of its wrapper.
const setWords protoreflect.FieldNumber = 1

// wordOf is the word of a list that an enum number stands for; "" for none.
func wordOf(words []string, n protoreflect.EnumNumber) string {
	if n < 1 || int(n) > len(words) {
		return ""
	}
	return words[n-1]
}

// EnumName is the name of an enum value for a word of a list: "14-30" of
// Configuration is CONFIGURATION_14_30. The test of the contract holds the two
// lists alike.
func EnumName(prefix, word string) string {
	var b strings.Builder
	b.WriteString(prefix)
	for _, c := range strings.ToUpper(word) {
		if c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' {
			b.WriteRune(c)
		} else {
			b.WriteByte('_')
		}
	}
	return b.String()
}
