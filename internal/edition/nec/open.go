package nec

import (
	"embed"
	"io/fs"
	"sort"

	"daybreak/internal/fault"
	"daybreak/internal/working"
)

//go:embed *.yaml
var embedded embed.FS

// Embedded returns the tables that ship with the program.
func Embedded() fs.FS { return embedded }

// Years are the editions entered.
func Years() []int { return []int{2017, 2020, 2023, 2026} }

// Open resolves the code book of a year from its files. A year that is not
// entered, and a broken table, is a fault; the latter by file and line.
func Open(fsys fs.FS, year int) (*Book, error) {
	return Amended(fsys, nil, year, "", nil)
}

func checkYear(year int) error {
	for _, y := range Years() {
		if y == year {
			return nil
		}
	}
	return fault.Invalid("edition", year, "2017, 2020, 2023 or 2026")
}

// Doubt is one cell whose value was not seen in the publication itself.
type Doubt struct {
	File   string
	Line   int
	Table  string
	Value  string
	Source working.Source
}

// Unverified lists every cell of a year that is not verified, in the order of
// file and line.
func Unverified(fsys fs.FS, year int) ([]Doubt, error) {
	if _, err := Open(fsys, year); err != nil {
		return nil, err
	}
	tables, err := readTables(fsys, year)
	if err != nil {
		return nil, err
	}
	var out []Doubt
	for _, t := range tables {
		for _, r := range t.rows {
			for j, c := range r.cells {
				if j > 0 && c.source != nil && c.source.Status != working.Verified && !c.none {
					out = append(out, Doubt{t.file, r.line, t.name, c.word, *c.source})
				}
			}
		}
	}
	sort.Slice(out, func(i, j int) bool {
		a, b := out[i], out[j]
		if a.File != b.File {
			return a.File < b.File
		}
		if a.Line != b.Line {
			return a.Line < b.Line
		}
		return a.Source.Cell < b.Source.Cell
	})
	return out, nil
}
