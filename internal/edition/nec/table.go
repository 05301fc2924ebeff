package nec

import (
	"errors"
	"io"
	"io/fs"
	"math"
	"strconv"
	"strings"

	"daybreak/internal/fault"
	"daybreak/internal/working"

	"go.yaml.in/yaml/v3"
)

// A table is one YAML document: sections and status by year, unit, columns
// and rows; a publication where it is not the code's own. Cells inherit the table's source; a row may carry its own in the
// columns "section" and "status", and a cell in {value:, section:, status:}.
type table struct {
	file    string
	line    int
	name    string
	columns map[string]int // of values, without section and status
	rows    []row
	read    bool // some part of the book asked for it
}

type row struct {
	key   string
	line  int
	cells []cell
}

// cell is a value in force in one year.
type cell struct {
	number float64 // NaN when the cell is a word or none
	word   string
	none   bool
	line   int
	source *working.Source
}

// ownSource stands in a table whose rows each name their section.
const ownSource = "as the row says"

type document struct {
	Table       string      `yaml:"table"`
	What        string      `yaml:"what"`
	Publication string      `yaml:"publication"` // "" for the code itself
	Section     yaml.Node   `yaml:"section"`
	Status      yaml.Node   `yaml:"status"`
	Unit        string      `yaml:"unit"`
	Columns     []string    `yaml:"columns"`
	Rows        []yaml.Node `yaml:"rows"`
}

// readTables reads every table of a folder as in force in a year.
func readTables(fsys fs.FS, year int) (map[string]*table, error) {
	files, err := fs.Glob(fsys, "*.yaml")
	if err != nil || len(files) == 0 {
		return nil, fault.InFile(".", 0, "", "no file", "a folder of .yaml files with tables")
	}
	tables := map[string]*table{}
	for _, name := range files {
		f, err := fsys.Open(name)
		if err != nil {
			return nil, fault.InFile(name, 0, "", err, "a readable file")
		}
		err = readFile(f, name, year, tables)
		f.Close()
		if err != nil {
			return nil, err
		}
	}
	return tables, nil
}

func readFile(r io.Reader, file string, year int, tables map[string]*table) error {
	dec := yaml.NewDecoder(r)
	for {
		var node yaml.Node
		if err := dec.Decode(&node); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return fault.InFile(file, 0, "", err, "YAML")
		}
		t, err := readTable(&node, file, year)
		if err != nil {
			return err
		}
		if other, twice := tables[t.name]; twice {
			return fault.InFile(file, t.line, "table", t.name, "a name not used in "+other.file)
		}
		tables[t.name] = t
	}
}

func readTable(node *yaml.Node, file string, year int) (*table, error) {
	if len(node.Content) == 0 || node.Content[0].Kind != yaml.MappingNode {
		return nil, fault.InFile(file, node.Line, "", "another shape", "a table")
	}
	body := node.Content[0]
	for i := 0; i < len(body.Content); i += 2 {
		switch k := body.Content[i]; k.Value {
		case "table", "what", "publication", "section", "status", "unit", "columns", "rows":
		default:
			return nil, fault.InFile(file, k.Line, k.Value, "an unknown key", "table, what, publication, section, status, unit, columns or rows")
		}
	}
	var d document
	if err := body.Decode(&d); err != nil {
		return nil, fault.InFile(file, body.Line, "", err, "a table")
	}
	for _, must := range []struct {
		name    string
		missing bool
	}{
		{"table", d.Table == ""}, {"what", d.What == ""}, {"section", d.Section.IsZero()}, {"status", d.Status.IsZero()},
		{"unit", d.Unit == ""}, {"columns", len(d.Columns) == 0}, {"rows", len(d.Rows) == 0},
	} {
		if must.missing {
			return nil, fault.InFile(file, body.Line, must.name, "nothing", "a "+must.name+" for every table")
		}
	}
	t := &table{file: file, line: body.Line, name: d.Table, columns: map[string]int{}}
	r := reader{file: file, year: year}
	own, err := r.source(&d.Section, &d.Status)
	if err != nil {
		return nil, err
	}
	if d.Publication != "" {
		own.Publication = d.Publication
	}
	return t, r.rows(t, &d, own)
}

// reader resolves dated entries of one file for one year.
type reader struct {
	file string
	year int
}

