package intake_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"daybreak/internal/facts"
	"daybreak/internal/intake"
	"daybreak/internal/intake/tree"

	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the conversations in testdata with what they come to now")

// Each file is a conversation: a line that begins with ">" is said, and what it
// comes to stands below. Read them as prose; rewrite them with -update.
func TestConversations(t *testing.T) {
	files, err := filepath.Glob("testdata/conversations/*.txt")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, name := range files {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".txt"), func(t *testing.T) {
			raw, err := os.ReadFile(name)
			require.NoError(t, err)
			got := replay(load(t), string(raw))
			if *update {
				require.NoError(t, os.WriteFile(name, []byte(got), 0o644))
			}
			raw, err = os.ReadFile(name)
			require.NoError(t, err)
			require.Equal(t, string(raw), got)
		})
	}
}

func load(t testing.TB) *tree.Tree {
	tr, err := tree.Load(tree.Embedded())
	require.NoError(t, err)
	return tr
}

var world = tree.World{HomePostal: "00010", Tables: facts.Tables{
	Model: func(id string) (facts.VehicleRow, bool) {
		return facts.VehicleRow{Archetype: facts.ArchetypeMidSedanLong, UsableKWh: 75, WallKWhPer100Mi: 25, OnboardChargerKW: 11.5,
			MaxACAmps: 48, Inlet: facts.InletJ3400, DCInlet: facts.DCInletJ3400}, id == "mid-sedan-long"
	},
	Postal: func(code string) (facts.PostalRow, bool) {
		return facts.PostalRow{ClimateStation: "24233", ClimateZone: facts.ClimateZoneMarine, Jurisdiction: "alder-bay-city"}, code == "00010"
	},
	Station: func(string) (facts.StationRow, bool) {
		return facts.StationRow{JanuaryMeanF: 41, ColdestNightF: 20}, true
	},
}}

// replay runs the lines of a conversation and prints what each comes to.
func replay(t *tree.Tree, script string) string {
	var out strings.Builder
	log := intake.Log{}
	for _, line := range strings.Split(script, "\n") {
		if strings.HasPrefix(line, "#") {
			fmt.Fprintln(&out, line)
		}
		if !strings.HasPrefix(line, "> ") {
			continue
		}
		fmt.Fprintf(&out, "\n%s\n", line)
		words := strings.Fields(line[2:])
		if words[0] == "facts" {
			printFacts(&out, t, log)
			continue
		}
		reply, err := say(t, log, words)
		if err != nil {
			fmt.Fprintln(&out, "refused:", err)
			continue
		}
		log = log.With(reply.Entry)
		printState(&out, t, &reply.State)
	}
	return strings.TrimLeft(out.String(), "\n")
}

func say(t *tree.Tree, log intake.Log, words []string) (intake.Reply, error) {
	meta := intake.Meta{Channel: "web", By: "shopper", Base: intake.Head}
	switch words[0] {
	case "unsure":
		return intake.DontKnow(log, t, &world, words[1], meta)
	case "skip":
		return intake.Skip(log, t, &world, words[1], meta)
	case "undo":
		number := 0
		if len(words) > 1 {
			number, _ = strconv.Atoi(words[1])
		}
		return intake.Undo(log, t, &world, number, meta)
	case "tell":
		var given []intake.Fact
		for _, w := range words[1:] {
			path, value, _ := strings.Cut(w, "=")
			given = append(given, intake.Fact{Path: path, Op: intake.OpTell, Values: []any{valueOf(value)}})
		}
		return intake.Tell(log, t, &world, given, meta)
	}
	var a tree.Answer
	q, ok := t.Question(words[0])
	for _, w := range words[1:] {
		x, err := strconv.ParseFloat(w, 64)
		switch {
		case ok && (q.Kind == tree.Postal || q.Kind == tree.Vehicle):
			a.Text = w
		case err == nil:
			a.Number, a.HasNumber = x, true
		default:
			a.Choices = append(a.Choices, w)
		}
	}
	return intake.Answer(log, t, &world, words[0], a, meta)
}

func valueOf(s string) any {
	if x, err := strconv.ParseFloat(s, 64); err == nil {
		return x
	}
	if s == "true" || s == "false" {
		return s == "true"
	}
	if strings.HasPrefix(s, "{") {
		return strings.FieldsFunc(strings.Trim(s, "{}"), func(r rune) bool { return r == ',' })
	}
	return s
}

func printState(out *strings.Builder, t *tree.Tree, s *intake.State) {
	for _, turn := range s.Turns {
		if turn.SetAside {
			fmt.Fprintf(out, "set aside: %s\n", turn.Question.ID)
		}
	}
	for _, c := range t.Contradictions(&s.Facts) {
		fmt.Fprintf(out, "does not fit: %s\n", c.ID)
	}
	w, _ := t.Words("en")
	switch s.Open {
	case "":
		fmt.Fprintln(out, w.Help["done"])
	default:
		fmt.Fprintf(out, "%s (%s, %d left)\n", w.Questions[s.Open].Words, s.Open, s.Left)
	}
}

func printFacts(out *strings.Builder, t *tree.Tree, log intake.Log) {
	s := intake.Fold(log, t, &world)
	w, _ := t.Words("en")
	for _, c := range s.Chips(t) {
		if c.State == facts.Derived {
			continue
		}
		value := ""
		if c.Value != nil {
			value = fmt.Sprintf(": %v", c.Value)
		}
		if c.Narrowing != nil {
			value = fmt.Sprintf(": %v", c.Narrowing.Values())
		}
		fmt.Fprintf(out, "%d %s%s (%s)\n", c.Entry, w.Leaves[c.Leaf.Path], value, c.State)
	}
}
