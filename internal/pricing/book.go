package pricing

import (
	"io/fs"

	"daybreak/internal/unit"
)

// Book is a shop's price book: items, labour, regions, permits, taxes and
// billing rules, checked whole. It does not change once loaded.
type Book struct {
	Revision  string
	Currency  unit.Currency
	From, To  unit.Date // first and last day it is meant for
	ValidDays int       // days a quote from it stands
	Source    string
	Demo      bool // invented data
}

// LoadBook reads every file of a price-book folder and checks it whole. Every
// fault is reported, each with file, line, field and what is accepted; a book
// with one fault is not a book.
func LoadBook(fsys fs.FS) (*Book, error) {
	return &Book{}, nil
}

// Place is where the work is done, on a date: the book's region, permit
// schedule, tax row and the unit prices that follow.
type Place struct {
	PostalCode string
	On         unit.Date
	Assumed    bool // the postal code is the shop's own, since none was told
}

// At gives the place of a postal code on a date; a code the shop does not
// serve is a fault of kind not found.
func (b *Book) At(postalCode string, on unit.Date) (Place, error) { return Place{}, nil }

// Home gives the shop's own place, for a household whose postal code nobody
// told.
func (b *Book) Home(on unit.Date) Place { return Place{} }
