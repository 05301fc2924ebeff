package nec

import (
	"embed"
	"io/fs"
	"slices"
	"strings"

	"daybreak/internal/edition"
	"daybreak/internal/fault"
	"daybreak/internal/working"
)

//go:embed amendments/*.yaml
var switches embed.FS

// EmbeddedSwitches returns the switches that ship with the program.
func EmbeddedSwitches() fs.FS {
	sub, err := fs.Sub(switches, "amendments")
	if err != nil {
		return switches
	}
	return sub
}

// Switches names what may be amended, in order of the alphabet.
func Switches(fsys fs.FS) ([]string, error) {
	t, err := switchTable(fsys, Years()[0])
	if err != nil {
		return nil, err
	}
	var out []string
	for _, r := range t.rows {
		if name := t.at(r, "switch").word; !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	slices.Sort(out)
	return out, nil
}

// Amended opens the book of a year as a jurisdiction has changed it. Every
// answer that rests on a change names the jurisdiction's own publication. The
// error is a fault: by file and line in a table, or naming the amendment that
// is unknown, incomplete or at odds with another.
func Amended(tables, switches fs.FS, year int, jurisdiction string, changes []edition.Amendment) (*Book, error) {
	if err := checkYear(year); err != nil {
		return nil, err
	}
	read, err := readTables(tables, year)
	if err != nil {
		return nil, err
	}
	if len(changes) > 0 {
		t, err := switchTable(switches, year)
		if err != nil {
			return nil, err
		}
		set := map[string]string{}
		for i := range changes {
			if err := throw(read, t, &changes[i], set); err != nil {
				return nil, err
			}
		}
	}
	b, err := build(read, year)
	if err != nil {
		return nil, err
	}
	if len(changes) > 0 {
		b.name += " as amended by " + jurisdiction
	}
	return b, nil
}

func switchTable(fsys fs.FS, year int) (*table, error) {
	read, err := readTables(fsys, year)
	if err != nil {
		return nil, err
	}
	u := &builder{tables: read, year: year, b: &Book{}}
	t := u.table("switches", "id", "switch", "table", "row", "column", "value")
	return t, u.err
}

// throw sets the cells of one switch. Set remembers which switch set a cell.
func throw(read map[string]*table, t *table, a *edition.Amendment, set map[string]string) error {
	if a.Publication == "" || a.Section == "" {
		return fault.Invalid("amendments."+a.Switch, a.Publication+" "+a.Section, "a publication and a section")
	}
	if !a.Status.Known() {
		return fault.Invalid("amendments."+a.Switch+".status", a.Status, statusWords)
	}
	found := false
	for _, r := range t.rows {
		if t.at(r, "switch").word != a.Switch {
			continue
		}
		found = true
		where := t.at(r, "table").word + ", " + t.at(r, "row").word + ", " + t.at(r, "column").word
		if by, twice := set[where]; twice {
			return fault.Invalid("amendments."+a.Switch, a.Switch+" beside "+by, "one of the two: both set "+where)
		}
		set[where] = a.Switch
		if err := setCell(read, t, r, a); err != nil {
			return err
		}
	}
	if !found {
		return fault.Invalid("amendments.switch", a.Switch, "one of "+strings.Join(names(t), ", "))
	}
	return nil
}

func names(t *table) (out []string) {
	for _, r := range t.rows {
		if name := t.at(r, "switch").word; !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

func setCell(read map[string]*table, t *table, r row, a *edition.Amendment) error {
	target, ok := read[t.at(r, "table").word]
	if !ok {
		return fault.InFile(t.file, r.line, "table", t.at(r, "table").word, "a table of the book")
	}
	column, ok := target.columns[t.at(r, "column").word]
	if !ok {
		return fault.InFile(t.file, r.line, "column", t.at(r, "column").word, "a column of "+target.name)
	}
	for i := range target.rows {
		if target.rows[i].key != t.at(r, "row").word {
			continue
		}
		cells := target.rows[i].cells
		value := t.at(r, "value")
		value.source = &working.Source{Publication: a.Publication, Section: a.Section, Status: a.Status, Cell: cells[column].source.Cell}
		cells[column] = value
		// Answers cited by their row name the change beside the code's section.
		whole := *cells[0].source
		whole.Section += "; " + a.Publication + " " + a.Section
		cells[0].source = &whole
		return nil
	}
	return fault.InFile(t.file, r.line, "row", t.at(r, "row").word, "a row of "+target.name)
}
