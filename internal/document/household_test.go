package document

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/band"
	"daybreak/internal/facts"
	"daybreak/internal/quote"
	"daybreak/internal/quote/caution"
	"daybreak/internal/service/wire"
	"daybreak/internal/shop"
	"daybreak/internal/shop/alderbay"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/encoding/protojson"
)

func openBooks(t testing.TB) *shop.Books {
	books, err := shop.Open(alderbay.Files())
	require.NoError(t, err)
	return books
}

func newPrinter(t testing.TB, books *shop.Books) *Printer {
	words, err := quote.LoadWords(quote.EmbeddedWords(), "en")
	require.NoError(t, err)
	rules, err := working.LoadWords(working.Embedded(), "en")
	require.NoError(t, err)
	cautions, err := caution.LoadWords(caution.Embedded(), "en", books.Cautions)
	require.NoError(t, err)
	questions, ok := books.Tree.Words("en")
	require.True(t, ok)
	return &Printer{Values: questions.Values, Quote: words, Rules: rules, Cautions: cautions, Label: func(path string) string { return path }, Shop: "Fernhill, Alder Bay"}
}

// printed is every household of testdata/households with its quote as text.
type printed struct {
	id   string
	q    quote.Quote
	text string
}

func printHouseholds(t testing.TB) []printed {
	books := openBooks(t)
	p := newPrinter(t, books)
	files, err := filepath.Glob("../../testdata/households/*.json")
	require.NoError(t, err)
	require.Len(t, files, 16)
	var out []printed
	for _, name := range files {
		told, asOf := readHousehold(t, name)
		q, err := band.Quote(books, told, asOf)
		require.NoError(t, err)
		var b strings.Builder
		require.NoError(t, p.Text(&b, &q, &told))
		out = append(out, printed{strings.TrimSuffix(filepath.Base(name), ".json"), q, b.String()})
	}
	return out
}

func readHousehold(t testing.TB, name string) (facts.Facts, unit.Date) {
	raw, err := os.ReadFile(name)
	require.NoError(t, err)
	var doc struct {
		Facts json.RawMessage `json:"facts"`
		AsOf  string          `json:"as_of"`
	}
	require.NoError(t, json.Unmarshal(raw, &doc))
	var m daybreakv1.Facts
	require.NoError(t, protojson.Unmarshal(doc.Facts, &m))
	told, err := wire.Facts("facts", &m)
	require.NoError(t, err)
	asOf, ok := unit.ParseDate(doc.AsOf)
	require.True(t, ok)
	return told, asOf
}
