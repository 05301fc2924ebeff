package wire

import (
	"slices"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/facts"

	"google.golang.org/protobuf/reflect/protoreflect"
)

// leafAt is a leaf this room names itself; a test walks every name used here.
func leafAt(path string) *facts.Leaf {
	leaf, ok := facts.LeafAt(path)
	if !ok {
		return &facts.Leaf{Path: path}
	}
	return leaf
}

// placeOf is the place of a word in the list of a leaf, counted from one, which
// is its enum number; 0 for a word that is not on it.
func placeOf(path, word string) int32 {
	return int32(slices.Index(leafAt(path).Words, word) + 1)
}

// configuration is a receptacle face on the wire; nil for none.
func configuration(id string) *daybreakv1.Configuration {
	n := placeOf("outlet.configuration", id)
	if n == 0 {
		return nil
	}
	return daybreakv1.Configuration(n).Enum()
}

// face is the id of a receptacle face; "" for none.
func face(c *daybreakv1.Configuration) string {
	if c == nil {
		return ""
	}
	return wordOf(leafAt("outlet.configuration").Words, c.Number())
}

// wordAt is the word at a place of a leaf's list, counted from one; "" for none.
func wordAt(path string, place int32) string {
	return wordOf(leafAt(path).Words, protoreflect.EnumNumber(place))
}
