package service

import (
	"fmt"
	"time"

	"daybreak/internal/circuit/outlet"
	"daybreak/internal/facts"
	"daybreak/internal/fault"
	"daybreak/internal/service/access"
	"daybreak/internal/service/wire"
	"daybreak/internal/shop"
	"daybreak/internal/store"
	"daybreak/internal/unit"
)

// handlers are what every service's handlers share.
type handlers struct {
	books   *shop.Books
	store   store.Store
	keys    *access.Keyring
	words   *wire.Words
	outlets *outlet.Rulebook
	kept    *retained
	memo    *memo
}

func newHandlers(c Config) (*handlers, error) {
	words, err := wire.LoadWords(c.Books.Cautions, c.Books.Tree)
	if err != nil {
		return nil, fmt.Errorf("the words of replies: %w", err)
	}
	outlets, err := outlet.Load(outlet.Embedded())
	if err != nil {
		return nil, fmt.Errorf("the outlet rules: %w", err)
	}
	return &handlers{
		books: c.Books, store: c.Store, keys: c.Keys, words: words, outlets: outlets, kept: &retained{folders: c.BookFiles}, memo: &memo{},
	}, nil
}

// wordsFor are the words of the locale asked for, or the nearest there are;
// replies name the locale they are in.
func (h *handlers) wordsFor(string) *wire.Words { return h.words }

// asOf is the date a question is asked as of: the one given, or today in a
// zone.
func (h *handlers) asOf(field, given string, zone *time.Location) (unit.Date, error) {
	if given == "" {
		given = time.Now().In(zone).Format(time.DateOnly)
	}
	d, ok := unit.ParseDate(given)
	if !ok {
		return unit.Date{}, fault.Invalid(field, given, "a date of the calendar, such as 2026-01-31")
	}
	return d, nil
}

// zoneOf is the zone of a postal code, or the shop's own.
func (h *handlers) zoneOf(postalCode string) *time.Location {
	var today unit.Date // the zone of a place does not depend on the date
	locality, ok := h.books.Jurisdictions.At(postalCode, today)
	if !ok {
		_, locality = h.books.Home(today)
	}
	return zone(locality.TimeZone)
}

// zoneOfHome is the zone of a household: as told, else its postal code's.
func (h *handlers) zoneOfHome(f *facts.Facts) *time.Location {
	if name, ok := f.Place.TimeZone.Get(); ok {
		return zone(name)
	}
	postal, _ := f.Place.PostalCode.Get()
	return h.zoneOf(postal)
}

func zone(name string) *time.Location {
	if loc, err := time.LoadLocation(name); err == nil {
		return loc
	}
	return time.UTC
}
