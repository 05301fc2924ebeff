package band_test

import (
	"testing"

	"daybreak/internal/band"

	"github.com/stretchr/testify/require"
)

// Sixteen households, facts in, what an expert would expect out. An
// expectation that is pending is judged all the same, and fails the test when
// it holds, so that its reason is dropped.
func TestHouseholdsComeToWhatAnExpertExpects(t *testing.T) {
	asserted, all := 0, 0
	for _, h := range households(t) {
		t.Run(h.id, func(t *testing.T) {
			q, err := band.Quote(openBooks(t), h.told, h.asOf)
			require.NoError(t, err)
			probe := probeOf(t, &q)
			held := 0
			for _, e := range h.lines {
				wrong := e.judge(probe)
				switch {
				case e.Pending == "" && wrong != "":
					t.Errorf("%s: %s", e.What, wrong)
				case e.Pending != "" && wrong == "":
					t.Errorf("%s holds now: drop its pending reason (%s)", e.What, e.Pending)
				case e.Pending == "":
					held++
				}
			}
			t.Logf("asserted %d of %d", held, len(h.lines))
			asserted, all = asserted+held, all+len(h.lines)
		})
	}
	t.Logf("sixteen households: asserted %d of %d", asserted, all)
}
