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
	"daybreak/internal/intake/tree"
	"daybreak/internal/quote"
	"daybreak/internal/service/wire"
	"daybreak/internal/shop"
	"daybreak/internal/shop/alderbay"
	"daybreak/internal/unit"

	"google.golang.org/protobuf/encoding/protojson"
)

// engines measures one composition in this process.
func engines() ([]row, error) {
	books, err := demoBooks()
	if err != nil {
		return nil, err
	}
	told, err := household("V01")
	if err != nil {
		return nil, err
	}
	asOf, _ := unit.ParseDate("2026-11-25")
	var few facts.Facts
	few.Driving.WeekdayMiles = told.Driving.WeekdayMiles
	few.Panel.ServiceAmps = told.Panel.ServiceAmps
	filled := told
	books.Complete(&filled, asOf)
	books.Tree.Central(&filled, books.World(asOf))
	books.Complete(&filled, asOf)

	price := testing.Benchmark(func(b *testing.B) {
		for b.Loop() {
			if _, err := quote.Price(books, &filled, asOf); err != nil {
				b.Fatal(err)
			}
		}
	})
	compose := testing.Benchmark(func(b *testing.B) {
		for b.Loop() {
			if _, err := quote.Compose(books, quote.Household{Told: told, Filled: filled}, asOf); err != nil {
				b.Fatal(err)
			}
		}
	})
	open := testing.Benchmark(func(b *testing.B) {
		for b.Loop() {
			if _, err := band.Quote(books, few, asOf); err != nil {
				b.Fatal(err)
			}
		}
	})
	return []row{
		micros("one composition, all ways, with bill and working", compose),
		allocs("one composition, all ways, with bill and working", compose),
		micros("one composition on the price-only path", price),
		allocs("one composition on the price-only path", price),
		micros(fmt.Sprintf("a quote with two facts told: %d draws and every open fact tried", band.Draws), open),
	}, nil
}

func micros(what string, r testing.BenchmarkResult) row {
	return row{what: what, against: "–", value: float64(r.NsPerOp()) / 1000, unit: "µs"}
}

func allocs(what string, r testing.BenchmarkResult) row {
	return row{what: what, against: "–", value: float64(r.AllocsPerOp()), unit: "allocs"}
}

func demoBooks() (*shop.Books, error) {
	common, err := shop.OpenCommon(shop.Sources{})
	if err != nil {
		return nil, err
	}
	tenant, err := shop.Load(alderbay.Files())
	if err != nil {
		return nil, err
	}
	questions, err := tree.Load(tree.Embedded())
	if err != nil {
		return nil, err
	}
	return shop.Join(common, tenant, questions), nil
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
