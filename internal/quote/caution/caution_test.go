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

// Every finding of the list is reached by what its row says, with the gravity
// and the reach decided for it.
func TestEachFindingIsReached(t *testing.T) {
	b := book(t)
	for _, c := range []struct {
		wants string // code gravity reach slot
		facts []any
	}{
		{"D-101 halt quote ", []any{"place.danger_signs", set("buzz")}},
		{"D-102 halt quote ", []any{"panel.trouble", set("wet")}},
		{"D-103 adds_lines nothing ", []any{"panel.protection", "both"}},
		{"D-104 halt quote ", []any{"panel.trouble", set("on_failure_list")}},
		{"D-105 adds_lines nothing ", []any{"panel.service_amps", 60}},
		{"D-106 adds_lines nothing ", []any{"panel.trouble", set("double_tap")}},
		{"D-108 adds_lines nothing ", []any{"panel.trouble", set("open_front")}},
		{"D-109 adds_lines nothing ", []any{"panel.trouble", set("mixed_breakers")}},
		{"D-110 adds_lines nothing ", []any{"panel.free_full_spaces", 1}},
		{"D-111 adds_lines nothing ", []any{"panel.location", "bath"}},
		{"D-112 halt quote ", []any{"place.danger_signs", set("trips")}},
		{"D-113 halt quote ", []any{"panel.trouble", set("dims")}},
		{"D-114 adds_lines nothing ", []any{"panel.trouble", set("split_bus")}},
		{"D-115 adds_lines nothing ", []any{"panel.trouble", set("no_electrode")}},
		{"D-116 halt quote ", []any{"panel.trouble", set("drop_damaged")}},
		{"D-117 halt quote ", []any{"panel.trouble", set("meter_damaged")}},
		{"D-118 adds_lines nothing ", []any{"panel.backfeed_kind", "solar"}},
		{"D-119 halt quote ", []any{"place.generator", "unsafe"}},
		{"D-120 adds_lines nothing ", []any{"place.generator", "interlock"}},
		{"D-121 adds_lines nothing ", []any{"panel.trouble", set("told")}},
		{"D-201 halt quote outlet", []any{"outlet.condition", set("burnt")}},
		{"D-201 halt existing_outlet outlet", []any{"outlet.condition", set("hot")}},
		{"D-201 halt existing_outlet other_outlet", []any{"other_outlet.condition", set("cracked")}},
		{"D-201 halt existing_outlet outlet", []any{"outlet.present", "normal", "place.danger_signs", set("hot")}},
		{"D-202 adds_lines nothing ", []any{"place.reported", set("plate_broken")}},
		{"D-203 adds_lines nothing outlet", []any{"outlet.location", "outdoor", "outlet.in_use_cover", false}},
		{"D-203 to_be_checked nothing outlet", []any{"outlet.location", "outdoor"}},
		{"D-204 adds_lines nothing outlet", []any{"outlet.condition", set("loose_grip")}},
		{"D-205 adds_lines nothing outlet", []any{"outlet.configuration", "10-30"}},
		{"D-206 adds_lines nothing other_outlet", []any{"other_outlet.configuration", "1-15"}},
		{"D-207 adds_lines nothing outlet", []any{"outlet.configuration", "TT-30"}},
		{"D-208 halt existing_outlet outlet", []any{"outlet.configuration", "14-30", "outlet.breaker_amps", 50}},
		{"D-208 to_be_checked nothing outlet", []any{"outlet.configuration", "14-30"}},
		{"D-209 adds_lines nothing outlet", []any{"outlet.configuration", "14-50", "outlet.breaker_amps", 30}},
		{"D-210 adds_lines nothing outlet", []any{"outlet.configuration", "L14-30"}},
		{"D-211 adds_lines nothing outlet", []any{"outlet.shared_with", "welder_built"}},
		{"D-212 adds_lines nothing outlet", []any{"outlet.configuration", "6-50", "outlet.grade", "residential"}},
		{"D-213 adds_lines nothing outlet", []any{"outlet.present", "big", "outlet.gfci", false}},
		{"D-214 adds_lines nothing outlet", []any{"outlet.condition", set("painted")}},
		{"D-215 adds_lines nothing ", []any{"place.reported", set("charger_trips")}},
		{"D-216 halt existing_outlet outlet", []any{"outlet.condition", set("open_ground")}},
		{"D-301 halt existing_outlet ", []any{"place.reported", set("knob_and_tube")}},
		{"D-301 to_be_checked nothing ", []any{"place.year_built", 1930}},
		{"D-302 halt existing_outlet ", []any{"place.reported", set("aluminium_branch")}},
		{"D-302 to_be_checked nothing ", []any{"place.year_built", 1970}},
		{"D-303 halt existing_outlet outlet", []any{"outlet.breaker_amps", 50, "outlet.wire_awg", "10", "outlet.wire_material", "cu"}},
		{"D-303 to_be_checked nothing outlet", []any{"outlet.present", "big", "outlet.breaker_amps", 50}},
		{"D-304 adds_lines nothing ", []any{"place.reported", set("nm_outdoors")}},
		{"D-305 adds_lines nothing ", []any{"place.reported", set("open_splices")}},
		{"D-306 halt quote ", []any{"place.reported", set("bad_insulation")}},
		{"D-308 adds_lines nothing ", []any{"place.detached_feed", "three_wire"}},
		{"D-309 adds_lines nothing ", []any{"place.reported", set("buried_unknown")}},
		{"D-310 adds_lines nothing outlet", []any{"outlet.configuration", "14-50", "outlet.wire_material", "al"}},
		{"D-401 adds_lines nothing ", []any{"place.reported", set("floods")}},
		{"D-402 adds_lines nothing ", []any{"route.gas_near", true}},
		{"D-403 halt quote ", []any{"place.reported", set("vapour")}},
		{"D-404 adds_lines nothing ", []any{"place.reported", set("water_near")}},
		{"D-405 adds_lines nothing ", []any{"place.reported", set("bumper")}},
		{"D-406 adds_lines nothing ", []any{"place.parking", "street"}},
		{"D-407 said nothing ", []any{"place.reported", set("hot_garage")}},
		{"D-408 said nothing ", []any{"place.coldest_night_f", -20}},
		{"D-409 adds_lines nothing ", []any{"place.year_built", 1960, "route.wall_finish", "plaster"}},
		{"D-410 said nothing ", []any{"place.reported", set("combustibles")}},
		{"D-411 adds_lines nothing ", []any{"route.rated_wall", true}},
		{"D-412 adds_lines nothing ", []any{"place.dwelling_kind", "mobile"}},
		{"D-413 said nothing ", []any{"route.trench_feet", 40}},
		{"D-501 adds_lines nothing outlet", []any{"outlet.shared_with", "dryer"}},
		{"D-502 adds_lines nothing outlet", []any{"outlet.configuration", "5-15", "outlet.shared_with", "general_loaded"}},
		{"D-503 halt options_using outlet", []any{"outlet.current_use", "extension"}},
		{"D-504 halt options_using outlet", []any{"outlet.current_use", "direct", "outlet.breaker_amps", 40, "equipment.setting_amps", 40}},
		{"D-504 halt options_using outlet", []any{"outlet.current_use", "direct", "outlet.breaker_amps", 30, "equipment.setting_means", "app", "equipment.rating_amps", 40, "equipment.setting_amps", 24}},
		{"D-505 halt options_using outlet", []any{"outlet.current_use", "adapter"}},
		{"D-506 halt options_using ", []any{"place.reported", set("cable_damaged")}},
		{"D-507 halt options_using ", []any{"equipment.listed", false}},
		{"D-508 adds_lines nothing ", []any{"wishes.second_vehicle", "now", "panel.loads.evse_existing.fuel", "electric"}},
		{"D-509 halt options_using vehicle", []any{"vehicle.bidirectional_wish", true}},
		{"D-510 adds_lines nothing ", []any{"place.medical_equipment", true}},
		{"D-511 said nothing ", []any{"place.reported", set("heart_device")}},
		{"D-512 said nothing ", []any{"place.reported", set("cable_trip")}},
		{"D-513 halt quote ", []any{"place.reported", set("battery_warning")}},
		{"D-514 adds_lines nothing outlet", []any{"outlet.reach_feet", 40}},
		{"D-515 said nothing vehicle", []any{"vehicle.inlet", "J3400", "equipment.connector", "J1772"}},
		{"D-516 said nothing vehicle", []any{"vehicle.supplied_cord", "120V-240V"}},
		{"D-601 adds_lines nothing ", []any{"wishes.do_it_myself", true}},
		{"D-602 adds_lines nothing ", []any{"place.tenure", "rent", "place.permission", "refused"}},
		{"D-603 adds_lines nothing ", []any{"panel.meter_owner", "building"}},
		{"D-604 adds_lines nothing ", []any{"place.reported", set("unpermitted")}},
		{"D-605 halt quote ", []any{"other_outlet.condition", set("shock")}},
		{"D-606 said nothing ", []any{"place.reported", set("children")}},
		{"C-01 said nothing outlet", []any{"outlet.configuration", "14-50", "outlet.breaker_amps", 30}},
		{"C-02 halt existing_outlet outlet", []any{"outlet.configuration", "10-30", "outlet.breaker_amps", 40}},
		{"C-03 halt existing_outlet other_outlet", []any{"other_outlet.configuration", "5-15", "other_outlet.breaker_amps", 30}},
		{"C-04 said nothing outlet", []any{"outlet.configuration", "TT-30", "outlet.volts", 240}},
		{"C-05 said nothing ", []any{"wishes.output_amps", 48, "panel.service_amps", 60, "panel.heat_kind", "baseboard"}},
		{"C-06 said nothing ", []any{"panel.heat_breaker_amps", 180, "panel.main_breaker_amps", 100}},
		{"C-07 said nothing ", []any{"panel.protection", "fuses", "panel.main_breaker_amps", 200}},
		{"C-08 said nothing ", []any{"panel.crowding", "crowded", "panel.free_full_spaces", 2}},
		{"C-09 said nothing outlet", []any{"outlet.reach_feet", 26}},
		{"C-10 said nothing outlet", []any{"panel.loads.dryer.fuel", "gas", "outlet.shared_with", "dryer"}},
		{"C-11 said nothing outlet", []any{"place.year_built", 2004, "outlet.configuration", "10-30"}},
		{"C-12 said nothing ", []any{"driving.weekday_miles", 180, "vehicle.usable_kwh", 40, "vehicle.wall_kwh_per_100mi", 30}},
		{"C-13 said nothing ", []any{"driving.home_by_hour", 7, "driving.leave_by_hour", 18}},
		{"C-13 said nothing ", []any{"driving.home_by_hour", 23, "driving.leave_by_hour", 1}},
		{"C-14 said nothing ", []any{"panel.backfeed_kind", "none", "panel.backfeed_amps", 40}},
		{"C-15 said nothing ", []any{"place.permission", "refused", "wishes.connection", "wired"}},
	} {
		t.Run(c.wants, func(t *testing.T) {
			var got []string
			for _, f := range b.Findings(tell(t, c.facts...)) {
				got = append(got, fmt.Sprintf("%s %s %s %s", f.Code, f.Gravity, f.Halts, f.Slot))
				require.NotEmpty(t, f.Leaves, f.Code)
			}
			require.Contains(t, got, c.wants)
		})
	}
}

