package charging

import (
	"embed"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strconv"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

//go:embed *.csv
var embedded embed.FS

// Embedded returns the tables that ship with the program.
func Embedded() fs.FS { return embedded }

// Tables are all data of this room, read-only after loading.
type Tables struct {
	Vehicles Vehicles
	Climates Climates
	Season   Curve
	Fits     Fits
	Priors   Priors
}

// Load reads and checks every table of the room.
func Load(fsys fs.FS) (*Tables, error) {
	var t Tables
	var errs [5]error
	t.Vehicles, errs[0] = LoadVehicles(fsys)
	t.Climates, errs[1] = LoadClimates(fsys)
	t.Season, errs[2] = LoadCurve(fsys)
	t.Fits, errs[3] = LoadFits(fsys)
	t.Priors, errs[4] = LoadPriors(fsys)
	if err := errors.Join(errs[:]...); err != nil {
		return nil, err
	}
	return &t, nil
}

// row is one record of a table with its place, collecting its first fault.
type row struct {
	file   string
	line   int
	fields map[string]string
	err    error
}

// maxTableBytes bounds a table file: a million bytes is fifty times ours.
const maxTableBytes = 1 << 20

// readTable calls each with every record of a CSV file that has exactly the
// columns named. Lines that begin with # are comments. The first fault of each
// row is kept, so one reading names all broken rows.
func readTable(fsys fs.FS, file string, columns []string, each func(*row)) error {
	f, err := fsys.Open(file)
	if err != nil {
		return fault.InFile(file, 0, "", err, "a readable file")
	}
	defer f.Close()
	r := csv.NewReader(guard(f, file, maxTableBytes))
	r.Comment = '#'
	r.FieldsPerRecord = len(columns)
	head, err := r.Read()
	if err != nil {
		return broken(file, err, columns)
	}
	for i, want := range columns {
		if head[i] != want {
			line, _ := r.FieldPos(i)
			return fault.InFile(file, line, "", head[i], "the column "+want)
		}
	}
	var errs []error
	for n := 0; ; n++ {
		rec, err := r.Read()
		if err == io.EOF {
			if n == 0 {
				return fault.InFile(file, 0, "", "no rows", "at least one row")
			}
			return errors.Join(errs...)
		}
		if err != nil {
			return errors.Join(append(errs, broken(file, err, columns))...)
		}
		line, _ := r.FieldPos(0)
		w := &row{file: file, line: line, fields: map[string]string{}}
		for i, c := range columns {
			w.fields[c] = rec[i]
		}
		each(w)
		if w.err != nil {
			errs = append(errs, w.err)
		}
	}
}

func broken(file string, err error, columns []string) error {
	if f, ours := fault.As(err); ours {
		return f
	}
	line := 0
	var p *csv.ParseError
	if errors.As(err, &p) {
		line, err = p.Line, p.Err
	}
	return fault.InFile(file, line, "", err, fmt.Sprintf("comma-separated rows of %d columns", len(columns)))
}

func (w *row) refuse(field string, got any, accepted string) {
	if w.err == nil {
		w.err = fault.InFile(w.file, w.line, field, got, accepted)
	}
}

// text is a field that must not be empty.
func (w *row) text(field string) string {
	s := w.fields[field]
	if s == "" || len(s) > 300 {
		w.refuse(field, s, "1 to 300 characters")
	}
	return s
}

// word is a field with a closed list of values.
func (w *row) word(field string, accepted ...string) string {
	s := w.fields[field]
	for _, a := range accepted {
		if s == a {
			return s
		}
	}
	w.refuse(field, s, fmt.Sprintf("one of %v", accepted))
	return s
}

// number is a field within limits, ends included.
func (w *row) number(field string, low, high float64) float64 {
	v, err := strconv.ParseFloat(w.fields[field], 64)
	if err != nil || !unit.Finite(v) || v < low || v > high {
		w.refuse(field, w.fields[field], fmt.Sprintf("a number from %v to %v", low, high))
		return low
	}
	return v
}

// source is where the row's values come from; status is one of the five words.
func (w *row) source(cell string) *working.Source {
	s := working.Status(w.fields["status"])
	if !s.Known() {
		w.refuse("status", w.fields["status"], "verified, verified second-hand, from memory, computed or engineering judgement")
	}
	return &working.Source{Publication: w.text("source"), Cell: cell, Status: s}
}
