package main

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// typist types a line whenever one is asked for, and the terminal shows it.
type typist struct {
	next  func(shown string) (line string, ok bool)
	shown *bytes.Buffer
}

func (k *typist) Read(p []byte) (int, error) {
	line, ok := k.next(k.shown.String())
	if !ok {
		return 0, io.EOF
	}
	k.shown.WriteString(line + "\n")
	return copy(p, line+"\n"), nil
}

// lines types what was written down beforehand.
func lines(all ...string) func(string) (string, bool) {
	return func(string) (string, bool) {
		if len(all) == 0 {
			return "", false
		}
		line := all[0]
		all = all[1:]
		return line, true
	}
}

// knows answers a question by a piece of its words, whenever it comes, and
// does not know the rest.
func knows(pairs ...string) func(string) (string, bool) {
	last := ""
	return func(shown string) (string, bool) {
		rows := strings.Split(shown, "\n")
		for i := len(rows) - 1; i >= 0; i-- {
			if !strings.HasSuffix(rows[i], "?") {
				continue
			}
			again := rows[i] == last
			last = rows[i]
			for k := 0; k < len(pairs) && !again; k += 2 {
				if strings.Contains(rows[i], pairs[k]) {
					return pairs[k+1], true
				}
			}
			if again {
				return "s", true // the answer did not do
			}
			return "-", true
		}
		return "", false
	}
}

// typed holds a conversation as a terminal shows it.
func typed(t testing.TB, next func(string) (string, bool)) string {
	t.Helper()
	var shown, errs bytes.Buffer
	err := run(t.Context(), []string{"chat", "--as-of", day}, &typist{next, &shown}, &shown, &errs)
	require.NoError(t, err)
	require.Empty(t, errs.String())
	return shown.String()
}

// reference is a quote's own name, which every change of a book changes.
var reference = regexp.MustCompile(`Reference [0-9A-Z-]+`)

// TestChats holds whole conversations as a person reads them; -update rewrites
// them. What a quote prints below its options is left to its own tests.
func TestChats(t *testing.T) {
	for name, next := range map[string]func(string) (string, bool){
		// A gas house of 2004 with 200 A; the box in the garage.
		"typical": knows("Which car", "mid-sedan-long", "ZIP", "00010", "any of these at an outlet", "9", "normal weekday", "35",
			"sit at night", "1", "kind of home", "1", "own the home", "1", "an outlet near", "1", "home built", "4",
			"Where is the breaker box", "1", "switches or fuses", "1", "main breaker", "5", "empty slots", "5", "heats the home", "1",
			"run on electric", "7", "cool the home", "3", "have any of these", "7", "solar", "1", "small breaker box", "1",
			"How big", "2200", "from the box to the car", "25", "could the wire go", "2", "walls made of", "1", "home for the night", "18:30", "leave in the morning", "7",
			"Saturday or Sunday", "35", "longer day", "2", "a long day", "120", "charging cord", "1", "When do you need", "2", "stay under", "2500"),
		// Brown marks at the outlet: the quote halts in the same reply.
		"halts": lines("small city hatchback", "00010", "2", "q"),
		// A big outlet whose breaker does not fit it.
		"misfit": knows("Which car", "pickup-std", "an outlet near", "3", "charge a car there", "1", "drawing", "10", "number is on that outlet", "3",
			"sit at night", "1", "outlet look", "7", "any of these at an outlet", "9"),
		// Every key, and every wrong line.
		"keys": lines("?", "zzzz", "h", "", "-", "12", "00010", "u", "00010", "u", "u", "u", "-", "s",
			"0", "9 99", "x", "5 7", "c", "0", "c", "1", "9", "!", "9", "g", "far", "about 40", "20-x", "30-50", "c", "99", "q"),
		// Nobody goes to the breaker box now.
		"guess": knows("Which car", "small-suv-2wd", "ZIP", "00010", "any of these at an outlet", "9", "normal weekday", "about 30", "an outlet near", "1",
			"switches or fuses", "g", "box to the car", "20-40"),
		// Nobody knows anything.
		"unsure": knows(),
		// Nobody types anything.
		"silent": lines(),
	} {
		t.Run(name, func(t *testing.T) {
			got := reference.ReplaceAllString(typed(t, next), "Reference ····")
			head, _, _ := strings.Cut(got, "\nOther ways, and why they are not shown")
			head = strings.TrimRight(head, "\n") + "\n"
			file := filepath.Join("testdata", name+".txt")
			if *update {
				require.NoError(t, os.MkdirAll("testdata", 0o755))
				require.NoError(t, os.WriteFile(file, []byte("$ daybreak chat --as-of "+day+"\n"+head), 0o644))
			}
			want, err := os.ReadFile(file)
			require.NoError(t, err)
			require.Equal(t, string(want), "$ daybreak chat --as-of "+day+"\n"+head, "run with -update and read what changed")
		})
	}
}
