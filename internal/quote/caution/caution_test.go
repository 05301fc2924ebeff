package caution_test

import (
	"fmt"
	"io/fs"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"daybreak/internal/circuit/outlet"
	"daybreak/internal/facts"
	"daybreak/internal/fault"
	"daybreak/internal/quote/caution"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func book(t testing.TB) *caution.Book {
	b, err := caution.Load(caution.Embedded())
	require.NoError(t, err)
	return b
}

func Example() {
	b, err := caution.Load(caution.Embedded())
	if err != nil {
		fmt.Println(err)
		return
	}
	words, err := caution.LoadWords(caution.Embedded(), "en", b)
	if err != nil {
		fmt.Println(err)
		return
	}
	var f facts.Facts
	f.Outlet.Configuration = facts.Tell(facts.Configuration14x50)
	f.Outlet.BreakerAmps = facts.Tell(unit.Amps(30))
	for _, found := range b.Findings(&f) {
		text := words.Of(found, &f)
		fmt.Printf("%s %s: %s\n", found.Code, text.Level, text.Seen)
	}
	// Output:
	// D-209 Put right: The 14-50 outlet stands behind a breaker of 30 amps.
	// C-01 Take care: A 50 amp outlet on a 30 amp breaker do not fit together.
	// D-212 To check: The electrician sees whether the 14-50 outlet is made for hours of full current.
}

// tell sets leaves by path; a word list is a set.
func tell(t testing.TB, pairs ...any) *facts.Facts {
	t.Helper()
	var f facts.Facts
	for i := 0; i+1 < len(pairs); i += 2 {
		l, ok := facts.LeafAt(pairs[i].(string))
		require.True(t, ok, pairs[i])
		require.NoError(t, l.At(&f).Tell(pairs[i+1]), pairs[i])
	}
	return &f
}

func set(words ...string) []string { return words }

func TestTheHouseholdThatSmellsBurntIsHaltedAndStillToldWhatToAsk(t *testing.T) {
	b := book(t)
	words, err := caution.LoadWords(caution.Embedded(), "en", b)
	require.NoError(t, err)
	f := tell(t, "outlet.present", "big", "outlet.condition", set("burnt", "hot"))
	found := b.Findings(f)
	require.True(t, caution.Halted(found))
	require.True(t, caution.Stops(found, "outlet"))
	require.Equal(t, "D-201", found[0].Code)
	require.True(t, found[0].Emergency)
	require.Equal(t, "Stop", words.Of(found[0], f).Level)
	require.NotEmpty(t, words.ToAsk(found, f))
	require.Contains(t, words.Emergency, "leave")

	f = tell(t, "outlet.condition", set("hot"))
	found = b.Findings(f)
	require.False(t, caution.Halted(found), "warmth reported stops that outlet")
	require.True(t, caution.Stops(found, "outlet"))
	require.False(t, caution.Stops(found, "other_outlet"))

	f = tell(t, "outlet.current_use", "extension")
	found = b.Findings(f)
	require.False(t, caution.Halted(found), "the new circuit is the cure")
	require.False(t, caution.Stops(found, "outlet"))
}

func TestTheGravestStandsFirstAndEachOnce(t *testing.T) {
	b := book(t)
	f := tell(t, "place.danger_signs", set("hot", "wet", "trips"), "place.reported", set("tingle", "battery_warning", "children"),
		"panel.trouble", set("dims", "wet"), "outlet.condition", set("burnt"), "outlet.present", "big", "panel.service_amps", 60)
	codes := func(raised ...caution.Raised) string {
		var out []string
		for _, x := range b.Findings(f, raised...) {
			out = append(out, x.Code)
		}
		return strings.Join(out, " ")
	}
	require.Equal(t, "D-101 D-605 D-113 D-513 D-201 D-102 D-112 D-105 D-606 D-213 D-501", codes())
	require.Equal(t, codes(), codes(caution.Raised{Code: "D-201", Slot: "outlet"}), "raised twice, said once")
	require.True(t, strings.HasPrefix(codes(caution.Raised{Code: "D-999"}), "D-101"))
	require.Contains(t, codes(caution.Raised{Code: "D-999"}), "D-999")
}

func TestARaisedCodeNobodyKnowsHalts(t *testing.T) {
	found := book(t).Findings(&facts.Facts{}, caution.Raised{Code: "D-999"})
	require.True(t, caution.Halted(found))
}

func TestNothingToldFindsNothing(t *testing.T) {
	require.Empty(t, book(t).Findings(&facts.Facts{}))
	require.Len(t, book(t).OnSite(), 3) // D-107, D-115, D-307
}

// The rules of the outlet and the conditions here are two readings of one
// table; they must agree on every face and breaker.
func TestOutletRulesAndConditionsAgree(t *testing.T) {
	b := book(t)
	for _, face := range outlet.Receptacles() {
		least, most := face.Breakers()
		for _, breaker := range []unit.Amps{10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 100} {
			got := map[string]bool{}
			for _, f := range b.Findings(tell(t, "outlet.configuration", face.ID, "outlet.breaker_amps", float64(breaker))) {
				got[f.Code] = true
			}
			require.Equal(t, breaker > most, got["D-208"], "%s on %v", face.ID, breaker)
			require.Equal(t, breaker < least, got["D-209"], "%s on %v", face.ID, breaker)
		}
	}
}

// What the verdict on an outlet raises, the book must hold.
func TestEveryCodeOfTheOutletRulesIsHeld(t *testing.T) {
	b := book(t)
	raw, err := fs.ReadFile(outlet.Embedded(), "rules.yaml")
	require.NoError(t, err)
	for _, m := range regexp.MustCompile(`finding: (D-\d+)`).FindAllStringSubmatch(string(raw), -1) {
		require.Contains(t, b.Codes(), m[1])
	}
}

func TestWordsAreShortAndCalm(t *testing.T) {
	raw, err := fs.ReadFile(caution.Embedded(), "words/en.yaml")
	require.NoError(t, err)
	for _, line := range strings.Split(string(raw), "\n") {
		_, text, ok := strings.Cut(line, `: "`)
		if !ok || strings.HasPrefix(line, "#") {
			continue
		}
		for _, banned := range []string{"!", " just ", " simply ", " easy ", "sorry", "please", "Please"} {
			if banned == " easy " && strings.Contains(text, "easy to miss") {
				continue
			}
			require.NotContains(t, text, banned)
		}
		for _, sentence := range regexp.MustCompile(`[.?:] `).Split(text, -1) {
			require.LessOrEqual(t, len(strings.Fields(sentence)), 20, sentence)
		}
	}
}

func TestBrokenFilesAreNamedByLine(t *testing.T) {
	whole := func() fstest.MapFS {
		out := fstest.MapFS{}
		for _, name := range []string{"findings.yaml", "words/en.yaml"} {
			raw, err := fs.ReadFile(caution.Embedded(), name)
			require.NoError(t, err)
			out[name] = &fstest.MapFile{Data: raw}
		}
		return out
	}
	for _, c := range []struct{ file, old, new, wants string }{
		{"findings.yaml", "code: D-102", "code: D-101", "each once"},
		{"findings.yaml", "    gravity: halt\n", "    gravity: grave\n", "grave"},
		{"findings.yaml", "    halts: quote", "    halts: outlet", "existing_outlet"},
		{"findings.yaml", "area: panel", "area: roof", "roof"},
		{"findings.yaml", "panel.service_amps <= 60", "panel.service_amp <= 60", "panel.service_amps"},
		{"findings.yaml", "'wet' in panel.trouble", "'damp' in panel.trouble", "wet"},
		{"findings.yaml", "    slot: outlet", "    slot: oven", "oven"},
		{"findings.yaml", "status: from memory", "status: heard", "heard"},
		{"findings.yaml", "    call: electrician", "    call: wizard", "wizard"},
		{"findings.yaml", "pair: [outlet.configuration, outlet.breaker_amps]", "pair: [outlet.configuration, outlet.breaker]", "outlet.breaker"},
		{"findings.yaml", "severity: [D-101", "severity: [D-999", "D-999"},
		{"findings.yaml", "    emergency: true", "    alarm: true", "alarm"},
		{"findings.yaml", "publication: NFPA", "publication: [NFPA", "findings.yaml:"},
		{"words/en.yaml", "  D-102:", "  D-192:", "D-192"},
		{"words/en.yaml", `title: "Heat, smell or noise at the breaker box"`, `title: ""`, "D-101.title"},
		{"words/en.yaml", "{panel.service_amps} amps.", "{panel.service} amps.", "panel.service"},
		{"words/en.yaml", "halt: Stop", "stop: Stop", "levels"},
		{"words/en.yaml", "locale: en", "locale: fr", "locale"},
		{"words/en.yaml", `check: "Read the number on the main breaker."`, `hint: "x"`, "hint"},
	} {
		broken := whole()
		text := string(broken[c.file].Data)
		require.Contains(t, text, c.old)
		broken[c.file] = &fstest.MapFile{Data: []byte(strings.Replace(text, c.old, c.new, 1))}
		b, err := caution.Load(broken)
		if err == nil {
			_, err = caution.LoadWords(broken, "en", b)
		}
		f, ok := fault.As(err)
		require.True(t, ok, "%s: %v", c.new, err)
		require.Positive(t, f.Line, c.new)
		require.ErrorContains(t, err, c.wants)
	}
}

// Telling more never takes a finding away, unless it says that it is not so:
// here, whatever else is told, the burnt outlet stays first.
func TestADangerIsNeverTalkedAway(t *testing.T) {
	b := book(t)
	leaves := facts.Leaves()
	rapid.Check(t, func(t *rapid.T) {
		var f facts.Facts
		for _, i := range rapid.SliceOfDistinct(rapid.IntRange(0, len(leaves)-1), rapid.ID[int]).Draw(t, "told") {
			if l := leaves[i]; l.Kind != facts.Text && l.Kind != facts.Set && l.Kind != facts.Day {
				l.At(&f).DeriveNumber(rapid.Float64Range(0, 200).Draw(t, l.Path), facts.FromDraw)
			}
		}
		f.Outlet.Condition = facts.Tell(facts.OutletConditionBurnt)
		found := b.Findings(&f)
		require.True(t, caution.Halted(found))
		seen := map[string]bool{}
		for _, x := range found {
			require.False(t, seen[x.Code+x.Slot], "%s twice", x.Code)
			seen[x.Code+x.Slot] = true
		}
	})
}

func BenchmarkFindings(b *testing.B) {
	book := book(b)
	f := tell(b, "outlet.configuration", "14-50", "outlet.breaker_amps", 30, "panel.service_amps", 200)
	for b.Loop() {
		book.Findings(f)
	}
}

func FuzzLoad(f *testing.F) {
	findings, err := fs.ReadFile(caution.Embedded(), "findings.yaml")
	require.NoError(f, err)
	words, err := fs.ReadFile(caution.Embedded(), "words/en.yaml")
	require.NoError(f, err)
	f.Add(findings[:3000], words[:2000])
	f.Add([]byte("findings: [{code: D-101}]"), []byte("locale: en"))
	f.Fuzz(func(t *testing.T, findings, words []byte) {
		fsys := fstest.MapFS{"findings.yaml": {Data: findings}, "words/en.yaml": {Data: words}}
		b, err := caution.Load(fsys)
		require.Equal(t, err == nil, b != nil)
		if err == nil {
			_, _ = caution.LoadWords(fsys, "en", b)
		}
	})
}
