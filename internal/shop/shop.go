package shop

import (
	"io/fs"

	"daybreak/internal/fault"
	"daybreak/internal/pricing"
	"daybreak/internal/pricing/bookfile"
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
	Revisions     []Revision // one per book, in order of name
}

// Load reads a shop's folder. Every fault of every book is reported; a shop
// with one fault is not a shop.
func Load(fsys fs.FS) (*Shop, error) {
	faults := &bookfile.Faults{}
	s := &Shop{}
	s.header(bookfile.Open(fsys, "shop.yaml", faults))
	s.Jurisdictions = readJurisdictions(bookfile.Open(fsys, "jurisdictions.yaml", faults))
	prices, err := fs.Sub(fsys, "prices")
	if err == nil {
		s.Prices, err = pricing.LoadBook(prices)
	}
	for _, f := range fault.All(err) {
		moved := *f
		moved.File = "prices/" + f.File
		faults.Keep(&moved)
	}
	if s.Prices != nil && s.Jurisdictions != nil {
		s.Jurisdictions.agree(s.Prices, faults)
	}
	if err := faults.Err(); err != nil {
		return nil, err
	}
	if s.Revisions, err = revisions(fsys, s); err != nil {
		return nil, err
	}
	return s, nil
}

// Check gives every fault of a shop's folder, none when it may be served.
func Check(fsys fs.FS) []*fault.Fault {
	_, err := Load(fsys)
	return fault.All(err)
}

func (s *Shop) header(n bookfile.Node) {
	n.Only("id", "name", "town", "source", "status")
	s.ID, s.Name, s.Town = n.At("id").Text(), n.At("name").Text(), n.At("town").Text()
	n.At("source").Text()
	s.Demo = n.At("status").Word("invented", "checked") == "invented"
}

// At gives the price book's place and the locality of a postal code on a date.
// A code the shop does not serve is a fault of kind not found.
func (s *Shop) At(postalCode string, on unit.Date) (pricing.Place, Locality, error) {
	place, err := s.Prices.At(postalCode, on)
	if err != nil {
		return pricing.Place{}, Locality{}, err
	}
	locality, _ := s.Jurisdictions.At(postalCode, on)
	return place, locality, nil
}

// Home gives the shop's own place and locality, both assumed, for a household
// whose postal code nobody told.
func (s *Shop) Home(on unit.Date) (pricing.Place, Locality) {
	place := s.Prices.Home(on)
	locality, _ := s.Jurisdictions.At(place.PostalCode, on)
	return place, locality
}
