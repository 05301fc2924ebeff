package panel

import (
	"fmt"
	"strings"

	"daybreak/internal/unit"
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

// blank prints a term, or nothing where the line has none: amperes to two
// decimals, volt-amperes whole.
func blank(t working.Term) string {
	switch {
	case t.Name == "":
		return ""
	case t.Word != "":
		return t.Word
	case t.Unit == "A":
		return unit.Print(t.Value, 2) + " A"
	case t.Unit == "VA" || t.Unit == "W":
		return unit.Print(t.Value, 0) + " " + t.Unit
	}
	return t.Text()
}
