package tariff_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"daybreak/internal/charging"
	"daybreak/internal/shop/alderbay"
	"daybreak/internal/tariff"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

var ruleKey = regexp.MustCompile(`"(tariff(?:\.[a-z0-9_]+)+)"`)

// Every rule this room can show has words, and the demo shop's tariffs load,
// say that they are invented, and show their year.
func TestEveryRuleHasWords(t *testing.T) {
	words, err := working.LoadWords(working.Embedded(), "en")
	require.NoError(t, err)
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	found := map[string]bool{}
	for _, name := range files {
		raw, err := os.ReadFile(name)
		require.NoError(t, err)
		for _, m := range ruleKey.FindAllStringSubmatch(string(raw), -1) {
			found[m[1]] = true
			require.True(t, words.Has(m[1]), m[1])
		}
	}
	require.Len(t, found, 3)

	demo, err := fs.Sub(alderbay.Files(), "tariffs")
	require.NoError(t, err)
	tariffs, err := tariff.Load(demo)
	require.NoError(t, err)
	require.Len(t, tariffs, 3)
	day, err := charging.AverageDay(60)
	require.NoError(t, err)
	needs, err := tariff.Needs(day, day, 48, charging.Level1, [12]float64{2, 2, 1, 1, 1, 1, 1, 1, 1, 1, 2, 2})
	require.NoError(t, err)
	require.InEpsilon(t, 60*0.48/0.93, float64(needs[5].Weekday), 1e-9) // Level 1 delivers 0.93 of the label
	_, err = tariff.Needs(day, day, 0, charging.Level1, [12]float64{})
	require.ErrorContains(t, err, "kwh_per_100mi")
	var sheet working.Sheet
	_, err = tariff.CompareAll(tariffs, tariff.Charging{Year: 2026, Wall: 1.44, Need: needs, Home: tariff.Stay{WeekdayHome: 20, WeekdayLeave: 6, WeekendHome: 20, WeekendLeave: 6}}, &sheet)
	require.NoError(t, err)
	require.Len(t, sheet.Steps, 9)
	for _, s := range sheet.Steps {
		require.Contains(t, s.Source.Publication, "invented")
		require.NotContains(t, words.Formula(s), "{", s.Rule)
		require.NotContains(t, words.Sentence(s), "{", s.Rule)
	}
}
