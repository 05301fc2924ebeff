package nec

import (
	"bytes"
	"io/fs"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
)

// The reader of tables takes any bytes without a panic, and what it reads it
// can build with or refuse.
func FuzzTables(f *testing.F) {
	all, err := fs.Glob(Embedded(), "*.yaml")
	require.NoError(f, err)
	shipped := map[string]*table{}
	for _, name := range all {
		raw, err := fs.ReadFile(Embedded(), name)
		require.NoError(f, err)
		require.NoError(f, readFile(bytes.NewReader(raw), name, 2023, shipped))
		for _, doc := range bytes.SplitAfter(raw, []byte("---\n")) {
			f.Add(doc)
		}
	}
	f.Add([]byte("table: cover\nrows: [[1]]\n"))
	f.Add([]byte("a: &a [*a]\n"))
	f.Fuzz(func(t *testing.T, raw []byte) {
		read := map[string]*table{}
		if err := readFile(bytes.NewReader(raw), "fuzz.yaml", 2023, read); err != nil {
			return
		}
		tables := map[string]*table{}
		for name, shippedTable := range shipped {
			tables[name] = shippedTable
		}
		for name, fuzzed := range read {
			tables[name] = fuzzed
		}
		if b, err := build(tables, 2023); err == nil {
			_, _ = b.NextDevice(50)
		}
	})
}

func TestAFileOfNothingIsRefused(t *testing.T) {
	_, err := readTables(fstest.MapFS{"x.yaml": {Data: []byte("- 1\n")}}, 2023)
	require.ErrorContains(t, err, "x.yaml:1")
}

func BenchmarkOpen(b *testing.B) {
	for b.Loop() {
		if _, err := Open(Embedded(), 2023); err != nil {
			b.Fatal(err)
		}
	}
}
