package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/fault"

	"google.golang.org/protobuf/reflect/protoreflect"
)

// places finds the line and the field's path of each part of a file of facts.
type places struct {
	file   string
	raw    []byte // of the Facts message alone
	before int    // bytes of the file in front of it
	all    []byte
	found  []place
}

// place is one member of an object or element of a list: from where its key
// begins to where its value ends.
type place struct {
	path     string
	from, to int64
	field    protoreflect.FieldDescriptor
}

// whole judges the JSON as such, finds the message in it and every place.
func (p *places) whole() error {
	p.all = p.raw
	const accepted = "a JSON object of facts, such as {\"driving\": {\"weekday_miles\": 40}}"
	var outer any
	all := json.NewDecoder(bytes.NewReader(p.raw))
	all.UseNumber() // how large a number may be is the field's to say
	err := all.Decode(&outer)
	if err == nil && all.More() {
		err = json.Unmarshal(p.raw, &json.RawMessage{}) // says what stands behind the end
	}
	if err != nil {
		at := int64(len(p.raw))
		if syntax, ok := errors.AsType[*json.SyntaxError](err); ok {
			at = syntax.Offset
		}
		detail := strings.TrimPrefix(err.Error(), "json: ")
		if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
			detail = "it ends too soon"
		}
		return p.instead(place{from: at}, accepted, detail)
	}
	object, ok := outer.(map[string]any)
	if !ok {
		return fault.InFile(p.file, 1, "", p.word(0), accepted)
	}
	if inner, ok := object["facts"]; ok {
		var member struct {
			Facts json.RawMessage `json:"facts"`
		}
		if _, is := inner.(map[string]any); !is || json.Unmarshal(p.raw, &member) != nil {
			return fault.InFile(p.file, 1, "facts", fmt.Sprint(inner), accepted)
		}
		p.before = bytes.Index(p.raw, member.Facts)
		p.raw = member.Facts
	}
	dec := json.NewDecoder(bytes.NewReader(p.raw))
	dec.UseNumber()
	return p.value(dec, "facts", (&daybreakv1.Facts{}).ProtoReflect().Descriptor())
}

// value walks one JSON value and refuses members that m does not have, or has
// twice. Without m it walks on, for the reader behind it to judge.
func (p *places) value(dec *json.Decoder, path string, m protoreflect.MessageDescriptor) error {
	token, err := dec.Token()
	if err != nil {
		return err
	}
	switch token {
	case json.Delim('{'):
		return p.object(dec, path, m)
	case json.Delim('['):
		for i := 0; dec.More(); i++ {
			if err := p.value(dec, path+"["+strconv.Itoa(i)+"]", m); err != nil {
				return err
			}
		}
		_, err = dec.Token()
	}
	return err
}

func (p *places) object(dec *json.Decoder, path string, m protoreflect.MessageDescriptor) error {
	seen := map[string]bool{}
	for dec.More() {
		token, err := dec.Token()
		if err != nil {
			return err
		}
		key, _ := token.(string)
		from := max(0, dec.InputOffset()-int64(len(strconv.Quote(key))))
		at := place{path: path + "." + key, from: from}
		var below protoreflect.MessageDescriptor
		if m != nil {
			if at.field = fieldOf(m, key); at.field == nil {
				return p.instead(at, "one of "+fieldNames(m, key), "there is no such field")
			}
			at.path = path + "." + string(at.field.Name())
			below = at.field.Message()
		}
		if seen[at.path] {
			return p.instead(at, "each field once", "this one is given twice")
		}
		seen[at.path] = true
		if err := p.value(dec, at.path, below); err != nil {
			return err
		}
		at.to = dec.InputOffset()
		p.found = append(p.found, at)
	}
	_, err := dec.Token()
	return err
}

func fieldOf(m protoreflect.MessageDescriptor, key string) protoreflect.FieldDescriptor {
	if f := m.Fields().ByName(protoreflect.Name(key)); f != nil {
		return f
	}
	return m.Fields().ByJSONName(key)
}

