package document

import (
	"strings"
	"testing"

	"daybreak/internal/quote"

	"github.com/stretchr/testify/require"
)

// Whoever smells smoke reads no further: what to do then is said before any
// finding, on a halted quote alone.
func TestSmokeIsSpokenOfFirst(t *testing.T) {
	for _, h := range printHouseholds(t) {
		at := strings.Index(h.text, "call 911")
		require.Equal(t, h.q.Standing == quote.Halted, at > 0, h.id)
		if at > 0 {
			require.Less(t, at, strings.Index(h.text, "(D-"), h.id)
		}
	}
}