func TestWhatMustNotBeRaised(t *testing.T) {
	b := book(t)
	for _, c := range []struct {
		not   string
		facts []any
	}{
		{"D-209", []any{"outlet.configuration", "14-50", "outlet.breaker_amps", 40}}, // Table 210.21(B)(3)
		{"C-13", []any{"driving.home_by_hour", 18, "driving.leave_by_hour", 7}},
		{"C-13", []any{"driving.home_by_hour", 0.5, "driving.leave_by_hour", 7}},
		{"C-12", []any{"driving.weekday_miles", 180, "vehicle.usable_kwh", 11, "vehicle.wall_kwh_per_100mi", 30, "vehicle.petrol_backup", true}},
		{"D-302", []any{"place.year_built", 1990}},
		{"D-303", []any{"outlet.breaker_amps", 50, "outlet.wire_awg", "8", "outlet.wire_material", "cu", "outlet.wire_method", "raceway"}}, // Table 310.16, 75 °C
		{"D-504", []any{"outlet.current_use", "direct", "outlet.breaker_amps", 30, "equipment.setting_amps", 24, "equipment.setting_means", "restricted", "equipment.rating_amps", 40}},
		{"D-310", []any{"outlet.configuration", "5-15", "outlet.wire_material", "al"}},
	} {
		for _, f := range b.Findings(tell(t, c.facts...)) {
			require.NotEqual(t, c.not, f.Code, "%v", c.facts)
		}
	}
}

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
