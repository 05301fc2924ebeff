package charging_test

import (
	"io/fs"
	"os"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"daybreak/internal/charging"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

func TestShippedTables(t *testing.T) {
	all := tables(t)
	require.Len(t, all.Vehicles.List(), 14)
	require.Len(t, all.Climates.List(), 68)
	require.Len(t, all.Fits.Never(), 8)
	for _, v := range all.Vehicles.List() {
		// A full charge from the wall is about 1.12 of usable energy, and range
		// times consumption gives it again (40 CFR 600.311-12).
		require.InDelta(t, 1.12, float64(v.WallFull/v.Usable), 0.06, v.ID)
		full, _, err := charging.LabelFull(v.Range, v.Consumption, 1)
		require.NoError(t, err)
		require.InDelta(t, float64(v.WallFull), float64(full), 0.02*float64(v.WallFull), v.ID)
		for _, connector := range []string{"J1772", "J3400"} {
			fit, err := all.Fits.AC(v.Inlet, connector, 32, nil)
			require.NoError(t, err)
			require.Equal(t, v.Inlet == connector, fit.Joint == charging.Direct)
			require.Equal(t, fit.Joint == charging.WithAdapter, fit.Least == 32)
		}
		for _, connector := range []string{"CCS1", "J3400", "CHAdeMO"} {
			fit, err := all.Fits.DC(v.DCInlet, connector, nil)
			require.NoError(t, err)
			require.Equal(t, v.DCInlet == connector, fit.Joint == charging.Direct)
		}
	}
	byName, err := all.Climates.Station("seattle-tacoma")
	require.NoError(t, err)
	require.Equal(t, "24233", byName.ID)
	month, f := byName.Mean.Coldest()
	require.Equal(t, "December", month.String())
	require.Equal(t, unit.Fahrenheit(40.6), f)
}

func TestSearchForgives(t *testing.T) {
	all := tables(t)
	for query, want := range map[string]string{
		"compact-hatch":           "compact-hatch",
		"pikcup largest":          "pickup-max",
		"plug in hybird sedan":    "phev-sedan",
		"Three row SVU":           "", // three letters are not forgiven
		"three row suv":           "three-row-suv",
		"luxery":                  "lux-sedan",
		"miniven":                 "van",
		"zeppelin":                "",
		"   ":                     "",
		strings.Repeat("z ", 1e4): "",
	} {
		found := all.Vehicles.Search(query, 5)
		if want == "" {
			require.Empty(t, found, query)
			continue
		}
		require.NotEmpty(t, found, query)
		require.Equal(t, want, found[0].Vehicle.ID, query)
	}
	require.Len(t, all.Vehicles.Search("sedan", 2), 2)
}

// A copy of the shipped tables with one file changed.
func with(t testing.TB, file string, change func(string) string) fs.FS {
	t.Helper()
	out := fstest.MapFS{}
	names, err := fs.Glob(charging.Embedded(), "*.csv")
	require.NoError(t, err)
	for _, n := range names {
		raw, err := fs.ReadFile(charging.Embedded(), n)
		require.NoError(t, err)
		text := string(raw)
		if n == file {
			text = change(text)
		}
		out[n] = &fstest.MapFile{Data: []byte(text)}
	}
	return out
}

func TestBrokenTablesAreNamedByLine(t *testing.T) {
	for _, c := range []struct{ file, from, to, want string }{
		{"archetypes.csv", "city-hatch,small city hatchback,37.0", "city-hatch,small city hatchback,many", `archetypes.csv:5: usable_kwh: "many" is not accepted`},
		{"archetypes.csv", "7.2,30,J1772", "7.2,30,J9999", "archetypes.csv:5: inlet"},
		{"archetypes.csv", "older-hatch,", "city-hatch,", "archetypes.csv:6: id"},
		{"archetypes.csv", "37.0,42.0", "37.0,22.0", "archetypes.csv:5: usable_kwh"},
		{"archetypes.csv", "CCS1,85,", "none,85,", "archetypes.csv:5: dc_peak_kw"},
		{"archetypes.csv", "from memory,class", "hearsay,class", "archetypes.csv:5: status"},
		{"archetypes.csv", "37.0,", "NaN,", "archetypes.csv:5: usable_kwh"},
		{"archetypes.csv", "id,label", "id,name", `archetypes.csv:4: "name" is not accepted; give "the column label"`},
		{"climate.csv", "17.1,20.2", "17.1", "climate.csv:4"},
		{"climate.csv", "17.1,20.2", "17.1,warm", "climate.csv:4: tavg_f_02"},
		{"climate.csv", "26411,", "26451,", "climate.csv:5: id"},
		{"season.csv", "-4,", "-24,", "season.csv:6: outdoor_f"},
		{"season.csv", "1.95", "3.95", "season.csv:5: mid"},
		{"fits.csv", "ac,J1772,J3400", "ac,J1772,J1772", "fits.csv:4: connector"},
		{"fits.csv", ",adapter,", ",perhaps,", "fits.csv:4: verdict"},
		{"never.csv", "id,status", "status,id", "never.csv:2"},
	} {
		_, err := charging.Load(with(t, c.file, func(s string) string { return strings.Replace(s, c.from, c.to, 1) }))
		require.ErrorContains(t, err, strings.ReplaceAll(c.want, `give "the column label"`, "give the column label"), c.to)
	}
	for _, empty := range []string{"archetypes.csv", "climate.csv", "season.csv", "fits.csv", "never.csv"} {
		_, err := charging.Load(with(t, empty, func(string) string { return "" }))
		require.ErrorContains(t, err, empty)
		_, err = charging.Load(with(t, empty, func(s string) string { return s[:strings.Index(s, "source\n")+7] }))
		require.ErrorContains(t, err, "at least one row")
	}
	_, err := charging.Load(fstest.MapFS{})
	require.ErrorContains(t, err, "archetypes.csv")
}

func FuzzTables(f *testing.F) {
	for _, name := range []string{"archetypes.csv", "climate.csv", "season.csv", "fits.csv", "never.csv"} {
		raw, err := fs.ReadFile(charging.Embedded(), name)
		require.NoError(f, err)
		f.Add(name, string(raw))
		f.Add(name, "a,\"b\nc")
	}
	f.Fuzz(func(t *testing.T, name, text string) {
		all, err := charging.Load(with(t, name, func(string) string { return text }))
		if err != nil {
			require.Nil(t, all)
			return
		}
		for _, v := range all.Vehicles.List() {
			require.Positive(t, float64(v.Usable))
		}
		for _, out := range []unit.Fahrenheit{-80, 0, 32, 140} {
			m, err := all.Season.At(out, charging.Mid, nil)
			require.NoError(t, err)
			require.True(t, m > 0 && m < 10)
		}
	})
}

func FuzzSearch(f *testing.F) {
	all := tables(f)
	f.Add("efficient midsize sedan")
	f.Add("\xff\x00 élan")
	f.Fuzz(func(t *testing.T, query string) {
		require.LessOrEqual(t, len(all.Vehicles.Search(query, 3)), 3)
	})
}

// Every rule key that stands in the code or the tables has words.
func TestEveryRuleHasWords(t *testing.T) {
	words, err := working.LoadWords(working.Embedded(), "en")
	require.NoError(t, err)
	all := tables(t)
	key := regexp.MustCompile(`"(charging\.[a-z0-9_]+\.[a-z0-9_]+)"`)
	files, err := fs.Glob(os.DirFS("."), "*.go")
	require.NoError(t, err)
	seen := 0
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		raw, err := os.ReadFile(name)
		require.NoError(t, err)
		for _, m := range key.FindAllStringSubmatch(string(raw), -1) {
			seen++
			require.True(t, words.Has(m[1]), m[1])
		}
	}
	require.Greater(t, seen, 15)
	for _, n := range all.Fits.Never() {
		require.True(t, words.Has(n.Rule), n.Rule)
	}
	for _, inlet := range []string{"CCS1", "CHAdeMO", "none", "J3400"} {
		for _, connector := range []string{"CCS1", "CHAdeMO", "J3400"} {
			fit, err := all.Fits.DC(inlet, connector, nil)
			require.NoError(t, err)
			require.True(t, words.Has(fit.Condition), fit.Condition)
		}
	}
}
