package circuit_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

// TestFeederSheets reads each sheet of a feeder as TestCircuitSheets does.
func TestFeederSheets(t *testing.T) {
	files, err := filepath.Glob("testdata/feeders/*.txt")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	words, err := working.LoadWords(working.Embedded(), "en")
	require.NoError(t, err)
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) {
			raw, err := os.ReadFile(file)
			require.NoError(t, err)
			head, want, _ := strings.Cut(string(raw), "\n---\n")
			head = strings.TrimSuffix(head, "\n")
			year, job := readFeeder(t, head)
			var sheet working.Sheet
			r, err := circuit.DesignFeeder(book(t, year), job, &sheet)
			require.NoError(t, err)
			keep(t, file, head, want, printFeeder(&r, &sheet, words))
		})
	}
}

func readFeeder(t *testing.T, head string) (year int, job circuit.FeederJob) {
	job = circuit.FeederJob{Volts: 240, Terminals: edition.Unmarked, Ambient: 30}
	for _, line := range strings.Split(head, "\n") {
		key, value, _ := strings.Cut(line, " ")
		number := func() float64 {
			x, err := strconv.ParseFloat(strings.Fields(value)[0], 64)
			require.NoError(t, err, line)
			return x
		}
		switch key {
		case "#", "":
		case "edition":
			year = int(number())
		case "charger":
			job.Charger = unit.Amps(number())
		case "other":
			job.Other = unit.Amps(number())
		case "place":
			job.Place = pick(t, value, places)
		case "detached":
			job.Detached = pick(t, value, map[string]bool{"yes": true, "no": false})
		case "aluminium":
			job.Aluminium = pick(t, value, map[string]bool{"yes": true, "no": false})
		case "old":
			job.OldRuns = int(number())
		case "terminals":
			job.Terminals = pick(t, value, map[string]edition.Marking{"unmarked": edition.Unmarked, "75": edition.Marked75})
		case "moved":
			for _, part := range strings.Split(value, ",") {
				f := strings.Fields(part)
				amps, err := strconv.ParseFloat(f[0], 64)
				require.NoError(t, err)
				job.Moved = append(job.Moved, circuit.MovedCircuit{Amps: unit.Amps(amps), Poles: 1, GFCI: len(f) > 1})
			}
		case "route":
			readRoute(t, value, &job.Route)
		default:
			t.Fatalf("no such line: %s", line)
		}
	}
	return year, job
}

func printFeeder(r *circuit.FeederResult, sheet *working.Sheet, words *working.Words) string {
	var b strings.Builder
	line := func(label, format string, args ...any) {
		fmt.Fprintf(&b, "%-12s %s\n", label, fmt.Sprintf(format, args...))
	}
	if r.Outcome == circuit.Designed {
		line("breaker", "%v A 2-pole, for %v A, of which %v A are drawn", r.Device, r.Demand, r.Drawn)
		for i := range r.Chosen.Parts {
			if p := &r.Chosen.Parts[i]; p.Method != 0 {
				line("wiring", "%s, %v ft; ampacity %.4g A, terminals %v A", p, p.Feet, float64(p.Ampacity), p.Terminals)
			}
		}
		line("drop", "%.2f V, %.2f %%", float64(r.Chosen.DropVolts), r.Chosen.DropPercent)
		line("panel", "at least %v A, %d spaces, main device %v, %d ground rods", r.Panel.Amps, r.Panel.Spaces, r.Panel.Main, r.Panel.Rods)
	} else {
		line("no design", "%s", r.Reason)
		for _, w := range r.WouldDo {
			line("would do", "%s", w)
		}
	}
	for _, n := range r.Notes {
		line("note", "%s", n)
	}
	printRest(&b, r.Candidates, r.Losers, sheet, words, &r.Takeoff)
	return b.String()
}
