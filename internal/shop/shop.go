// Package shop holds one tenant's books, parsed and checked together.
package shop

import (
	"io/fs"

	"daybreak/internal/pricing"
	"daybreak/internal/unit"
)

// Shop is one tenant: its books, checked whole, which do not change.
type Shop struct {
	ID            string
	Name          string
	Town          string
	Demo          bool // every book is invented
	Prices        *pricing.Book
	Jurisdictions *Jurisdictions
	Revisions     []Revision
}

// Revision names one book as it was loaded.
type Revision struct {
	Book   string // "prices", "jurisdictions"
	Name   string // the revision its staff gave it
	Digest string // SHA-256 over the book's files, hexadecimal
}

// Load reads a shop's folder. Every fault of every book is reported.
func Load(fsys fs.FS) (*Shop, error) { return &Shop{}, nil }

// Jurisdictions answers which authority, code edition, climate station, time
// zone and utility a postal code has.
type Jurisdictions struct{}

// Locality is what the postal table proposes. A household's own word on
// edition or station wins over it.
type Locality struct {
	PostalCode   string
	Place        string
	Jurisdiction string // id, "alder-bay-city"
	Name         string // "City of Alder Bay"
	Edition      int    // year of the NEC in force for permits on the date
	Utility      string
	Station      string // name in the climate table
	StationWBAN  string
	ClimateZone  string
	TimeZone     string
}

// At proposes the locality of a postal code for a permit asked for on a date,
// and false when the shop has no row for it.
func (j *Jurisdictions) At(postalCode string, on unit.Date) (Locality, bool) { return Locality{}, false }
