package outlet_test

import (
	"fmt"
	"io/fs"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"daybreak/internal/circuit/outlet"
	"daybreak/internal/edition"
	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// sound is a 14-50 in good order, in 2023: 6 AWG copper cable behind 50 A.
func sound(t testing.TB) outlet.Existing {
	nothing, err := outlet.Conditions()
	require.NoError(t, err)
	return outlet.Existing{
		Book: openBook(t, 2023), Year: 2023, Receptacle: "14-50", Breaker: outlet.Read[unit.Amps](50),
		Conductor: outlet.Conductor{Size: "6", Material: "cu", Method: "nm"}, Sharing: "individual",
		Condition: outlet.Read(nothing), Grade: "industrial", Location: "garage", InUseCover: outlet.Unknown,
		ReachShort: outlet.Read[unit.Feet](0), GFCI: outlet.Yes,
		Equipment: outlet.Equipment{Setting: outlet.Unknown, Kind: "portable"}, Adapter: outlet.No, Supply: 240, Chargers: 1,
	}
}

func Example() {
	nothing, _ := outlet.Conditions()
	e := outlet.Existing{
		Book: openBook(nil, 2023), Year: 2023, Receptacle: "14-50", Breaker: outlet.Read[unit.Amps](40),
		Conductor: outlet.Conductor{Size: "8", Material: "cu", Method: "nm"}, Sharing: "individual",
		Condition: outlet.Read(nothing), Grade: "industrial", Location: "garage", InUseCover: outlet.Unknown,
		ReachShort: outlet.Read[unit.Feet](0), GFCI: outlet.Yes,
		Equipment: outlet.Equipment{Setting: outlet.Unknown, Kind: "portable"}, Adapter: outlet.No, Supply: 240, Chargers: 1,
	}
	v, err := outlet.Judge(e, nil)
	fmt.Println(v.Word, v.Now, v.Reasons[0].Rule, v.Ways[0].Kind, err)
	// Output: use 32 O-10 as_it_is <nil>
}

func TestWhatIsNotReadIsNeverAZero(t *testing.T) {
	e := sound(t)
	e.Breaker = outlet.Reading[unit.Amps]{}
	v, err := outlet.Judge(e, nil)
	require.NoError(t, err)
	require.EqualValues(t, 40, v.Now, "the face and the wire allow it")
	require.EqualValues(t, 32, v.Plan, "a 14-50 may stand on a 40 A breaker: plan on that")
	require.Contains(t, v.Verify, outlet.CheckBreaker)

	e = sound(t)
	e.Condition = outlet.Reading[outlet.ConditionSet]{}
	v, err = outlet.Judge(e, nil)
	require.NoError(t, err)
	require.Contains(t, v.Verify, outlet.CheckCondition)

	e = sound(t)
	e.Equipment.Max = outlet.Read[unit.Amps](48)
	v, err = outlet.Judge(e, nil)
	require.NoError(t, err)
	require.Zero(t, v.Plan, "nobody knows what holds a 48 A unit down on a 50 A breaker")
	require.Contains(t, v.Verify, outlet.CheckSetting)
}

// 625.42(B) counts a locked setting on fastened equipment only in 2020, and on
// cord-connected equipment from 2023.
func TestALockedSettingCountsAsTheEditionSays(t *testing.T) {
	for year, kind := range map[int]string{2017: "fastened", 2020: "portable"} {
		e := sound(t)
		e.Book, e.Year, e.Equipment = openBook(t, year), year, outlet.Equipment{Max: outlet.Read[unit.Amps](48), Setting: "locked", Kind: kind}
		v, err := outlet.Judge(e, nil)
		require.NoError(t, err)
		require.Equal(t, outlet.NeedsWork, v.Word, "%d", year)
		e.Book, e.Year = openBook(t, 2023), 2023
		v, err = outlet.Judge(e, nil)
		require.NoError(t, err)
		require.Equal(t, outlet.Use, v.Word, "%d", year)
	}
}

func TestBadInputIsNamed(t *testing.T) {
	for field, spoil := range map[string]func(e *outlet.Existing){
		"outlet.configuration":  func(e *outlet.Existing) { e.Receptacle = "14-51" },
		"outlet.breaker_amps":   func(e *outlet.Existing) { e.Breaker = outlet.Read(unit.Amps(math.NaN())) },
		"outlet.reach_feet":     func(e *outlet.Existing) { e.ReachShort = outlet.Read(unit.Feet(math.Inf(1))) },
		"equipment.rating_amps": func(e *outlet.Existing) { e.Equipment.Max = outlet.Read[unit.Amps](-3) },
		"outlet.volts":          func(e *outlet.Existing) { e.Supply = 0 },
		"outlet.shared_with":    func(e *outlet.Existing) { e.Sharing = "" },
		"outlet.wire_awg":       func(e *outlet.Existing) { e.Conductor.Size = "7" },
		"outlet.year":           func(e *outlet.Existing) { e.Year = 1999 },
		"outlet.book":           func(e *outlet.Existing) { e.Book = nil },
		"outlet.chargers":       func(e *outlet.Existing) { e.Chargers = 0 },
		"outlet.condition":      func(e *outlet.Existing) { e.Condition = outlet.Read(outlet.ConditionSet(1 << 31)) },
	} {
		e := sound(t)
		spoil(&e)
		_, err := outlet.Judge(e, nil)
		f, ok := fault.As(err)
		require.True(t, ok, "%s: %v", field, err)
		require.Equal(t, field, f.Field)
		require.NotEmpty(t, f.Accepted)
	}
	_, err := outlet.Conditions("sticky")
	require.ErrorContains(t, err, "sticky")
}

func TestBrokenFilesAreNamedByLine(t *testing.T) {
	whole := func() fstest.MapFS {
		out := fstest.MapFS{}
		for _, name := range []string{"receptacles.yaml", "rules.yaml"} {
			raw, err := fs.ReadFile(outlet.Embedded(), name)
			require.NoError(t, err)
			out[name] = &fstest.MapFile{Data: raw}
		}
		return out
	}
	_, err := outlet.Load(whole())
	require.NoError(t, err)
	for _, c := range []struct{ file, old, new, wants string }{
		{"rules.yaml", "verdict: stop", "verdict: halt", "rules.yaml:"},
		{"rules.yaml", "finding: D-201", "findings: D-201", "rules.yaml:"},
		{"rules.yaml", "condition: [burnt,", "condition: [burned,", "burned"},
		{"rules.yaml", "status: from memory", "status: heard", "heard"},
		{"rules.yaml", "id: O-02", "id: O-01", "each once"},
		{"rules.yaml", "years: [0, 2023]", "years: [2023, 2020]", "years"},
		{"rules.yaml", "work: [inspect, new_receptacle]", "work: [inspect, paint]", "work"},
		{"rules.yaml", "unit: A", "unit: kA", "unit"},
		{"rules.yaml", "now: 32", "now: 320", "320"},
		{"receptacles.yaml", "status: from memory", "status: ", "status"},
		{"receptacles.yaml", "nominal: 240", "nominal: 230", "230"},
		{"receptacles.yaml", "wires: 4", "wires: 3", "receptacles.yaml:"},
		{"receptacles.yaml", "breakers: [40, 50]", "breakers: [50, 40]", "breakers"},
		{"receptacles.yaml", `2020: "yes"`, `2020: "maybe"`, "maybe"},
		{"receptacles.yaml", `confused: ["6-50"]`, `confused: ["9-50"]`, "9-50"},
		{"receptacles.yaml", `pair: ["10-30", "TT-30"]`, `pair: ["10-30"]`, "pair"},
		{"receptacles.yaml", "publication:", "publication: [", "receptacles.yaml:"},
	} {
		broken := whole()
		text := string(broken[c.file].Data)
		require.Contains(t, text, c.old)
		broken[c.file] = &fstest.MapFile{Data: []byte(strings.Replace(text, c.old, c.new, 1))}
		_, err := outlet.Load(broken)
		f, ok := fault.As(err)
		require.True(t, ok, "%s: %v", c.new, err)
		require.Positive(t, f.Line, c.new)
		require.ErrorContains(t, err, c.wants)
	}
	_, err = outlet.Load(fstest.MapFS{})
	require.ErrorContains(t, err, "receptacles.yaml")
}

func TestReceptaclesAreComplete(t *testing.T) {
	var ids []string
	for _, r := range outlet.Receptacles() {
		ids = append(ids, r.ID)
	}
	// the closed list of outlet.configuration
	require.Equal(t, []string{"5-15", "5-15 GFCI", "1-15", "5-20", "TT-30", "6-15", "6-20", "6-30", "6-50", "10-30", "10-50",
		"14-30", "14-50", "14-60", "L6-20", "L6-30", "L14-30"}, ids)
}

func TestEveryKeyHasWords(t *testing.T) {
	words, err := working.LoadWords(working.Embedded(), "en")
	require.NoError(t, err)
	for _, key := range outlet.Keys() {
		require.True(t, words.Has(key), key)
	}
}

// Whatever the outlet, no setting is above 80 % of its breaker, its face or
// its wire, a stop is never usable, and a way never raises the breaker.
func TestNoSettingAboveItsLimits(t *testing.T) {
	keys := map[string]bool{}
	for _, k := range outlet.Keys() {
		keys[k] = true
	}
	faces := outlet.Receptacles()
	byID := map[string]*outlet.Receptacle{}
	for _, r := range faces {
		byID[r.ID] = r
	}
	rapid.Check(t, func(t *rapid.T) {
		pick := func(name string, words ...string) string { return rapid.SampledFrom(words).Draw(t, name) }
		year := rapid.SampledFrom([]int{2017, 2020, 2023, 2026}).Draw(t, "year")
		breaker := rapid.SampledFrom([]unit.Amps{15, 20, 25, 30, 40, 45, 50, 60, 100}).Draw(t, "breaker")
		all := []string{"burnt", "loose_grip", "worn", "open_ground", "extension_cord", "aluminium"}
		set, err := outlet.Conditions(rapid.SliceOfDistinct(rapid.SampledFrom(all), rapid.ID[string]).Draw(t, "condition")...)
		require.NoError(t, err)
		e := outlet.Existing{
			Book: plainBook{year: year}, Year: year, Receptacle: rapid.SampledFrom(faces).Draw(t, "face").ID,
			Breaker: outlet.Read(breaker), Condition: outlet.Read(set), ReachShort: outlet.Read(unit.Feet(rapid.IntRange(0, 3).Draw(t, "short"))),
			Conductor: outlet.Conductor{Size: pick("size", "14", "12", "10", "8", "6", "4", "2", outlet.Unknown), Material: pick("metal", "cu", "al", outlet.Unknown), Method: pick("method", "nm", "raceway", outlet.Unknown)},
			Sharing:   pick("sharing", "individual", "dryer", "welder_built", "general_idle", "garage_loads", outlet.Unknown),
			Grade:     pick("grade", "ev_listed", "industrial", "residential", outlet.Unknown), Location: pick("place", "indoor", "garage", "outdoor", outlet.Unknown),
			InUseCover: pick("cover", outlet.Yes, outlet.No, outlet.Unknown), GFCI: pick("gfci", outlet.Yes, outlet.No, outlet.Unknown),
			Equipment: outlet.Equipment{Setting: pick("setting", "locked", "open", outlet.Unknown), Kind: pick("kind", "portable", "fastened", outlet.Unknown)},
			Adapter:   pick("adapter", outlet.Yes, outlet.No), Supply: rapid.SampledFrom([]unit.Volts{120, 208, 240}).Draw(t, "supply"),
			Chargers: rapid.IntRange(1, 2).Draw(t, "chargers"),
		}
		if rapid.Bool().Draw(t, "owned") {
			e.Equipment.Max = outlet.Read(unit.Amps(rapid.IntRange(6, 80).Draw(t, "max")))
		}
		if rapid.Bool().Draw(t, "unread") {
			e.Breaker = outlet.Reading[unit.Amps]{}
		}
		var sheet working.Sheet
		v, err := outlet.Judge(e, &sheet)
		require.NoError(t, err)
		again, err := outlet.Judge(e, nil)
		require.NoError(t, err)
		require.Equal(t, v, again, "the working must not decide")
		for _, s := range sheet.Steps {
			require.True(t, keys[s.Rule], s.Rule)
			require.NotNil(t, s.Source, s.Rule)
		}
		require.LessOrEqual(t, v.Plan, v.Now)
		if v.Word == outlet.Stop {
			require.Zero(t, v.Now)
		}
		carries := unit.Amps(math.Inf(1))
		if pair, ok := ampacities[map[string]edition.Material{"cu": edition.Copper, "al": edition.Aluminium}[e.Conductor.Material]][e.Conductor.Size]; ok {
			carries = pair[0]
			if e.Conductor.Method == "raceway" {
				carries = pair[1]
			}
		}
		if _, read := e.Breaker.Get(); read {
			require.LessOrEqual(t, v.Now, 0.8*breaker+1e-9)
		}
		require.LessOrEqual(t, v.Now, 0.8*byID[e.Receptacle].Amps+1e-9)
		require.LessOrEqual(t, v.Now, 0.8*carries+1e-9)
		for _, w := range v.Ways {
			require.Positive(t, w.Setting)
			require.LessOrEqual(t, w.Setting, 0.8*carries+1e-9, w.Kind)
			if _, read := e.Breaker.Get(); read {
				require.LessOrEqual(t, w.Breaker, breaker, w.Kind)
				require.LessOrEqual(t, w.Setting, 0.8*w.Breaker+1e-9, w.Kind)
			}
			if w.Receptacle != "" {
				require.True(t, byID[w.Receptacle].Ground, "%s keeps a face without a ground", w.Kind)
			}
			for _, k := range w.Work {
				require.True(t, keys[k.Words()], k.Kind)
			}
		}
		for _, c := range v.Verify {
			require.True(t, keys[c.Words()], c)
		}
	})
}

// The real book and the plain one of the tests give the same verdicts on every
// wire, breaker and face.
func TestTheBookAndAPlainOneAgree(t *testing.T) {
	for _, year := range []int{2017, 2020, 2023, 2026} {
		e := sound(t)
		e.Year = year
		real := openBook(t, year)
		for _, face := range []string{"5-15", "6-20", "14-30", "6-50", "14-50"} {
			for _, breaker := range []unit.Amps{15, 20, 30, 40, 50, 60} {
				for _, size := range []string{"14", "12", "10", "8", "6", "4", "3", "2", outlet.Unknown} {
					for _, metal := range []string{"cu", "al", outlet.Unknown} {
						for _, method := range []string{"nm", "raceway"} {
							e.Receptacle, e.Breaker = face, outlet.Read(breaker)
							e.Conductor = outlet.Conductor{Size: size, Material: metal, Method: method}
							e.Book = plainBook{year: year}
							want, err := outlet.Judge(e, nil)
							require.NoError(t, err)
							e.Book = real
							got, err := outlet.Judge(e, nil)
							require.NoError(t, err)
							want.Ways, got.Ways = nil, nil // ground-fault rules of the plain book are coarser
							require.Equal(t, want, got, "%d %s on %v, %s %s %s", year, face, breaker, size, metal, method)
						}
					}
				}
			}
		}
	}
}

func TestJudgingAllocatesLittle(t *testing.T) {
	e := sound(t)
	allocs := testing.AllocsPerRun(200, func() { _, _ = outlet.Judge(e, nil) })
	require.LessOrEqual(t, allocs, 14.0)
}

func BenchmarkJudge(b *testing.B) {
	e := sound(b)
	for b.Loop() {
		if _, err := outlet.Judge(e, nil); err != nil {
			b.Fatal(err)
		}
	}
}

func FuzzLoad(f *testing.F) {
	faces, err := fs.ReadFile(outlet.Embedded(), "receptacles.yaml")
	require.NoError(f, err)
	rules, err := fs.ReadFile(outlet.Embedded(), "rules.yaml")
	require.NoError(f, err)
	f.Add(faces, rules)
	f.Add([]byte("receptacles: [{}]"), []byte("rules: [{id: O-01}]"))
	f.Fuzz(func(t *testing.T, faces, rules []byte) {
		book, err := outlet.Load(fstest.MapFS{"receptacles.yaml": {Data: faces}, "rules.yaml": {Data: rules}})
		require.Equal(t, err == nil, book != nil)
	})
}