// fieldNames lists the fields of a message, the likest to what was given first.
func fieldNames(m protoreflect.MessageDescriptor, given string) string {
	names := make([]string, m.Fields().Len())
	for i := range names {
		names[i] = string(m.Fields().Get(i).Name())
	}
	slices.SortStableFunc(names, func(a, b string) int { return fault.Changes(given, a) - fault.Changes(given, b) })
	return strings.Join(names, ", ")
}

// atPlace is "(line 3:14)" in a message of the protobuf reader.
var atPlace = regexp.MustCompile(`\(line (\d+):(\d+)\)`)

// misread says which field the protobuf reader could not take.
func (p *places) misread(err error) error {
	m := atPlace.FindStringSubmatch(err.Error())
	if m == nil {
		return p.instead(place{path: "facts"}, "what the API's Facts message holds", "")
	}
	row, _ := strconv.Atoi(m[1])
	column, _ := strconv.Atoi(m[2])
	offset := int64(0)
	for range row - 1 {
		offset += int64(bytes.IndexByte(p.raw[offset:], '\n') + 1)
	}
	offset += int64(column - 1)
	for _, at := range p.found { // the innermost member is found first
		if at.from <= offset && offset < at.to {
			return p.fault(at, p.word(offset), takes(at.field))
		}
	}
	return p.instead(place{path: "facts", from: offset}, "what the API's Facts message holds", "")
}

// word is the value at an offset, cut at its end.
func (p *places) word(offset int64) any {
	var v json.RawMessage
	if json.NewDecoder(bytes.NewReader(p.raw[offset:])).Decode(&v) != nil {
		return "what stands here"
	}
	return strings.Trim(string(v), `"`)
}

// takes says what a field accepts.
func takes(f protoreflect.FieldDescriptor) string {
	if f == nil {
		return "what the API's Facts message holds"
	}
	list := ""
	if f.IsList() {
		list = "a list, each "
	}
	switch f.Kind() {
	case protoreflect.EnumKind:
		return list + "one of " + enumNames(f.Enum())
	case protoreflect.MessageKind:
		return list + "an object with " + fieldNames(f.Message(), "")
	case protoreflect.BoolKind:
		return list + "true or false"
	case protoreflect.StringKind:
		return list + "a text in quotes"
	case protoreflect.DoubleKind:
		return list + "a number"
	}
	return list + "a whole number"
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

// placed gives each fault its line, and words of the file instead of the
// core's where they differ.
func (p *places) placed(err error) error {
	var all []error
	for _, f := range fault.All(err) {
		at := p.at(f.Field)
		placed := *f
		placed.File, placed.Line = p.file, p.line(at.from)
		if e := enumOf(at.field); e != nil {
			placed.Accepted = "one of " + enumNames(e)
			if placed.Got == `""` {
				placed.Got = "UNSPECIFIED, or a number of no word,"
			}
		}
		all = append(all, &placed)
	}
	return errors.Join(all...)
}

// enumOf is the enum of a choice, or of a set's words.
func enumOf(f protoreflect.FieldDescriptor) protoreflect.EnumDescriptor {
	if f == nil {
		return nil
	}
	if f.Message() != nil && f.Message().Fields().Len() == 1 {
		f = f.Message().Fields().Get(0)
	}
	return f.Enum()
}

// at is the place of a path, or of the nearest part above it.
func (p *places) at(path string) place {
	for {
		for _, at := range p.found {
			if at.path == path {
				return at
			}
		}
		cut := max(strings.LastIndexByte(path, '.'), strings.LastIndexByte(path, '['))
		if cut < 0 {
			return place{}
		}
		path = path[:cut]
	}
}

func (p *places) fault(at place, got any, accepted string) error {
	return fault.InFile(p.file, p.line(at.from), at.path, got, accepted)
}

// instead faults a place whose own words would not help.
func (p *places) instead(at place, accepted, detail string) error {
	f := fault.InFile(p.file, p.line(at.from), at.path, "", accepted)
	f.Got, f.Detail = "", detail
	return f
}

// line is the line of the file at an offset of the message.
func (p *places) line(offset int64) int {
	end := min(int(offset)+p.before, len(p.all))
	return 1 + bytes.Count(p.all[:end], []byte("\n"))
}
