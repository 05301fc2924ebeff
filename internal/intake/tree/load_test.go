package tree_test

import (
	"io/fs"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"daybreak/internal/fault"
	"daybreak/internal/intake/tree"

	"github.com/stretchr/testify/require"
)

// files copies the embedded tree, so that a test may break it.
func files(t testing.TB) fstest.MapFS {
	m := fstest.MapFS{}
	require.NoError(t, fs.WalkDir(tree.Embedded(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		raw, err := fs.ReadFile(tree.Embedded(), name)
		m[name] = &fstest.MapFile{Data: raw}
		return err
	}))
	return m
}

func TestABrokenFileIsNamedByFileLineAndReason(t *testing.T) {
	const q, en = "questions.yaml", "words/en.yaml"
	for name, c := range map[string]struct{ file, old, new, says string }{
		"misspelt path":        {q, "sets: [panel.location]", "sets: [panel.locatoin]", "panel.location"},
		"unknown key":          {q, "kind: picture", "kindd: picture", "kindd"},
		"unknown kind":         {q, "kind: picture", "kind: drawing", "one, picture, several"},
		"wrong type":           {q, "kw3, tells: {vehicle.onboard_charger_kw: 3.5}", "kw3, tells: {vehicle.onboard_charger_kw: fast}", "1 to 25 kW"},
		"outside limits":       {q, "m60, tells: {panel.service_amps: 60", "m60, tells: {panel.service_amps: 6", "30 to 400 A"},
		"leaf not set":         {q, "{id: garage, tells: {panel.location: garage}}", "{id: garage, tells: {panel.protection: fuses}}", "a path that the question sets"},
		"bad condition":        {q, `when: "!known(vehicle.model)"`, `when: "!known(vehicle.modl)"`, "vehicle.model"},
		"impossible condition": {q, `when: "place.parking != 'attached'"`, `when: "place.parking == 'attached' && place.parking == 'street'"`, "never taken"},
		"hidden row":           {q, `- {when: "panel.service_amps <= 150", pick: {s0`, `- {when: "panel.service_amps <= 90", pick: {s0`, "never taken"},
		"shares":               {q, "pick: {own: 0.8,", "pick: {own: 0.7,", "sum to 1"},
		"unknown in a pick":    {q, "pick: {own: 0.8,", "pick: {owned: 0.8,", "a choice of the question"},
		"no way out":           {q, "    pick: {not_yet: 1}", "    pikc: {not_yet: 1}", "not found"},
		"no basis":             {q, `basis: "safest reading"`, `basis: ""`, "a basis"},
		"gate":                 {q, "vehicle.model, place.postal, place.signs, vehicle.size,", "vehicle.model, place.postal, vehicle.size, place.signs,", "among the first 3"},
		"walk order":           {q, "outlet_walk: [outlet.face, outlet.look,", "outlet_walk: [outlet.look, outlet.face,", "in the order of the script"},
		"reads later":          {q, "driving.long_days, driving.long_miles,", "driving.long_miles, driving.long_days,", "asks for earlier"},
		"question left out":    {q, "wishes.network, wishes.budget, wishes.when\n", "wishes.network, wishes.budget\n", "all 59 questions"},
		"id twice":             {q, "- id: vehicle.size", "- id: vehicle.model", "an id of its own"},
		"version":              {q, "version: 1", "version: 2", "version 1"},
		"asked and unasked":    {q, "- leaf: route.soil", "- leaf: route.wall_finish", "no question sets"},
		"contradiction":        {q, "between: [outlet.reach_feet]", "between: [outlet.reach_foot]", "outlet.reach_feet"},
		"text missing":         {en, `  panel.bus_amps: "Bars in the box"`, ``, "panel.bus_amps"},
		"text too many":        {en, `  panel.bus_amps: "Bars in the box"`, "  panel.bus_amps: \"Bars in the box\"\n  panel.buss: \"x\"", "panel.buss"},
		"choice text missing":  {en, `      "fuses": "Fuses"`, ``, "fuses"},
		"empty text":           {en, `why: "It tells us whose panel it is and which rules apply."`, `why: ""`, "why"},
		"value missing":        {en, `    "carport": "carport"`, ``, "carport"},
		"other locale":         {en, "locale: en", "locale: fr", "the locale the file is named for"},
	} {
		m := files(t)
		raw := string(m[c.file].Data)
		require.True(t, strings.Contains(raw, c.old), "%s: %s is no longer in the file", name, c.old)
		m[c.file] = &fstest.MapFile{Data: []byte(strings.Replace(raw, c.old, c.new, 1))}
		_, err := tree.Load(m)
		require.Error(t, err, name)
		first := fault.All(err)[0]
		require.Equal(t, c.file, first.File, name)
		require.Positive(t, first.Line, "%s: %v", name, err)
		require.Contains(t, err.Error(), c.says, name)
	}
	_, err := tree.Load(fstest.MapFS{})
	require.ErrorContains(t, err, "questions.yaml")
	m := files(t)
	delete(m, en)
	_, err = tree.Load(m)
	require.ErrorContains(t, err, "words")
}

// The rules of tone that a machine can hold: short, calm, no exclamation mark.
func TestTheWordsAreCalmAndShort(t *testing.T) {
	tr := load(t)
	w, ok := tr.Words("en")
	require.True(t, ok)
	sentence := regexp.MustCompile(`[.?!]\s+`)
	check := func(where, text string, most int) {
		require.NotRegexp(t, `!|\b(just|simply|easy|sorry|don't worry)\b`, text, where)
		for _, s := range sentence.Split(text, -1) {
			require.LessOrEqual(t, len(strings.Fields(s)), most, "%s: %s", where, s)
		}
	}
	for id, q := range w.Questions {
		check(id, q.Words, 15)
		check(id, q.Agent, 20)
		check(id, q.Why, 20)
		for _, step := range q.Find {
			check(id, step, 20)
		}
	}
	for id, text := range w.Contradictions {
		check(id, text, 20)
	}
}

func FuzzLoad(f *testing.F) {
	whole := string(files(f)["questions.yaml"].Data)
	f.Add(whole[:3000])
	f.Add("version: 1\nquestions:\n- id: a.b\n  sets: [place.tenure]\n  kind: one\n  unsure: {pick: {own: 1}}\n")
	f.Add("version: 1\norder: {gates: [{question: x, among_first: 1}]}\nunasked: [{leaf: route.soil}]")
	f.Add("questions: [{choices: [{narrows: {place.tenure: [own, 3]}}]}]")
	f.Add("&a [*a]")
	f.Fuzz(func(t *testing.T, doc string) {
		_, err := tree.Load(fstest.MapFS{"questions.yaml": {Data: []byte(doc)}})
		require.Error(t, err, "without words nothing loads")
		require.NotEmpty(t, fault.All(err))
	})
}
