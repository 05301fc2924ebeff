package nec

import (
	"math"
	"strconv"

	"daybreak/internal/edition"
	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// builder turns tables into a book and keeps the first fault.
type builder struct {
	tables map[string]*table
	year   int
	err    error
	b      *Book
}

func build(tables map[string]*table, year int) (*Book, error) {
	u := &builder{tables: tables, year: year, b: &Book{name: "NEC " + strconv.Itoa(year)}}
	for _, step := range []func(){
		u.conductors, u.ampacity, u.factors, u.methods, u.impedance,
		u.protection, u.grounding, u.racewayAreas, u.boxes, u.places, u.cover, u.structures,
		u.charging, u.groundFault, u.faces,
	} {
		if step(); u.err != nil {
			return nil, u.err
		}
	}
	for _, t := range tables {
		if !t.read {
			return nil, fault.InFile(t.file, t.line, "table", t.name, "a table the book uses")
		}
	}
	return u.b, nil
}

func (u *builder) fail(err error) {
	if u.err == nil {
		u.err = err
	}
}

// table gives a table that must be there with these columns.
func (u *builder) table(name string, columns ...string) *table {
	t, ok := u.tables[name]
	if !ok {
		u.fail(fault.InFile(".", 0, "table", "nothing", "a table named "+name))
		return &table{columns: map[string]int{}}
	}
	t.read = true
	for _, c := range columns {
		if _, ok := t.columns[c]; !ok {
			u.fail(fault.InFile(t.file, t.line, "columns", "nothing", "a column named "+c+" in "+name))
			return &table{columns: map[string]int{}}
		}
	}
	if len(columns) != len(t.columns) {
		u.fail(fault.InFile(t.file, t.line, "columns", len(t.columns), strconv.Itoa(len(columns))+" columns in "+name))
		return &table{columns: map[string]int{}}
	}
	return t
}

func (t *table) at(r row, column string) cell { return r.cells[t.columns[column]] }

// num gives a number that must be there and not negative beyond −1.
func (u *builder) num(t *table, r row, column string) edition.Cited[float64] {
	c := t.at(r, column)
	if math.IsNaN(c.number) || math.IsInf(c.number, 0) || c.number < -1 {
		u.fail(fault.InFile(t.file, c.line, t.name+": "+r.key+", "+column, c.word, "a number"))
	}
	return edition.Cited[float64]{Value: c.number, Source: c.source}
}

// maybe gives a number, or nothing for the word none.
func (u *builder) maybe(t *table, r row, column string) entry[float64] {
	if t.at(r, column).none {
		return entry[float64]{}
	}
	return entry[float64]{u.num(t, r, column), true}
}

func amps(e entry[float64]) entry[unit.Amps] {
	return entry[unit.Amps]{edition.Cited[unit.Amps]{Value: unit.Amps(e.cited.Value), Source: e.cited.Source}, e.there}
}

// size gives a size of the ladder, or none.
func (u *builder) size(t *table, r row, column string) (edition.Size, *working.Source) {
	c := t.at(r, column)
	if c.none {
		return edition.Size{}, c.source
	}
	for _, s := range u.b.sizes {
		if s.String() == c.word {
			return s, c.source
		}
	}
	u.fail(fault.InFile(t.file, c.line, t.name+": "+column, c.word, "a size of the table conductors"))
	return edition.Size{}, c.source
}

// bySize makes a slice with a place for each rank, 0 unused.
func bySize[T any](b *Book) []T { return make([]T, len(b.sizes)+1) }

// rules gives the rows of a table of single values by name.
func (u *builder) rules(name string, columns []string, want ...string) map[string]row {
	t := u.table(name, columns...)
	rows := map[string]row{}
	for _, r := range t.rows {
		rows[r.key] = r
	}
	for _, w := range want {
		if _, ok := rows[w]; !ok && u.err == nil {
			u.fail(fault.InFile(t.file, t.line, name, "nothing", "a row named "+w))
		}
	}
	if len(rows) != len(want) && u.err == nil {
		u.fail(fault.InFile(t.file, t.line, name, len(rows), strconv.Itoa(len(want))+" rows"))
	}
	return rows
}

// ascending faults a first column that does not rise.
func (u *builder) ascending(t *table, column string) {
	last := math.Inf(-1)
	for _, r := range t.rows {
		if v := u.num(t, r, column).Value; v <= last {
			u.fail(fault.InFile(t.file, r.line, t.name+": "+column, v, "more than the row above"))
		} else {
			last = v
		}
	}
}
