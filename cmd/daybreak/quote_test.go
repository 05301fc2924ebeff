package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	daybreakv1 "daybreak/api/daybreak/v1"

	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/encoding/protojson"
)

func households(t testing.TB) []string {
	t.Helper()
	files, err := filepath.Glob(household("V*"))
	require.NoError(t, err)
	require.Len(t, files, 16)
	return files
}

func TestEveryHouseholdInEveryForm(t *testing.T) {
	for _, file := range households(t) {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".json"), func(t *testing.T) {
			text := daybreak(t, "", "quote", file, "--as-of", day)
			require.NoError(t, text.err)
			require.Empty(t, text.errs)
			require.Contains(t, text.out, "as of "+day)
			require.Contains(t, text.out, "\nStanding: ")
			require.NotRegexp(t, `NaN|Inf\b|%!|\{\w+\}|<nil>|<no value>`, text.out, "something was printed raw")

			shown := daybreak(t, "", "quote", file, "-o", "json", "--as-of", day)
			require.NoError(t, shown.err)
			q := &daybreakv1.Quote{}
			require.NoError(t, protojson.Unmarshal([]byte(shown.out), q))
			require.NotEmpty(t, q.Fingerprint)
			require.Contains(t, text.out, q.Reference, "the two tell of one quote")

			body := daybreak(t, "", "quote", file, "--output", "canonical", "--as-of", day)
			require.NoError(t, body.err)
			require.NotEmpty(t, body.out)
		})
	}
}

func TestFactsComeFromAFileOrByPipeBareOrInside(t *testing.T) {
	raw, err := os.ReadFile(household("V06"))
	require.NoError(t, err)
	var whole struct{ Facts json.RawMessage }
	require.NoError(t, json.Unmarshal(raw, &whole))
	want := daybreak(t, "", "quote", household("V06"), "-o", "canonical", "--as-of", day)
	require.NoError(t, want.err)
	for _, in := range []string{string(raw), string(whole.Facts), fmt.Sprintf(`{"facts": %s, "as_of_date": "2027-01-01"}`, whole.Facts)} {
		got := daybreak(t, in, "quote", "-", "-o", "canonical", "--as-of", day)
		require.NoError(t, got.err)
		require.Equal(t, want.out, got.out)
	}
}

func TestNothingKnownIsABallpark(t *testing.T) {
	got := daybreak(t, "{}", "quote", "-", "--as-of", day)
	require.NoError(t, got.err)
	require.Contains(t, got.out, "Standing: ballpark")
	require.Contains(t, got.out, "What we assumed")
}

func TestAnExpiredDemoBookSaysSo(t *testing.T) {
	for _, date := range []string{"2028-01-01", "2040-02-29"} {
		got := daybreak(t, "", "quote", household("V01"), "--as-of", date)
		require.NoError(t, got.err)
		require.Regexp(t, `(?i)expired|no longer|ended`, got.out, "the prices ended before %s", date)
	}
	got := daybreak(t, "", "quote", household("V01"), "--as-of", day)
	require.NotRegexp(t, `(?i)expired`, got.out)
}

