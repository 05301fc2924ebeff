package facts_test

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"daybreak/internal/facts"

	"github.com/stretchr/testify/require"
)

var rewrite = flag.Bool("update", false, "rewrite the printed list of facts in DEVELOPERS.md")

const (
	developers = "../../DEVELOPERS.md"
	listBegins = "<!-- facts: printed by go test ./internal/facts -run PrintedList -update -->\n"
	listEnds   = "<!-- facts end -->\n"
)

// The list of facts in DEVELOPERS.md is the leaf table, printed.
func TestThePrintedListOfFactsIsTheLeafTable(t *testing.T) {
	raw, err := os.ReadFile(developers)
	require.NoError(t, err)
	before, rest, begun := strings.Cut(string(raw), listBegins)
	_, after, ended := strings.Cut(rest, listEnds)
	require.True(t, begun && ended, "DEVELOPERS.md has lost the marks of the list")
	want := before + listBegins + printedList() + listEnds + after
	if *rewrite {
		require.NoError(t, os.WriteFile(developers, []byte(want), 0o644))
		return
	}
	require.Equal(t, want, string(raw), "run with -update")
}

func printedList() string {
	var b strings.Builder
	fmt.Fprintf(&b, "\n%d leaves. A path is the same word in Go, on the wire, in questions, conditions and chips.\n\n| leaf | kind | accepted |\n|---|---|---|\n", len(facts.Leaves()))
	for _, l := range facts.Leaves() {
		accepted := l.Accepted()
		if len(l.Words) > 0 {
			accepted = strings.Join(l.Words, ", ")
		}
		fmt.Fprintf(&b, "| `%s` | %s | %s |\n", l.Path, l.Kind, accepted)
	}
	b.WriteString("\n")
	return b.String()
}
