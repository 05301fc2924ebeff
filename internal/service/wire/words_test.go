package wire

import (
	"strings"
	"testing"

	"daybreak/internal/circuit"
	"daybreak/internal/facts"
	"daybreak/internal/intake/tree"
	"daybreak/internal/panel"
	"daybreak/internal/quote"
	"daybreak/internal/quote/caution"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

func loaded(t *testing.T) *Words {
	t.Helper()
	dangers, err := caution.Load(caution.Embedded())
	require.NoError(t, err)
	questions, err := tree.Load(tree.Embedded())
	require.NoError(t, err)
	w, err := LoadWords(dangers, questions)
	require.NoError(t, err)
	return w
}

// Every key this room can say has words, and the words are plain.
func TestEveryKeyHasWords(t *testing.T) {
	w := loaded(t)
	keys := []string{"readiness.days", "readiness.one", "readiness.rare", "readiness.fuel", "tariff.saves", "tariff.little", "tariff.same"}
	for n := circuit.NoteAskAHJGroundFault; n <= circuit.NoteLicensed; n++ {
		keys = append(keys, "circuit.note."+named(noteKeys[:], int(n)))
	}
	for r := circuit.NoReason; r <= circuit.NothingStocked; r++ {
		keys = append(keys, "circuit.reason."+named(reasonKeys[:], int(r)))
	}
	for r := circuit.LowerSetting; r <= circuit.AskElectrician; r++ {
		keys = append(keys, "circuit.remedy."+named(remedyKeys[:], int(r)))
	}
	for r := panel.Permitted; r <= panel.RefusedLoadAdded; r++ {
		keys = append(keys, "panel.refused."+r.String())
	}
	for s := panel.SpacesNotNeeded; s <= panel.SpacesToBeSeen; s++ {
		keys = append(keys, "panel.spaces."+s.String())
	}
	for b := panel.BusNoSource; b <= panel.BusToBeSeen; b++ {
		keys = append(keys, "panel.bus."+named(busWords[:], int(b)))
	}
	for m := panel.FindPeak; m <= panel.UpgradeService; m++ {
		keys = append(keys, "panel.measure."+m.String())
	}
	for _, odd := range panel.OddSet(0xff).Words() {
		keys = append(keys, "panel.odd."+odd)
	}
	for _, key := range keys {
		require.True(t, w.own.Has(key), "%s has no words", key)
		text := w.own.Text(key)
		for _, sentence := range strings.SplitAfter(text, ". ") {
			require.LessOrEqual(t, len(strings.Fields(sentence)), 20, text)
		}
		require.NotContains(t, text, "!")
	}
}

// The leaves this room names by path are leaves.
func TestNamedLeavesAreThere(t *testing.T) {
	for _, path := range []string{"vehicle.archetype", "vehicle.inlet", "vehicle.dc_inlet", "equipment.connector", "outlet.configuration", "place.code_edition",
		"route.work_height", "route.attic_kind", "route.crawl_kind", "panel.crowding", "route.wall_finish"} {
		_, ok := facts.LeafAt(path)
		require.True(t, ok, path)
	}
}

func TestEditionsAreYears(t *testing.T) {
	leaf, _ := facts.LeafAt("place.code_edition")
	require.Equal(t, []string{"2017", "2020", "2023", "2026"}, leaf.Words)
	require.Equal(t, 0, Year(0))
	require.Equal(t, 2017, Year(1))
	require.Equal(t, 2026, Year(4))
}

// A fact taken as true or false reads as people answer it, not as the wire
// spells it.
func TestAnAssumedFlagReadsYesOrNo(t *testing.T) {
	w := loaded(t)
	for value, text := range map[string]string{"true": "yes", "false": "no"} {
		a := quote.Assumption{Path: "outlet.gfci", Value: value}
		require.Equal(t, w.facts.Leaves[a.Path]+": we took "+text+".", w.assumption(&a, unit.Currency{}).GetText())
	}
}