func TestWrongFactsAreNamedByLineAndField(t *testing.T) {
	const at = "standard input:"
	for name, c := range map[string]struct {
		in    string
		words []string
	}{
		"negative feet":         {"{\n\"route\": {\n\"open_feet\": -5}}", []string{at + "3: facts.route.open_feet: -5 ", "0 to 400 ft"}},
		"not a number":          {`{"driving": {"weekday_miles": "NaN"}}`, []string{at + "1: facts.driving.weekday_miles: NaN ", "0 to 400 mi"}},
		"bare NaN":              {"{\"driving\":\n {\"weekday_miles\": NaN}}", []string{at + "2: give a JSON object", "invalid character 'N'"}},
		"infinite":              {`{"driving": {"weekday_miles": "Infinity"}}`, []string{"facts.driving.weekday_miles: +Inf ", "0 to 400 mi"}},
		"too large for a float": {`{"driving": {"weekday_miles": 1e999}}`, []string{"facts.driving.weekday_miles: "}},
		"minus zero":            {`{"driving": {"weekday_miles": -0.0}}`, []string{"facts.driving.weekday_miles: -0 ", "0 to 400 mi"}},
		"a billion miles":       {`{"driving": {"weekday_miles": 1e9}}`, []string{"facts.driving.weekday_miles: 1e+09 ", "0 to 400 mi"}},
		"two at once":           {"{\"driving\": {\"weekday_miles\": -1,\n\"weekend_miles\": -2}}", []string{at + "1: facts.driving.weekday_miles: -1", at + "2: facts.driving.weekend_miles: -2"}},
		"a text for a number":   {`{"driving": {"weekday_miles": "far"}}`, []string{`facts.driving.weekday_miles: "far" `, "a number"}},
		"half a whole number":   {`{"panel": {"free_full_spaces": 1.5}}`, []string{"facts.panel.free_full_spaces: ", "1.5", "a whole number"}},
		"unknown word":          {"{\"place\":\n{\"tenure\": \"TENURE_SQUAT\"}}", []string{at + `2: facts.place.tenure: "TENURE_SQUAT" `, "one of TENURE_OWN, TENURE_RENT, TENURE_ASSOC"}},
		"unspecified word":      {`{"place": {"tenure": "TENURE_UNSPECIFIED"}}`, []string{"facts.place.tenure: ", "one of TENURE_OWN"}},
		"a number of no word":   {`{"place": {"tenure": 99}}`, []string{"facts.place.tenure: ", "one of TENURE_OWN"}},
		"unknown word of a set": {`{"place": {"danger_signs": {"words": ["SIGN"]}}}`, []string{`facts.place.danger_signs.words: "SIGN" `, "one of DANGER_SIGN_HOT"}},
		"yes for true":          {`{"outlet": {"gfci": "yes"}}`, []string{`facts.outlet.gfci: "yes" `, "true or false"}},
		"unknown field":         {"{\"driving\": {\n\n\"weekly_miles\": 3}}", []string{at + "3: facts.driving.weekly_miles: ", "one of weekday_miles", "there is no such field"}},
		"unknown group":         {`{"car": {}}`, []string{"facts.car: ", "vehicle"}},
		"unknown inside facts":  {"{\"id\": \"x\",\n\"facts\": {\n\"drivng\": {}}}", []string{at + "3: facts.drivng: ", "one of driving"}},
		"a field twice":         {`{"driving": {}, "driving": {}}`, []string{"facts.driving: ", "each field once"}},
		"two spellings":         {`{"driving": {"weekday_miles": 1, "weekdayMiles": 1}}`, []string{"facts.driving.weekday_miles: ", "each field once"}},
		"a number for a group":  {`{"driving": 40}`, []string{`facts.driving: "40" `, "an object with"}},
		"cut off":               {`{"driving": {"weekday_miles"`, []string{at + "1: give a JSON object", "it ends too soon"}},
		"a comma too many":      {"{\n\"driving\": {},\n}", []string{at + "3: give a JSON object", "invalid character '}'"}},
		"nothing":               {"", []string{at + "1: give a JSON object"}},
		"a list":                {"[]", []string{`"[]"`, "a JSON object"}},
		"null":                  {"null", []string{`"null"`, "a JSON object"}},
		"facts that are none":   {`{"facts": 3}`, []string{`facts: "3" `, "a JSON object"}},
		"an unsure path":        {`{"unsure": ["panel.servis"]}`, []string{"facts.unsure[0]: ", "the path of a fact, such as panel."}},
		"told and unsure":       {`{"unsure": ["driving.weekday_miles"], "driving": {"weekday_miles": 3}}`, []string{"facts.unsure[0]: ", "told nowhere else"}},
		"derived":               {`{"derived": [{"path": "panel.service_amps"}]}`, []string{"facts.derived: ", "replies only"}},
		"a ZIP of letters":      {`{"place": {"postal_code": "` + strings.Repeat("a", 3000) + `"}}`, []string{"facts.place.postal_code: ", "5 digits"}},
		"a date that is none":   {`{"place": {"permit_date": "2026-02-30"}}`, []string{"facts.place.permit_date: ", "date"}},
		"more than 64 KiB":      {`{"facts": {}, "x": "` + strings.Repeat("a", 64<<10) + `"}`, []string{"FACTS.json: ", "at most 64 KiB"}},
	} {
		t.Run(name, func(t *testing.T) {
			refused(t, c.in, []string{"quote", "-", "--as-of", day}, c.words...)
		})
	}
}

func TestAFileThatCannotBeRead(t *testing.T) {
	refused(t, "", []string{"quote", "nowhere.json"}, `FACTS.json: "nowhere.json"`, "a readable file, or - for standard input", "no such file")
	refused(t, "", []string{"quote", t.TempDir()}, "FACTS.json: ", "a readable file", "is a directory")
	refused(t, "", []string{"quote"}, "FACTS.json: ", "one file of facts")
	refused(t, "", []string{"quote", "a", "b"}, `"2 files"`, "one file of facts")
	name := filepath.Join(t.TempDir(), "mine.json")
	require.NoError(t, os.WriteFile(name, []byte("{\n\"driving\": {\"weekday_miles\": -3}}"), 0o600))
	refused(t, "", []string{"quote", name}, name+":2: facts.driving.weekday_miles: -3 ")
}

func TestWrongFormAndDate(t *testing.T) {
	refused(t, "{}", []string{"quote", "-", "-o", "xml"}, `--output: "xml"`, "text, json or canonical")
	for _, d := range []string{"tomorrow", "2026-02-30", "2026-1-1", "25.11.2026"} {
		refused(t, "{}", []string{"quote", "-", "--as-of", d}, "--as-of: ", d, "a calendar date such as 2026-11-25")
		refused(t, "q\n", []string{"chat", "--as-of", d}, "--as-of: ", d)
	}
}
