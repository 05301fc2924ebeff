// Package datafile reads one YAML file of the house strictly and remembers on
// which line each part stands, so that a fault can say where.
//
// Read [Open] first.
package datafile

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"regexp"
	"strconv"

	"daybreak/internal/fault"

	"go.yaml.in/yaml/v3"
)

// File is a data file with the lines of its parts. Raw is its bytes as read.
type File struct {
	Name string
	Raw  []byte
	root *yaml.Node
}

// lineInMessage finds the place in the decoder's own messages.
var lineInMessage = regexp.MustCompile(`line (\d+): (.+)`)

// Open decodes a whole file into a value that names every key it knows. An
// unreadable or empty file, an unknown key and a doubled one are faults with
// the file's name and, where there is one, the line.
func Open(fsys fs.FS, name string, into any) (*File, error) {
	raw, err := fs.ReadFile(fsys, name)
	if err != nil {
		return nil, fault.InFile(name, 0, "", err.Error(), "a readable file")
	}
	var root yaml.Node
	if err := yaml.Unmarshal(raw, &root); err != nil {
		return nil, misread(name, err)
	}
	dec := yaml.NewDecoder(bytes.NewReader(raw))
	dec.KnownFields(true)
	if err := dec.Decode(into); err != nil {
		if errors.Is(err, io.EOF) {
			return nil, fault.InFile(name, 1, "", "an empty file", "YAML with its rows")
		}
		return nil, misread(name, err)
	}
	return &File{Name: name, Raw: raw, root: root.Content[0]}, nil
}

func misread(name string, err error) error {
	line, got := 1, err.Error()
	if m := lineInMessage.FindStringSubmatch(got); m != nil {
		line, _ = strconv.Atoi(m[1])
		got = m[2]
	}
	return fault.InFile(name, line, "", got, "YAML with the fields named at the head of the file")
}

// Line gives the line of the deepest part there is on a way of keys (strings)
// and places in a list (ints, from 0).
func (f *File) Line(way ...any) int {
	n := f.root
	for _, step := range way {
		next := part(n, step)
		if next == nil {
			break
		}
		n = next
	}
	return n.Line
}

func part(n *yaml.Node, step any) *yaml.Node {
	switch s := step.(type) {
	case int:
		if n.Kind == yaml.SequenceNode && s < len(n.Content) {
			return n.Content[s]
		}
	case string:
		for i := 0; n.Kind == yaml.MappingNode && i+1 < len(n.Content); i += 2 {
			if n.Content[i].Value == s {
				return n.Content[i+1]
			}
		}
	}
	return nil
}