func (r *reader) rows(t *table, d *document, own working.Source) error {
	sectionAt, statusAt := -1, -1
	for i, c := range d.Columns {
		if i > 0 && (c == "section" || c == "status") {
			if c == "section" {
				sectionAt = i
			} else {
				statusAt = i
			}
			continue
		}
		if _, twice := t.columns[c]; twice {
			return fault.InFile(r.file, t.line, "columns", c, "each column once")
		}
		t.columns[c] = i
	}
	if own.Section == ownSource && sectionAt < 0 {
		return fault.InFile(r.file, t.line, "section", ownSource, "a section, or a section column")
	}
	seen := map[string]bool{}
	for i := range d.Rows {
		n := &d.Rows[i]
		if n.Kind != yaml.SequenceNode || len(n.Content) != len(d.Columns) {
			return fault.InFile(r.file, n.Line, t.name, strconv.Itoa(len(n.Content))+" cells", "one cell for each of "+strconv.Itoa(len(d.Columns))+" columns")
		}
		key := n.Content[0].Value
		if key == "" || seen[key] {
			return fault.InFile(r.file, n.Line, t.name, key, "each row once, with a name")
		}
		seen[key] = true
		src := own
		if sectionAt >= 0 || statusAt >= 0 {
			if err := r.rowSource(n, sectionAt, statusAt, &src); err != nil {
				return err
			}
		}
		parsed := row{key: key, line: n.Line, cells: make([]cell, len(d.Columns))}
		for j, c := range n.Content {
			if j == sectionAt || j == statusAt {
				continue
			}
			where := src
			where.Cell = key
			if j > 0 {
				where.Cell += ", " + d.Columns[j]
			}
			var err error
			if parsed.cells[j], err = r.cell(c, where); err != nil {
				return err
			}
		}
		t.rows = append(t.rows, parsed)
	}
	return nil
}

func (r *reader) rowSource(n *yaml.Node, sectionAt, statusAt int, src *working.Source) error {
	if sectionAt >= 0 {
		s, err := r.dated(n.Content[sectionAt])
		if err != nil {
			return err
		}
		src.Section = s.Value
	}
	if statusAt >= 0 {
		s, err := r.dated(n.Content[statusAt])
		if err != nil {
			return err
		}
		src.Status = working.Status(s.Value)
		if !src.Status.Known() {
			return fault.InFile(r.file, s.Line, "status", s.Value, statusWords)
		}
	}
	return nil
}

const statusWords = "verified, verified second-hand, from memory, computed or engineering judgement"

func (r *reader) source(section, status *yaml.Node) (working.Source, error) {
	s, err := r.dated(section)
	if err != nil {
		return working.Source{}, err
	}
	st, err := r.dated(status)
	if err != nil {
		return working.Source{}, err
	}
	src := working.Source{Publication: "NEC " + strconv.Itoa(r.year), Section: s.Value, Status: working.Status(st.Value)}
	if s.Kind != yaml.ScalarNode || s.Value == "" {
		return src, fault.InFile(r.file, section.Line, "section", s.Value, "a section")
	}
	if !src.Status.Known() {
		return src, fault.InFile(r.file, st.Line, "status", st.Value, statusWords)
	}
	return src, nil
}

// dated gives a node as in force this year: itself, or the entry of the newest
// year not after it when the node is a mapping from years.
func (r *reader) dated(n *yaml.Node) (*yaml.Node, error) {
	if n.Kind != yaml.MappingNode || len(n.Content) == 0 || !isYear(n.Content[0].Value) {
		return n, nil
	}
	entries := since[*yaml.Node]{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		y, err := strconv.Atoi(n.Content[i].Value)
		if err != nil || !isYear(n.Content[i].Value) {
			return nil, fault.InFile(r.file, n.Content[i].Line, "since", n.Content[i].Value, "years from 2017")
		}
		if _, twice := entries[y]; twice {
			return nil, fault.InFile(r.file, n.Content[i].Line, "since", y, "each year once")
		}
		entries[y] = n.Content[i+1]
	}
	v, ok := entries.at(r.year)
	if !ok {
		return nil, fault.InFile(r.file, n.Line, "since", r.year, "an entry for 2017 or the year asked for")
	}
	return v, nil
}

func isYear(s string) bool {
	y, err := strconv.Atoi(s)
	return err == nil && y >= 2017 && y <= 2100
}

func (r *reader) cell(n *yaml.Node, src working.Source) (cell, error) {
	v, err := r.dated(n)
	if err != nil {
		return cell{}, err
	}
	if v.Kind == yaml.MappingNode {
		if v, err = r.ownCell(v, &src); err != nil {
			return cell{}, err
		}
	}
	if v.Kind != yaml.ScalarNode || v.Value == "" {
		return cell{}, fault.InFile(r.file, v.Line, src.Cell, v.Value, "a number, a word or none")
	}
	c := cell{number: math.NaN(), word: v.Value, line: v.Line, source: &src, none: v.Value == "none"}
	if x, err := strconv.ParseFloat(v.Value, 64); err == nil && !strings.ContainsAny(v.Value, "xXnN_") {
		c.number = x
	}
	return c, nil
}

// ownCell reads {value:, section:, status:}.
func (r *reader) ownCell(n *yaml.Node, src *working.Source) (*yaml.Node, error) {
	var value *yaml.Node
	for i := 0; i+1 < len(n.Content); i += 2 {
		switch k, v := n.Content[i], n.Content[i+1]; k.Value {
		case "value":
			value = v
		case "section":
			src.Section = v.Value
		case "status":
			src.Status = working.Status(v.Value)
			if !src.Status.Known() {
				return nil, fault.InFile(r.file, v.Line, "status", v.Value, statusWords)
			}
		default:
			return nil, fault.InFile(r.file, k.Line, k.Value, "an unknown key", "value, section or status")
		}
	}
	if value == nil {
		return nil, fault.InFile(r.file, n.Line, src.Cell, "nothing", "a value")
	}
	return value, nil
}
