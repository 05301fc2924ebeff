package panel

import (
	"embed"
	"errors"
	"io/fs"
	"strconv"

	"daybreak/internal/fault"

	"go.yaml.in/yaml/v3"
)

//go:embed methods.yaml appliances.yaml priors.yaml
var embedded embed.FS

// Embedded returns the data files that ship with the program.
func Embedded() fs.FS { return embedded }

// Book is the load-calculation rules of every edition served, read once and
// never changed.
type Book struct {
	editions []int
	rules    []*Rules
}

// OpenBook reads methods.yaml and appliances.yaml. Every value is resolved and
// checked for every edition; a fault names file, line and field.
func OpenBook(fsys fs.FS) (*Book, error) {
	const file = "methods.yaml"
	var doc methodsDoc
	var root yaml.Node
	if err := decodeFile(fsys, file, &doc, &root); err != nil {
		return nil, err
	}
	plates, err := OpenAppliances(fsys)
	if err != nil {
		return nil, err
	}
	if len(doc.Editions) == 0 || doc.Publication == "" {
		return nil, fault.InFile(file, 1, "editions", "nothing", "a publication and at least one edition")
	}
	b := &Book{editions: doc.Editions}
	var faults []error
	for i, year := range doc.Editions {
		if i > 0 && year <= doc.Editions[i-1] {
			return nil, fault.InFile(file, 1, "editions", year, "years in ascending order")
		}
		r := &resolver{file: file, root: root, publication: doc.Publication, year: year}
		rules := doc.resolve(r)
		rules.loads, rules.sources = plates.classes(), r.sources
		b.rules = append(b.rules, rules)
		faults = append(faults, r.faults...)
	}
	if err := errors.Join(faults...); err != nil {
		return nil, err
	}
	return b, nil
}

// Editions lists the years served, oldest first.
func (b *Book) Editions() []int { return append([]int(nil), b.editions...) }

// Rules returns the rules of one edition, by its year.
func (b *Book) Rules(year int) (*Rules, error) {
	accepted := ""
	for i, y := range b.editions {
		if y == year {
			return b.rules[i], nil
		}
		if i > 0 {
			accepted += ", "
		}
		accepted += strconv.Itoa(y)
	}
	return nil, fault.Invalid("edition", year, accepted)
}
