package band_test

import (
	"bytes"
	"io/fs"
	"path/filepath"
	"testing"
	"testing/fstest"

	"daybreak/internal/band"
	"daybreak/internal/shop"
	"daybreak/internal/shop/alderbay"

	"github.com/stretchr/testify/require"
)

// A jurisdiction that asks for ground-fault protection at every hardwired
// charger turns the same home's circuit, and the page says whose rule it is.
func TestAJurisdictionsOwnRuleChangesTheCircuit(t *testing.T) {
	h := readHousehold(t, filepath.Join(householdsDir, "V03.json")) // NEC 2020, hardwired in a garage: none asked for
	books := openBooks(t)
	as := func(b *shop.Books) (bool, string) {
		q, err := band.Quote(b, h.told, h.asOf)
		require.NoError(t, err)
		for i := range q.Options {
			if c := q.Options[i].Circuit; c != nil && c.Hardwired {
				return c.GFCI, c.GroundFault.Source.Publication
			}
		}
		t.Fatal("no hardwired option")
		return false, ""
	}
	published, _ := as(books)
	require.False(t, published)

	files := fstest.MapFS{}
	require.NoError(t, fs.WalkDir(alderbay.Files(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		raw, err := fs.ReadFile(alderbay.Files(), name)
		files[name] = &fstest.MapFile{Data: raw}
		return err
	}))
	files["jurisdictions.yaml"].Data = bytes.Replace(files["jurisdictions.yaml"].Data, []byte("    name: City of Alder Bay\n"),
		[]byte("    name: City of Alder Bay\n    amendments:\n      - {switch: ground_fault.hardwired_everywhere, publication: \"Alder Bay ordinance (invented)\", section: \"1\", status: from memory}\n"), 1)
	tenant, err := shop.Load(files)
	require.NoError(t, err)
	amended, whose := as(shop.Join(books.Common, tenant, books.Tree))
	require.True(t, amended)
	require.Contains(t, whose, "Alder Bay ordinance")

	files["jurisdictions.yaml"].Data = bytes.Replace(files["jurisdictions.yaml"].Data, []byte("hardwired_everywhere"), []byte("hardwired_sometimes"), 1)
	_, err = shop.Load(files)
	require.ErrorContains(t, err, "jurisdictions.yaml")
	require.ErrorContains(t, err, "amendments")
}
