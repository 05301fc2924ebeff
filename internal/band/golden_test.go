package band_test

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"daybreak/internal/band"
	"daybreak/internal/quote"

	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite testdata/golden")

// Sixteen whole quotes in canonical form, byte for byte. What names the books a
// quote was made with stands apart: a comment in a data file changes it, and no
// figure with it.
func TestQuotesAreGolden(t *testing.T) {
	for _, h := range households(t) {
		t.Run(h.id, func(t *testing.T) {
			q, err := band.Quote(openBooks(t), h.told, h.asOf)
			require.NoError(t, err)
			got := withoutBooks(quote.Canonical(&q))
			again, err := band.Quote(openBooks(t), h.told, h.asOf)
			require.NoError(t, err)
			require.True(t, bytes.Equal(quote.Canonical(&q), quote.Canonical(&again)), "a quote made again differs")
			name := filepath.Join("../../testdata/golden", h.id+".txt")
			if *update {
				require.NoError(t, os.WriteFile(name, got, 0o644))
				return
			}
			want, err := os.ReadFile(name)
			require.NoError(t, err)
			require.Equal(t, string(want), string(got), "run with -update when the change is meant")
		})
	}
}

func withoutBooks(body []byte) []byte {
	var out []byte
	for _, line := range strings.SplitAfter(string(body), "\n") {
		switch path, _, _ := strings.Cut(line, "\t"); path {
		case "fingerprint", "reference":
		default:
			if !strings.HasPrefix(path, "revision ") {
				out = append(out, line...)
			}
		}
	}
	return out
}
