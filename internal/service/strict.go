package service

import (
	"errors"
	"fmt"
	"math"
	"unicode"

	"daybreak/internal/fault"

	"google.golang.org/protobuf/reflect/protoreflect"
)

// strict refuses what no declared rule can name: a field of no contract of
// ours, a number that is none (NaN, an infinity, minus zero) and a text with
// control or direction-changing characters.
func strict(m protoreflect.Message) error {
	s := strictness{}
	s.message("", m)
	return errors.Join(s.found...)
}

type strictness struct{ found []error }

func (s *strictness) message(prefix string, m protoreflect.Message) {
	if len(m.GetUnknown()) > 0 {
		field := prefix
		if field == "" {
			field = string(m.Descriptor().Name()) + "."
		}
		s.found = append(s.found, fault.Invalid(field[:len(field)-1], "a field this service does not know", "the fields of the contract"))
	}
	m.Range(func(f protoreflect.FieldDescriptor, v protoreflect.Value) bool {
		path := prefix + string(f.Name())
		if !f.IsList() {
			s.value(path, f, v)
			return true
		}
		list := v.List()
		for i := range list.Len() {
			s.value(fmt.Sprintf("%s[%d]", path, i), f, list.Get(i))
		}
		return true
	})
}

func (s *strictness) value(path string, f protoreflect.FieldDescriptor, v protoreflect.Value) {
	switch f.Kind() {
	case protoreflect.MessageKind:
		s.message(path+".", v.Message())
	case protoreflect.DoubleKind:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) || x == 0 && math.Signbit(x) {
			s.found = append(s.found, fault.Invalid(path, x, "a finite number; zero without a sign"))
		}
	case protoreflect.StringKind:
		for _, r := range v.String() {
			if unicode.Is(unicode.C, r) {
				s.found = append(s.found, fault.Invalid(path, fmt.Sprintf("the character %U", r), "a text without control characters"))
				return
			}
		}
	}
}
