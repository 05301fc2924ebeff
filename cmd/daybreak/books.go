package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"daybreak/internal/document"
	"daybreak/internal/fault"
	"daybreak/internal/intake/tree"
	"daybreak/internal/quote"
	"daybreak/internal/quote/caution"
	"daybreak/internal/shop"
	"daybreak/internal/shop/alderbay"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// locale is the one offered now.
const locale = "en"

// openBooks reads and checks everything a quote is made with. An empty folder
// means the demo shop that ships with the program.
func openBooks(folder string) (*shop.Books, error) {
	common, err := shop.OpenCommon(shop.Sources{})
	if err != nil {
		return nil, err
	}
	var files fs.FS = alderbay.Files()
	if folder != "" {
		info, err := os.Stat(folder)
		if err != nil || !info.IsDir() {
			return nil, fault.Invalid("--shop", folder, "a folder with a shop's books, such as a copy of internal/shop/alderbay")
		}
		files = os.DirFS(folder)
	}
	tenant, err := shop.Load(files)
	if err != nil {
		return nil, inFolder(folder, err)
	}
	questions, err := tree.Load(tree.Embedded())
	if err != nil {
		return nil, err
	}
	return shop.Join(common, tenant, questions), nil
}

// inFolder names each broken file by where it lies, not by where it lies in
// its shop.
func inFolder(folder string, err error) error {
	var all []error
	for _, f := range fault.All(err) {
		moved := *f
		if f.File != "" {
			moved.File = filepath.Join(folder, f.File)
		}
		all = append(all, &moved)
	}
	return errors.Join(all...)
}

// newPrinter prints quotes of a shop in the one locale.
func newPrinter(books *shop.Books) (*document.Printer, error) {
	words, err := quote.LoadWords(quote.EmbeddedWords(), locale)
	if err != nil {
		return nil, err
	}
	rules, err := working.LoadWords(working.Embedded(), locale)
	if err != nil {
		return nil, err
	}
	cautions, err := caution.LoadWords(caution.Embedded(), locale, books.Cautions)
	if err != nil {
		return nil, err
	}
	questions, _ := books.Tree.Words(locale)
	return &document.Printer{
		Quote: words, Rules: rules, Cautions: cautions,
		Label:  func(path string) string { return questions.Leaves[path] },
		Values: questions.Values,
		Shop:   books.Name + ", " + books.Town,
	}, nil
}

// givenDate reads --as-of.
func givenDate(given string) (unit.Date, error) {
	d, ok := unit.ParseDate(given)
	if !ok {
		return d, fault.Invalid("--as-of", given, "a calendar date such as 2026-11-25")
	}
	return d, nil
}

// dateOf reads --as-of, or takes today in the shop's own zone.
func dateOf(books *shop.Books, given string) (unit.Date, error) {
	if given != "" {
		return givenDate(given)
	}
	zone := time.UTC
	home := books.Prices.Home(books.Prices.From).PostalCode
	if town, ok := books.Jurisdictions.At(home, books.Prices.From); ok {
		loc, err := time.LoadLocation(town.TimeZone)
		if err != nil {
			return unit.Date{}, fault.Invalid("time_zone", town.TimeZone, "a zone of the IANA time zone database")
		}
		zone = loc
	}
	d, ok := unit.ParseDate(time.Now().In(zone).Format(time.DateOnly))
	if !ok {
		return unit.Date{}, fmt.Errorf("the clock gives no calendar date")
	}
	return d, nil
}
