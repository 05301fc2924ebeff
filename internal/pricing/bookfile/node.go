package bookfile

import (
	"errors"
	"io/fs"
	"slices"
	"strconv"
	"strings"

	"daybreak/internal/fault"

	"go.yaml.in/yaml/v3"
)

// largest is the most a data file may hold, in bytes.
const largest = 4 << 20

// Faults collects what is wrong, in the order it was found.
type Faults struct{ list []error }

// Err gives every fault joined, or nil when there is none.
func (f *Faults) Err() error { return errors.Join(f.list...) }

// Any reports whether there is a fault.
func (f *Faults) Any() bool { return len(f.list) > 0 }

// Add keeps a fault of a place in a file; line 0 is the file as a whole.
func (f *Faults) Add(file string, line int, field string, got any, accepted string) {
	f.list = append(f.list, fault.InFile(file, line, field, got, accepted))
}

// Keep keeps a fault found elsewhere.
func (f *Faults) Keep(x *fault.Fault) { f.list = append(f.list, x) }

// Node is one value of a file with the path that leads to it. The zero Node is
// a value that is not there; everything it is asked gives zero without a
// further fault.
type Node struct {
	file   string
	field  string
	n      *yaml.Node
	faults *Faults
}

// Open reads a file of the folder and gives its top value.
func Open(fsys fs.FS, name string, faults *Faults) Node {
	info, err := fs.Stat(fsys, name)
	if err != nil || info.IsDir() {
		faults.Add(name, 0, "", "no such file", "a readable file")
		return Node{}
	}
	if info.Size() > largest {
		faults.Add(name, 0, "", info.Size(), "at most 4 MiB")
		return Node{}
	}
	raw, err := fs.ReadFile(fsys, name)
	if err != nil {
		faults.Add(name, 0, "", "unreadable", "a readable file")
		return Node{}
	}
	return Parse(raw, name, faults)
}

// Parse gives the top value of a file's bytes.
func Parse(raw []byte, name string, faults *Faults) Node {
	var doc yaml.Node
	if err := yaml.Unmarshal(raw, &doc); err != nil {
		faults.Add(name, lineOf(err), "", strings.TrimPrefix(err.Error(), "yaml: "), "YAML")
		return Node{}
	}
	if doc.Kind != yaml.DocumentNode || len(doc.Content) == 0 {
		faults.Add(name, 0, "", "empty", "a mapping")
		return Node{}
	}
	n := Node{file: name, n: doc.Content[0], faults: faults}
	n.plain()
	return n
}

// lineOf finds the line in a parser's message.
func lineOf(err error) int {
	_, rest, found := strings.Cut(err.Error(), "line ")
	if !found {
		return 0
	}
	digits, _, _ := strings.Cut(rest, ":")
	line, _ := strconv.Atoi(digits)
	return line
}

// OK reports whether there is a value.
func (n Node) OK() bool { return n.n != nil }

// File is the name of the file the value stands in.
func (n Node) File() string { return n.file }

// Line is the line the value stands on, from 1.
func (n Node) Line() int {
	if n.n == nil {
		return 0
	}
	return n.n.Line
}

// Field is the path of the value in its file, "items[3].price".
func (n Node) Field() string { return n.field }

// Fault says that the value will not do.
func (n Node) Fault(got any, accepted string) {
	if n.faults != nil {
		n.faults.Add(n.file, n.Line(), n.field, got, accepted)
	}
}

// Named gives the same value under another path, such as by code instead of
// by position.
func (n Node) Named(field string) Node {
	n.field = field
	return n
}

// plain refuses what cannot be read at sight.
func (n Node) plain() bool {
	switch {
	case n.n == nil:
		return false
	case n.n.Kind == yaml.AliasNode || n.n.Anchor != "":
		n.Fault("an anchor or alias", "a plain value")
		return false
	case n.n.Style&yaml.TaggedStyle != 0:
		n.Fault("the tag "+n.n.Tag, "a plain value")
		return false
	}
	return true
}

func (n Node) child(v *yaml.Node, field string) Node {
	c := Node{file: n.file, field: field, n: v, faults: n.faults}
	if !c.plain() {
		return Node{}
	}
	return c
}

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// Pair is a key of a mapping and its value.
type Pair struct {
	Key   string
	Value Node
}

// Pairs gives the keys of a mapping in the order of the file. A key named
// twice is a fault.
func (n Node) Pairs() []Pair {
	if n.n == nil {
		return nil
	}
	if n.n.Kind != yaml.MappingNode {
		n.Fault(n.shape(), "a mapping")
		return nil
	}
	pairs := make([]Pair, 0, len(n.n.Content)/2)
	seen := make(map[string]bool, len(n.n.Content)/2)
	for i := 0; i+1 < len(n.n.Content); i += 2 {
		k := n.child(n.n.Content[i], n.field)
		if !k.OK() {
			continue
		}
		key := n.n.Content[i].Value
		v := n.child(n.n.Content[i+1], join(n.field, key))
		if seen[key] {
			v.Fault("named twice", "each key once")
			continue
		}
		seen[key] = true
		pairs = append(pairs, Pair{key, v})
	}
	return pairs
}

// Only checks that a mapping has no other key than these.
func (n Node) Only(keys ...string) {
	for _, p := range n.Pairs() {
		if !slices.Contains(keys, p.Key) {
			p.Value.Fault("the unknown key "+p.Key, strings.Join(keys, ", "))
		}
	}
}

// Maybe gives the value of a key, and the zero Node when there is none.
func (n Node) Maybe(key string) Node {
	if n.n == nil || n.n.Kind != yaml.MappingNode {
		return Node{}
	}
	for i := 0; i+1 < len(n.n.Content); i += 2 {
		if n.n.Content[i].Value == key {
			return n.child(n.n.Content[i+1], join(n.field, key))
		}
	}
	return Node{}
}

// At gives the value of a key that must be there.
func (n Node) At(key string) Node {
	v := n.Maybe(key)
	if !v.OK() && n.n != nil {
		if n.n.Kind != yaml.MappingNode {
			n.Fault(n.shape(), "a mapping with "+key)
		} else {
			n.Named(join(n.field, key)).Fault("missing", "a value")
		}
	}
	return v
}

// Items gives the members of a list.
func (n Node) Items() []Node {
	if n.n == nil {
		return nil
	}
	if n.n.Kind != yaml.SequenceNode {
		n.Fault(n.shape(), "a list")
		return nil
	}
	out := make([]Node, 0, len(n.n.Content))
	for i, c := range n.n.Content {
		if v := n.child(c, n.field+"["+strconv.Itoa(i)+"]"); v.OK() {
			out = append(out, v)
		}
	}
	return out
}

func (n Node) shape() string {
	switch n.n.Kind {
	case yaml.MappingNode:
		return "a mapping"
	case yaml.SequenceNode:
		return "a list"
	}
	return n.n.Value
}
