package shop

import (
	"errors"
	"io/fs"

	"daybreak/internal/fault"
	"daybreak/internal/pricing"
	"daybreak/internal/pricing/bookfile"
	"daybreak/internal/tariff"
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
	Revisions     []Revision // one per book a quote rests on, in order of name
	Tariffs       []tariff.Tariff
	TariffBook    Revision // of the tariffs: no quote rests on them
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
	keepBelow("prices/", err, faults)
	keepBelow("tariffs/", s.readTariffs(fsys), faults)
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

// keepBelow keeps the faults of a book that was read from a folder of its own.
func keepBelow(folder string, err error, faults *bookfile.Faults) {
	for _, f := range fault.All(err) {
		moved := *f
		moved.File = folder + f.File
		faults.Keep(&moved)
	}
}

// readTariffs reads the folder of tariffs; a shop without it has none.
func (s *Shop) readTariffs(fsys fs.FS) error {
	if _, err := fs.Stat(fsys, "tariffs"); errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	folder, err := fs.Sub(fsys, "tariffs")
	if err != nil {
		return fault.InFile(".", 0, "", "unreadable", "a readable folder")
	}
	if s.Tariffs, err = tariff.Load(folder); err != nil {
		return err
	}
	digest, err := Digest(folder)
	if err != nil {
		return err
	}
	s.TariffBook = Revision{Book: "tariffs", Name: digest[:8], Digest: digest}
	return nil
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
