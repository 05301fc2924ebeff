package panel

import (
	"bytes"
	"errors"
	"io/fs"
	"regexp"
	"strconv"
	"strings"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"go.yaml.in/yaml/v3"
)

// since holds what changed: a value with the year of the edition it came in
// with. The newest entry not after the year asked for is in force. In a file it
// is a mapping from year to value, or one value that always held.
type since[T any] struct {
	line  int
	years []int // ascending; a lone value has the year 0
	value []T
}

func (s *since[T]) UnmarshalYAML(n *yaml.Node) error {
	s.line = n.Line
	if n.Kind != yaml.MappingNode {
		s.years, s.value = []int{0}, make([]T, 1)
		return n.Decode(&s.value[0])
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key := n.Content[i]
		year, err := strconv.Atoi(key.Value)
		if err != nil || (len(s.years) > 0 && year <= s.years[len(s.years)-1]) {
			return &lineError{key.Line, key.Value, "years of editions in ascending order"}
		}
		var v T
		if err := n.Content[i+1].Decode(&v); err != nil {
			return err
		}
		s.years, s.value = append(s.years, year), append(s.value, v)
	}
	return nil
}

// at returns the value in force in a year, and false when there is none yet.
func (s since[T]) at(year int) (v T, ok bool) {
	for i := range s.years {
		if s.years[i] <= year {
			v, ok = s.value[i], true
		}
	}
	return v, ok
}

// lineError is a decoding error that knows its line.
type lineError struct {
	line     int
	got      string
	accepted string
}

func (e *lineError) Error() string { return e.got + ": give " + e.accepted }

var yamlLine = regexp.MustCompile(`line (\d+): (.*)`)

// decodeFile reads one YAML file into a value that names every key it knows,
// and into the tree root. Any trouble is a fault with the file's name and,
// where it has one, its line.
func decodeFile(fsys fs.FS, file string, into any, root *yaml.Node) error {
	raw, err := fs.ReadFile(fsys, file)
	if err != nil {
		return fault.InFile(file, 0, "", err, "a readable file")
	}
	dec := yaml.NewDecoder(bytes.NewReader(raw))
	dec.KnownFields(true)
	if err = dec.Decode(into); err == nil {
		err = yaml.Unmarshal(raw, root)
	}
	if err == nil {
		return nil
	}
	var at *lineError
	if errors.As(err, &at) {
		return fault.InFile(file, at.line, "", at.got, at.accepted)
	}
	if m := yamlLine.FindStringSubmatch(err.Error()); m != nil {
		line, _ := strconv.Atoi(m[1])
		return fault.InFile(file, line, "", m[2], "the shape described at the head of the file")
	}
	return fault.InFile(file, 0, "", err, "YAML of the shape described at the head of the file")
}

// cite is where a rule is written and how firmly that is known.
type cite struct {
	Section since[string] `yaml:"section"`
	Status  since[string] `yaml:"status"`
}

// resolver picks one edition's values and collects what is wrong with them.
type resolver struct {
	file        string
	root        yaml.Node // the file as a tree, for the lines of its fields
	publication string
	year        int
	sources     []*working.Source
	faults      []error
}

// lineOf finds the line of a dotted path, or of the nearest field above it.
func (r *resolver) lineOf(field string) (line int) {
	n := &r.root
	if len(n.Content) == 0 {
		return 0
	}
	n = n.Content[0]
	for _, key := range strings.Split(field, ".") {
		found := false
		for i := 0; n.Kind == yaml.MappingNode && i+1 < len(n.Content); i += 2 {
			if n.Content[i].Value == key {
				line, n, found = n.Content[i].Line, n.Content[i+1], true
				break
			}
		}
		if !found {
			break
		}
	}
	return line
}

// refuse faults a field. A line of 0 is looked up by the field's path.
func (r *resolver) refuse(line int, field string, got any, accepted string) {
	if line == 0 {
		line = r.lineOf(field)
	}
	r.faults = append(r.faults, fault.InFile(r.file, line, field, got, accepted))
}

// num resolves a number that may not be negative.
func (r *resolver) num(field string, s since[float64]) float64 {
	v, ok := s.at(r.year)
	if !ok || !unit.Finite(v) || v < 0 {
		r.refuse(s.line, field, v, "a number of 0 or more for every edition")
	}
	return v
}

// word resolves a word of a closed list to its place in the list.
func (r *resolver) word(field string, s since[string], words ...string) int {
	v, ok := s.at(r.year)
	for i, w := range words {
		if ok && v == w {
			return i
		}
	}
	r.refuse(s.line, field, v, "one of "+join(words))
	return 0
}

// list resolves ascending positive numbers.
func (r *resolver) list(field string, s since[[]float64]) []float64 {
	v, ok := s.at(r.year)
	for i := range v {
		ok = ok && unit.Finite(v[i]) && v[i] > 0 && (i == 0 || v[i] > v[i-1])
	}
	if !ok || len(v) == 0 {
		r.refuse(s.line, field, v, "positive numbers, smallest first")
	}
	return v
}

// rows resolves a table whose first column ascends.
func (r *resolver) rows(field string, s since[[][]float64], columns int) [][]float64 {
	v, ok := s.at(r.year)
	for i, row := range v {
		ok = ok && len(row) == columns && (i == 0 || len(v[i-1]) == 0 || row[0] > v[i-1][0])
		for _, x := range row {
			ok = ok && unit.Finite(x) && x >= 0
		}
	}
	if !ok || len(v) == 0 {
		r.refuse(s.line, field, "the table", strconv.Itoa(columns)+" numbers a row, the first column ascending")
		return nil
	}
	return v
}

// source resolves where a rule is written in this edition.
func (r *resolver) source(field string, section, status since[string]) *working.Source {
	sec, ok := section.at(r.year)
	if !ok {
		r.refuse(section.line, field+".section", "nothing", "a section for every edition")
	}
	st, ok := status.at(r.year)
	if !ok || !working.Status(st).Known() {
		r.refuse(status.line, field+".status", st, "verified, verified second-hand, from memory, computed or engineering judgement")
	}
	src := &working.Source{Publication: r.publication + " " + strconv.Itoa(r.year), Section: sec, Status: working.Status(st)}
	if sec == "" {
		src.Publication = "shop rule"
	}
	r.sources = append(r.sources, src)
	return src
}

func (r *resolver) cite(field string, c cite) *working.Source {
	return r.source(field, c.Section, c.Status)
}

func join(words []string) string { return strings.Join(words, ", ") }
