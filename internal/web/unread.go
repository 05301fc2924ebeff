package web

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"daybreak/internal/fault"

	"github.com/grpc-ecosystem/grpc-gateway/v2/runtime"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"
)

// unread is what was wrong with a request that never reached the service.
func unread(ctx context.Context, r *http.Request, s *status.Status) error {
	switch s.Code() {
	case codes.NotFound:
		return fault.NotFound("path", r.URL.Path)
	case codes.Unimplemented:
		return &fault.Fault{Kind: fault.KindInvalid, Reason: "METHOD_NOT_ALLOWED", Field: "method", Got: r.Method, Accepted: "the method that /openapi.json names for this path"}
	case codes.InvalidArgument:
	default:
		return s.Err()
	}
	input, ok := inputOf(ctx)
	if !ok {
		return fault.Invalid("request", "something else", "what /openapi.json describes for this path")
	}
	if err := unknownQuery(input, r.URL.Query()); err != nil {
		return err
	}
	body, _ := ctx.Value(bodyKey{}).([]byte)
	if len(body) == 0 {
		body, _ = r.Context().Value(bodyKey{}).([]byte)
	}
	if len(body) == 0 {
		return fault.Invalid("query", r.URL.RawQuery, "values of the kind that /openapi.json names for each parameter")
	}
	dec := json.NewDecoder(bytes.NewReader(body))
	dec.UseNumber()
	var given any
	if err := dec.Decode(&given); err == nil {
		if err := misfit(input, given, ""); err != nil {
			return err
		}
	}
	return fault.Invalid("body", "something else", "what /openapi.json describes, each field once")
}

// inputOf is the request message of the method a route leads to.
func inputOf(ctx context.Context) (protoreflect.MessageDescriptor, bool) {
	method, ok := runtime.RPCMethod(ctx)
	if !ok {
		return nil, false
	}
	name := protoreflect.FullName(strings.ReplaceAll(strings.TrimPrefix(method, "/"), "/", "."))
	d, err := protoregistry.GlobalFiles.FindDescriptorByName(name)
	if err != nil {
		return nil, false
	}
	m, ok := d.(protoreflect.MethodDescriptor)
	if !ok {
		return nil, false
	}
	return m.Input(), true
}

func unknownQuery(m protoreflect.MessageDescriptor, values url.Values) error {
	for _, key := range sortedKeys(values) {
		first, _, _ := strings.Cut(key, ".")
		if fieldOf(m, first) == nil {
			return fault.Invalid(key, "a parameter that is not known", "one of "+fieldNames(m))
		}
	}
	return nil
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

func fieldOf(m protoreflect.MessageDescriptor, key string) protoreflect.FieldDescriptor {
	if f := m.Fields().ByName(protoreflect.Name(key)); f != nil {
		return f
	}
	return m.Fields().ByJSONName(key)
}

func fieldNames(m protoreflect.MessageDescriptor) string {
	names := make([]string, m.Fields().Len())
	for i := range names {
		names[i] = string(m.Fields().Get(i).Name())
	}
	if len(names) == 0 {
		return "no field: this message is empty"
	}
	return strings.Join(names, ", ")
}

// misfit is the first place where JSON does not fit a message: a field that is
// not known, two of which only one may be, a value of another kind.
func misfit(m protoreflect.MessageDescriptor, given any, path string) error {
	object, ok := given.(map[string]any)
	if !ok {
		return fault.Invalid(orBody(path), kindOf(given), "a JSON object")
	}
	taken := map[protoreflect.FullName]string{}
	for _, key := range sortedKeys(object) {
		f := fieldOf(m, key)
		if f == nil {
			return fault.Invalid(join(path, key), "a field that is not known", "one of "+fieldNames(m))
		}
		at := join(path, string(f.Name()))
		if object[key] == nil {
			continue // null is the same as absent
		}
		if o := f.ContainingOneof(); o != nil && !o.IsSynthetic() {
			if other, twice := taken[o.FullName()]; twice {
				return fault.Invalid(at, "a second one beside "+other, "only one of "+oneofNames(o))
			}
			taken[o.FullName()] = string(f.Name())
		}
		if err := misfitValue(f, object[key], at); err != nil {
			return err
		}
	}
	return nil
}

func misfitValue(f protoreflect.FieldDescriptor, given any, at string) error {
	if !f.IsList() {
		return misfitOne(f, given, at)
	}
	list, ok := given.([]any)
	if !ok {
		return fault.Invalid(at, kindOf(given), "a JSON array")
	}
	for i, one := range list {
		if err := misfitOne(f, one, fmt.Sprintf("%s[%d]", at, i)); err != nil {
			return err
		}
	}
	return nil
}

func misfitOne(f protoreflect.FieldDescriptor, given any, at string) error {
	text, isText := given.(string)
	number, isNumber := given.(json.Number)
	switch f.Kind() {
	case protoreflect.MessageKind:
		return misfit(f.Message(), given, at)
	case protoreflect.EnumKind:
		known := isText && f.Enum().Values().ByName(protoreflect.Name(text)) != nil
		if _, err := number.Int64(); known || isNumber && err == nil {
			return nil
		}
		return fault.Invalid(at, given, "one of "+enumNames(f.Enum()))
	case protoreflect.BoolKind:
		if _, ok := given.(bool); !ok {
			return fault.Invalid(at, given, "true or false")
		}
	case protoreflect.StringKind:
		if !isText {
			return fault.Invalid(at, kindOf(given), "a text in quotes")
		}
	case protoreflect.DoubleKind:
		if isText {
			number = json.Number(text)
		}
		if _, err := number.Float64(); err != nil || number == "" {
			return fault.Invalid(at, given, "a number")
		}
	case protoreflect.Int32Kind, protoreflect.Int64Kind:
		if isText {
			number = json.Number(text)
		}
		if x, err := number.Float64(); err != nil || number == "" || x != float64(int64(x)) {
			return fault.Invalid(at, given, "a whole number")
		}
	}
	return nil
}

func enumNames(e protoreflect.EnumDescriptor) string {
	var names []string
	for i := range e.Values().Len() {
		if v := e.Values().Get(i); v.Number() != 0 {
			names = append(names, string(v.Name()))
		}
	}
	return strings.Join(names, ", ")
}

func oneofNames(o protoreflect.OneofDescriptor) string {
	names := make([]string, o.Fields().Len())
	for i := range names {
		names[i] = string(o.Fields().Get(i).Name())
	}
	return strings.Join(names, ", ")
}

func kindOf(v any) string {
	switch v.(type) {
	case nil:
		return "null"
	case map[string]any:
		return "an object"
	case []any:
		return "an array"
	case string:
		return "a text"
	case bool:
		return "true or false"
	}
	return "a number"
}

func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

func orBody(path string) string {
	if path == "" {
		return "body"
	}
	return path
}
