package panel

import (
	"fmt"
	"strings"

	"daybreak/internal/working"
)

// Text prints a worksheet as an inspector reads it: number, line, given, used,
// result and section. The words are those of the locale.
func (w Worksheet) Text(words *working.Words) string {
	var b strings.Builder
	for i, line := range w.Lines {
		section := ""
		if line.Source != nil {
			section = line.Source.Section
		}
		fmt.Fprintf(&b, "%2d  %-52s %12s %10s %12s  %s\n", i+1, words.Sentence(line.Step()), blank(line.Given), blank(line.Used), blank(line.Out), section)
	}
	return strings.ReplaceAll(b.String(), " \n", "\n")
}

// blank prints a term, or nothing where the line has none.
func blank(t working.Term) string {
	if t.Name == "" {
		return ""
	}
	return t.Text()
}
