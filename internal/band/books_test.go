package band_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"sync"
	"testing"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/facts"
	"daybreak/internal/service/wire"
	"daybreak/internal/shop"
	"daybreak/internal/shop/alderbay"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/encoding/protojson"
)

// books are the demo shop's, opened once for all tests of the room.
var books = sync.OnceValues(func() (*shop.Books, error) {
	return shop.Open(alderbay.Files())
})

func openBooks(t testing.TB) *shop.Books {
	t.Helper()
	b, err := books()
	require.NoError(t, err)
	return b
}

// household is one file of testdata/households: facts in the wire form.
type household struct {
	id   string
	told facts.Facts
	asOf unit.Date
}

const householdsDir = "../../testdata/households"

func households(t testing.TB) []household {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(householdsDir, "*.json"))
	require.NoError(t, err)
	require.Len(t, files, 16)
	out := make([]household, 0, len(files))
	for _, name := range files {
		out = append(out, readHousehold(t, name))
	}
	return out
}

func readHousehold(t testing.TB, name string) household {
	t.Helper()
	raw, err := os.ReadFile(name)
	require.NoError(t, err)
	var doc struct {
		ID    string          `json:"id"`
		AsOf  string          `json:"as_of"`
		Facts json.RawMessage `json:"facts"`
	}
	require.NoError(t, json.Unmarshal(raw, &doc), name)
	var m daybreakv1.Facts
	require.NoError(t, protojson.Unmarshal(doc.Facts, &m), name)
	told, err := wire.Facts("facts", &m)
	require.NoError(t, err, name)
	asOf, ok := unit.ParseDate(doc.AsOf)
	require.True(t, ok, name)
	return household{doc.ID, told, asOf}
}
