package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/band"
	"daybreak/internal/facts"
	"daybreak/internal/quote"
	"daybreak/internal/service/wire"
	"daybreak/internal/shop"
	"daybreak/internal/shop/alderbay"
	"daybreak/internal/unit"

	"google.golang.org/protobuf/encoding/protojson"
)

// engines measures quotes composed in this process, and each engine alone.
func engines() ([]row, error) {
	books, err := demoBooks()
	if err != nil {
		return nil, err
	}
	told, err := household("V01")
	if err != nil {
		return nil, err
	}
	on, _ := unit.ParseDate(asOf)
	var few facts.Facts
	few.Driving.WeekdayMiles = told.Driving.WeekdayMiles
	few.Panel.ServiceAmps = told.Panel.ServiceAmps
	filled := told
	books.Complete(&filled, on)
	books.Tree.Central(&filled, books.World(on))
	books.Complete(&filled, on)

	rows, err := each([]piece{
		{"one composition, all ways, with bill and working", true, func() error {
			_, err := quote.Compose(books, quote.Household{Told: told, Filled: filled}, on)
			return err
		}},
		{"one composition on the price-only path", true, func() error {
			_, err := quote.Price(books, &filled, on)
			return err
		}},
		{fmt.Sprintf("a quote with two facts told: %d draws, every open fact tried", band.Draws), false, func() error {
			_, err := band.Quote(books, few, on)
			return err
		}},
	})
	if err != nil {
		return nil, err
	}
	alone, err := alone(books, on)
	return append(rows, alone...), err
}

// piece is work that is timed alone.
type piece struct {
	what   string
	allocs bool // its allocations are a row too
	do     func() error
}

// each times every piece.
func each(pieces []piece) (rows []row, err error) {
	for _, p := range pieces {
		if err := p.do(); err != nil {
			return nil, fmt.Errorf("%s: %w", p.what, err)
		}
		r := testing.Benchmark(func(b *testing.B) {
			for b.Loop() {
				_ = p.do() // it did above, and it is pure
			}
		})
		rows = append(rows, row{what: p.what, against: "–", value: float64(r.NsPerOp()) / 1000, unit: "µs"})
		if p.allocs {
			rows = append(rows, row{what: p.what, against: "–", value: float64(r.AllocsPerOp()), unit: "allocs"})
		}
	}
	return rows, nil
}

func demoBooks() (*shop.Books, error) {
	return shop.Open(alderbay.Files())
}

// household reads one of the check households; run from the repository's root.
func household(id string) (facts.Facts, error) {
	m, err := householdMessage(id)
	if err != nil {
		return facts.Facts{}, err
	}
	return wire.Facts("facts", m)
}

func householdMessage(id string) (*daybreakv1.Facts, error) {
	raw, err := os.ReadFile(filepath.Join("testdata", "households", id+".json"))
	if err != nil {
		return nil, fmt.Errorf("run this from the root of the repository: %w", err)
	}
	var h struct{ Facts json.RawMessage }
	if err := json.Unmarshal(raw, &h); err != nil {
		return nil, err
	}
	m := &daybreakv1.Facts{}
	return m, protojson.Unmarshal(h.Facts, m)
}
