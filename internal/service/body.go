package service

import (
	"crypto/sha256"
	"fmt"
	"hash"
	"slices"
	"strconv"

	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// apart are the fields that do not make a request another one.
var apart = []protoreflect.Name{"request_id", "base_revision"}

// bodyOf digests a request in our own canonical form: field by field in order
// of number, path and value. Which revision it was based on and by which name
// it goes are not part of it. Bytes of protobuf would not do: their order is
// not promised.
func bodyOf(m proto.Message) [sha256.Size]byte {
	h := sha256.New()
	fmt.Fprintf(h, "%s\n", m.ProtoReflect().Descriptor().FullName())
	writeBody(h, "", m.ProtoReflect())
	return [sha256.Size]byte(h.Sum(nil))
}

func writeBody(h hash.Hash, prefix string, m protoreflect.Message) {
	var fields []protoreflect.FieldDescriptor
	m.Range(func(f protoreflect.FieldDescriptor, _ protoreflect.Value) bool {
		if prefix != "" || !slices.Contains(apart, f.Name()) {
			fields = append(fields, f)
		}
		return true
	})
	slices.SortFunc(fields, func(a, b protoreflect.FieldDescriptor) int { return int(a.Number()) - int(b.Number()) })
	for _, f := range fields {
		path := prefix + string(f.Name())
		v := m.Get(f)
		if !f.IsList() {
			writeValue(h, path, f, v)
			continue
		}
		for i := range v.List().Len() {
			writeValue(h, path+"["+strconv.Itoa(i)+"]", f, v.List().Get(i))
		}
	}
}

func writeValue(h hash.Hash, path string, f protoreflect.FieldDescriptor, v protoreflect.Value) {
	if f.Kind() == protoreflect.MessageKind {
		fmt.Fprintf(h, "%s\n", path) // present and empty is not absent
		writeBody(h, path+".", v.Message())
		return
	}
	fmt.Fprintf(h, "%s=%q\n", path, v.String())
}
