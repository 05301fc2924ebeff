package shop

import (
	"errors"
	"io/fs"
	"strconv"

	"daybreak/internal/charging"
	codebook "daybreak/internal/edition"
	"daybreak/internal/edition/nec"
	"daybreak/internal/fault"
	"daybreak/internal/intake/tree"
	"daybreak/internal/panel"
	"daybreak/internal/pricing"
	"daybreak/internal/quote/caution"
	"daybreak/internal/unit"
)

// Common are the tables every tenant shares: the code books, the load rules,
// plates and priors, vehicles and climate, and what is dangerous.
type Common struct {
	Editions   map[int]codebook.Edition // by year of the NEC
	Load       *panel.Book
	Appliances *panel.Appliances
	Charging   *charging.Tables
	Cautions   *caution.Book
	Revisions  []Revision
}

// Sources are the file systems the common tables are read from. A nil one
// takes what ships with the program.
type Sources struct {
	NEC, Panel, Charging, Cautions fs.FS
}

// served are the years of the NEC a quote is designed to.
var served = []int{2017, 2020, 2023, 2026}

// OpenCommon reads and checks the common tables. Every fault of every table is
// reported.
func OpenCommon(s Sources) (*Common, error) {
	s = s.orEmbedded()
	c := &Common{Editions: map[int]codebook.Edition{}}
	var errs []error
	keep := func(err error) { errs = append(errs, err) }
	for _, year := range served {
		book, err := nec.Open(s.NEC, year)
		keep(err)
		if err == nil {
			c.Editions[year] = book
		}
	}
	var err error
	c.Load, err = panel.OpenBook(s.Panel)
	keep(err)
	c.Appliances, err = panel.OpenAppliances(s.Panel)
	keep(err)
	c.Charging, err = charging.Load(s.Charging)
	keep(err)
	c.Cautions, err = caution.Load(s.Cautions)
	keep(err)
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	for _, t := range []struct {
		name string
		fs   fs.FS
	}{{"code book", s.NEC}, {"load rules", s.Panel}, {"vehicles and climate", s.Charging}, {"cautions", s.Cautions}} {
		digest, err := Digest(t.fs)
		if err != nil {
			return nil, err
		}
		c.Revisions = append(c.Revisions, Revision{Book: t.name, Name: digest[:8], Digest: digest})
	}
	return c, nil
}

func (s Sources) orEmbedded() Sources {
	if s.NEC == nil {
		s.NEC = nec.Embedded()
	}
	if s.Panel == nil {
		s.Panel = panel.Embedded()
	}
	if s.Charging == nil {
		s.Charging = charging.Embedded()
	}
	if s.Cautions == nil {
		s.Cautions = caution.Embedded()
	}
	return s
}

// Books are all a quote is made with: the common tables, one tenant's own
// books and its question tree. They do not change once opened.
type Books struct {
	*Common
	*Shop
	Tree   *tree.Tree
	tables tableSet
}

// Join puts a tenant's books and tree beside the common tables.
func Join(c *Common, s *Shop, t *tree.Tree) *Books {
	b := &Books{Common: c, Shop: s, Tree: t}
	b.tables = b.makeTables()
	return b
}

// Open reads all a quote is made with: what ships with the program, and a
// tenant's own books from its folder.
func Open(tenant fs.FS) (*Books, error) {
	common, err := OpenCommon(Sources{})
	if err != nil {
		return nil, err
	}
	own, err := Load(tenant)
	if err != nil {
		return nil, err
	}
	questions, err := tree.Load(tree.Embedded())
	if err != nil {
		return nil, err
	}
	return Join(common, own, questions), nil
}

// AllRevisions lists every book a quote rests on, in a fixed order.
func (b *Books) AllRevisions() []Revision {
	out := append([]Revision{}, b.Common.Revisions...)
	out = append(out, b.Shop.Revisions...)
	return append(out, Revision{Book: "question tree", Name: b.Tree.Revision()[:8], Digest: b.Tree.Revision()})
}

// Edition is the code book of a year, or a fault that names the years there are.
func (b *Books) Edition(year int) (codebook.Edition, error) {
	if ed, ok := b.Editions[year]; ok {
		return ed, nil
	}
	return nil, fault.Invalid("facts.place.code_edition", strconv.Itoa(year), "2017, 2020, 2023 or 2026")
}

// PriceAt is where and when work is priced: the postal code's place, or the
// shop's own when the code is not one it serves.
func (b *Books) PriceAt(postalCode string, on unit.Date) (pricing.Place, error) {
	place, err := b.Prices.At(postalCode, on)
	if err == nil {
		return place, nil
	}
	if f, ok := fault.As(err); ok && f.Kind == fault.KindNotFound {
		return b.Prices.Home(on), nil
	}
	return pricing.Place{}, err
}

// World is what the question tree fills a household from besides its answers.
func (b *Books) World(asOf unit.Date) *tree.World {
	return &tree.World{Tables: b.tables.tables, HomePostal: b.Prices.Home(b.Prices.From).PostalCode, AsOf: factsDate(asOf)}
}
