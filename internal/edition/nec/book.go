package nec

import (
	"io/fs"
	"strconv"

	"daybreak/internal/fault"
)

// Book is one edition of the National Electrical Code. It is immutable.
type Book struct{ name string }

// Name is the book and its year, "NEC 2023".
func (b *Book) Name() string { return b.name }

func open(_ fs.FS, year int) (*Book, error) {
	switch year {
	case 2017, 2020, 2023, 2026:
		return &Book{name: "NEC " + strconv.Itoa(year)}, nil
	}
	return nil, fault.Invalid("edition", year, "2017, 2020, 2023 or 2026")
}
