package band_test

import (
	"encoding/binary"
	"math"
	"testing"

	"daybreak/internal/facts"
	"daybreak/internal/fault"
	"daybreak/internal/quote"

	"github.com/stretchr/testify/require"
)

// FuzzCompose tells any leaves any values: a quote or a fault by name, the same
// body twice, and never a panic.
func FuzzCompose(f *testing.F) {
	f.Add([]byte{})
	f.Add([]byte{0, 0, 60, 0, 1, 1, 10, 0})
	f.Add([]byte{40, 0, 255, 255, 90, 0, 0, 128, 100, 0, 0, 0})
	f.Add([]byte("every leaf of a household at some value it may accept"))
	books := openBooks(f)
	f.Fuzz(func(t *testing.T, raw []byte) {
		told := readLeaves(raw)
		home := quote.Household{Told: told, Filled: told}
		books.Complete(&home.Filled, today)
		books.Tree.Central(&home.Filled, books.World(today))
		q, err := quote.Compose(books, home, today)
		if err != nil {
			_, named := fault.As(err)
			require.True(t, named, "%v", err)
			return
		}
		body := quote.Canonical(&q)
		require.Nil(t, noNumber.Find(body))
		again, err := quote.Compose(books, home, today)
		require.NoError(t, err)
		require.Equal(t, string(body), string(quote.Canonical(&again)))
	})
}

// readLeaves tells a household leaf by leaf: two bytes for which, two for where
// in its range.
func readLeaves(raw []byte) (told facts.Facts) {
	leaves := facts.Leaves()
	for ; len(raw) >= 4; raw = raw[4:] {
		l := leaves[int(binary.LittleEndian.Uint16(raw))%len(leaves)]
		at := float64(binary.LittleEndian.Uint16(raw[2:])) / math.MaxUint16
		if l.Kind == facts.Text || l.Kind == facts.Day {
			continue
		}
		slot := l.At(&told)
		slot.DeriveNumber(l.Low+at*(min(l.High, 1e9)-l.Low), 0)
		if v := slot.Value(); v == nil || slot.Tell(v) != nil {
			slot.Unsure()
		}
	}
	return told
}
