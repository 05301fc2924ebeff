package inspector_test

import (
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"daybreak/internal/facts"
	"daybreak/internal/fault"
	"daybreak/internal/quote"
	"daybreak/internal/quote/inspector"

	"github.com/stretchr/testify/require"
)

func tablesFile(t *testing.T) string {
	t.Helper()
	raw, err := fs.ReadFile(inspector.Embedded(), "tables.yaml")
	require.NoError(t, err)
	return string(raw)
}

// A slip of the pen in the tables is found when they are opened, by file and
// field, before anything is inspected by them.
func TestSlipsOfThePenInTheTablesAreFound(t *testing.T) {
	good := tablesFile(t)
	for _, slip := range []struct{ name, from, to, field string }{
		{"a device twice", "amps: [15, 20, 25,", "amps: [15, 20, 20,", "devices"},
		{"an ampacity that falls", `["6", 55, 65, 75,`, `["6", 35, 65, 75,`, "conductors"},
		{"columns the wrong way round", `["8", 40, 50, 55,`, `["8", 50, 40, 55,`, "conductors"},
		{"an area left out", `0.0097, 0.0139]`, `0.0097]`, "tables"},
		{"heat that helps", "[45, 0.71, 0.82, 0.87]", "[45, 0.71, 0.82, 0.97]", "ambient"},
		{"a ground of no size", `[60, "10"]`, `[60, "11"]`, "ground"},
		{"cable of no size", `nm_largest: "2"`, `nm_largest: "20"`, "cable"},
		{"a raceway of no area", `EMT: {"1/2": 0.304`, `EMT: {"1/2": 0`, "raceways"},
		{"fills exchanged", "one: 53\n  two: 31", "one: 31\n  two: 53", "fill"},
		{"no limit of the drop", "percent: 3\n", "percent: 0\n", "drop"},
		{"a word nobody knows", "2023: any}", "2023: sometimes}", "setting"},
		{"an answer nobody knows", `[plug, any, 50, {2017: "yes"}]`, `[plug, any, 50, {2017: "perhaps"}]`, "ground_fault"},
		{"a face of 277 V", `["6-20", 20, 240,`, `["6-20", 20, 277,`, "receptacles"},
		{"no lighting load", "va_per_sqft: {2017: 3, 2026: 2}", "va_per_sqft: {2026: 2}", "lighting"},
		{"a share above one", "strips: 0.65", "strips: 1.65", "optional"},
		{"a sign nobody knows", "place.danger_signs: [hot,", "place.danger_signs: [warm,", "halts"},
		{"a condition nobody knows", "stops: [burnt,", "stops: [charred,", "outlets"},
		{"a leaf that is none", "circuit: [place.jurisdiction,", "circuit: [place.juristiction,", "firm"},
		{"a status nobody knows", "status: verified\n  sixty_to_amps", "status: sure\n  sixty_to_amps", "terminals.status"},
		{"a section left out", "  section: 110.14(C)(1)\n", "", "terminals.section"},
		{"a table nobody reads", "drop:\n", "droop:\n", "tables"},
		{"no year", "editions: [2017, 2020, 2023, 2026]", "editions: []", "editions"},
	} {
		t.Run(slip.name, func(t *testing.T) {
			require.Equal(t, 1, strings.Count(good, slip.from), slip.from)
			bad := strings.Replace(good, slip.from, slip.to, 1)
			_, err := inspector.Open(fstest.MapFS{"tables.yaml": {Data: []byte(bad)}})
			f, ok := fault.As(err)
			require.True(t, ok, "no fault")
			require.Equal(t, "tables.yaml", f.File)
			require.Equal(t, slip.field, f.Field)
		})
	}
	_, err := inspector.Open(fstest.MapFS{})
	require.Error(t, err)
}

// A quote with nothing on it, of a household nobody knows, is looked through
// without a stumble; that it has no edition is found.
func TestAnEmptyQuoteIsInspected(t *testing.T) {
	found := inspector.Inspect(&quote.Quote{}, &facts.Facts{})
	require.NotEmpty(t, found)
	for _, v := range found {
		require.Equal(t, "edition", v.Rule)
	}
}

// Names of rules are what a mutant and a reader refer to.
func TestRulesHaveNamesOfTheirOwn(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range inspector.Rules() {
		require.False(t, seen[r.Name], r.Name)
		require.NotEmpty(t, r.Section, r.Name)
		seen[r.Name] = true
	}
}
