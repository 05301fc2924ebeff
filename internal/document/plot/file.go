package plot

import (
	"bytes"
	"embed"
	"errors"
	"io"
	"io/fs"
	"regexp"
	"strconv"

	"daybreak/internal/fault"

	"go.yaml.in/yaml/v3"
)

//go:embed faces.yaml shapes.yaml words
var embedded embed.FS

// Embedded returns the geometry and words that ship with the program.
func Embedded() fs.FS { return embedded }

// file is a data file with the lines of its parts, so that a fault can say
// where.
type file struct {
	name string
	root *yaml.Node
}

// line N: of the decoder's own messages.
var lineInMessage = regexp.MustCompile(`line (\d+): (.+)`)

// open decodes a whole file strictly: an unknown or doubled field is a fault.
func open(fsys fs.FS, name string, into any) (*file, error) {
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
	return &file{name: name, root: root.Content[0]}, nil
}

func misread(name string, err error) error {
	line, got := 1, err.Error()
	if m := lineInMessage.FindStringSubmatch(got); m != nil {
		line, _ = strconv.Atoi(m[1])
		got = m[2]
	}
	return fault.InFile(name, line, "", got, "YAML with the fields named at the head of the file")
}

// row gives the line of row i of a list.
func (f *file) row(list string, i int) int {
	for k := 0; f.root.Kind == yaml.MappingNode && k+1 < len(f.root.Content); k += 2 {
		if f.root.Content[k].Value == list && i < len(f.root.Content[k+1].Content) {
			return f.root.Content[k+1].Content[i].Line
		}
	}
	return f.root.Line
}
