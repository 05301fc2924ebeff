package service

import (
	"errors"
	"fmt"
	"strings"

	"daybreak/internal/facts"
	"daybreak/internal/fault"

	daybreakv1 "daybreak/api/daybreak/v1"

	"buf.build/gen/go/bufbuild/protovalidate/protocolbuffers/go/buf/validate"
	"buf.build/go/protovalidate"
	"daybreak/internal/unit"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// violations are the faults of a request that breaks what the contract
// declares, one for each field, in the order of the message.
func violations(m protoreflect.MessageDescriptor, err error) error {
	broken, ok := errors.AsType[*protovalidate.ValidationError](err)
	if !ok {
		return err
	}
	var faults []error
	seen := map[string]bool{}
	for _, v := range broken.Violations {
		path := protovalidate.FieldPathString(v.Proto.GetField())
		if seen[path] {
			continue
		}
		seen[path] = true
		if v.FieldDescriptor == nil { // of an item of a list
			v.FieldDescriptor = described(m, v)
		}
		faults = append(faults, fault.Invalid(path, given(v), accepted(path, v)))
	}
	return errors.Join(faults...)
}

// described is the field that a violation is about; nil for none of the message.
func described(m protoreflect.MessageDescriptor, v *protovalidate.Violation) protoreflect.FieldDescriptor {
	var f protoreflect.FieldDescriptor
	for _, e := range v.Proto.GetField().GetElements() {
		if m == nil {
			return nil
		}
		if f = m.Fields().ByNumber(protoreflect.FieldNumber(e.GetFieldNumber())); f == nil {
			return nil
		}
		m = f.Message()
	}
	return f
}

// given is the value refused, as people write it.
func given(v *protovalidate.Violation) any {
	if !v.FieldValue.IsValid() || v.FieldDescriptor == nil {
		return "nothing"
	}
	switch x := v.FieldValue.Interface().(type) {
	case protoreflect.EnumNumber:
		if value := v.FieldDescriptor.Enum().Values().ByNumber(x); value != nil {
			return protoreflect.Name(value.Name())
		}
		return int32(x)
	case protoreflect.List:
		return fmt.Sprintf("%d of them", x.Len())
	case protoreflect.Message:
		return "something else"
	case string:
		return x
	default:
		return x
	}
}

// accepted says what the field takes, from the leaf table for facts and from
// the declared rule for everything else.
func accepted(path string, v *protovalidate.Violation) string {
	if leaf, ok := facts.LeafAt(strings.TrimPrefix(path, "facts.")); ok && leaf.Kind != facts.Set {
		return leaf.Accepted()
	}
	f := v.FieldDescriptor
	if f == nil {
		return declared(v)
	}
	rules, _ := proto.GetExtension(f.Options(), validate.E_Field).(*validate.FieldRules)
	if f.IsList() {
		if !strings.HasSuffix(path, "]") {
			return listAccepted(path, rules.GetRepeated(), v)
		}
		rules = rules.GetRepeated().GetItems()
	}
	switch f.Kind() {
	case protoreflect.EnumKind:
		return enumAccepted(f.Enum())
	case protoreflect.DoubleKind:
		r := rules.GetDouble()
		return numberAccepted(f, r.GetIn(), limit(r.HasGte(), r.GetGte(), r.HasGt(), r.GetGt()), r.GetLte(), r.HasLte())
	case protoreflect.Int32Kind:
		r := rules.GetInt32()
		in := make([]float64, len(r.GetIn()))
		for i, x := range r.GetIn() {
			in[i] = float64(x)
		}
		return "a whole number, " + numberAccepted(f, in, limit(r.HasGte(), float64(r.GetGte()), false, 0), float64(r.GetLte()), r.HasLte())
	case protoreflect.StringKind:
		return textAccepted(rules.GetString(), v)
	}
	return declared(v)
}

// declared is the rule's own sentence, where none of ours fits.
func declared(v *protovalidate.Violation) string {
	switch v.Proto.GetRuleId() {
	case "required":
		return "a value"
	case "":
		return "what the contract declares"
	}
	return v.Proto.GetMessage()
}

func listAccepted(path string, r *validate.RepeatedRules, v *protovalidate.Violation) string {
	switch {
	case r.GetMaxItems() == 0 && r.HasMaxItems():
		return "nothing: it is given in replies only"
	case v.Proto.GetRuleId() == "repeated.unique":
		return "each once"
	case r.GetMinItems() > 0:
		return fmt.Sprintf("%d to %d", r.GetMinItems(), r.GetMaxItems())
	}
	return fmt.Sprintf("at most %d", r.GetMaxItems())
}

func enumAccepted(e protoreflect.EnumDescriptor) string {
	names := make([]string, 0, e.Values().Len())
	for i := range e.Values().Len() {
		if value := e.Values().Get(i); value.Number() != 0 {
			names = append(names, string(value.Name()))
		}
	}
	return "one of " + strings.Join(names, ", ")
}

func limit(hasGte bool, gte float64, hasGt bool, gt float64) string {
	switch {
	case hasGte:
		return unit.Print(gte, 3)
	case hasGt:
		return "above " + unit.Print(gt, 3)
	}
	return ""
}

func numberAccepted(f protoreflect.FieldDescriptor, in []float64, low string, high float64, hasHigh bool) string {
	name, _ := proto.GetExtension(f.Options(), daybreakv1.E_Unit).(string)
	if name != "" {
		name = " " + name
	}
	switch {
	case len(in) > 1:
		words := make([]string, len(in))
		for i, x := range in {
			words[i] = unit.Print(x, 3)
		}
		last := len(words) - 1
		return strings.Join(words[:last], ", ") + " or " + words[last] + name
	case low != "" && hasHigh:
		return low + " to " + unit.Print(high, 3) + name
	}
	return "a finite number" + name
}

// forms are the patterns of the contract in words.
var forms = map[string]string{
	`^[0-9]{5}$`:                          "5 digits",
	`^[0-9]{4}-[0-9]{2}-[0-9]{2}$`:        "a date such as 2026-01-31",
	`^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*$`: "a language tag such as en-US",
	`^[0-9]{1,7}-[0-9a-f]{8}$`:            "a revision as returned, such as 3-9f86d081",
	`^sessions/[a-z0-9]{8,64}$`:           "the name of a session, sessions/ and its id",
	`^quotes/[a-z0-9]{8,64}$`:             "the name of a quote, quotes/ and its id",
	`^vehicles/[A-Za-z0-9._-]{1,64}$`:     "the name of a vehicle, vehicles/ and its id",
	`^tariffs/[A-Za-z0-9._-]{1,64}$`:      "the name of a tariff, tariffs/ and its id",
	`^[A-Za-z0-9._-]{1,64}$`:              "an id of 1 to 64 letters, digits, dots, dashes or underscores",
	`^[A-Za-z0-9.-]+$`:                    "the id of an entry of the log",
	`^[a-z][a-z0-9_]*(\.[a-z0-9_]+)+$`:    "the path of a fact, such as panel.service_amps",
	`^[a-z][a-z0-9_]*(\.[a-z_0-9]+)+$`:    "the id of a question, such as panel.main",
	`^[A-Za-z0-9_+/-]{1,64}$`:             "a time zone such as America/New_York",
}

func textAccepted(r *validate.StringRules, v *protovalidate.Violation) string {
	if words, ok := forms[r.GetPattern()]; ok {
		return words
	}
	switch {
	case r.GetUuid():
		return "a UUID such as 5f2b9c1e-0c7a-4e0e-9a53-2f7d1c0e8b11"
	case r.HasMinLen() && r.HasMaxLen():
		return fmt.Sprintf("%d to %d characters", r.GetMinLen(), r.GetMaxLen())
	case r.HasMaxLen():
		return fmt.Sprintf("at most %d characters", r.GetMaxLen())
	}
	return declared(v)
}
