package working_test

import (
	"fmt"
	"testing"
	"testing/fstest"

	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

func ExampleSheet() {
	var sheet working.Sheet
	sheet.Add(working.Step{
		Rule:   "circuit.device",
		In:     working.In(working.Num("setting", 32, "A")),
		Out:    working.Num("device", 40, "A"),
		Source: &working.Source{Publication: "NEC 2023", Section: "240.6(A)", Status: working.Verified},
	})
	s := sheet.Steps[0]
	fmt.Println(s.Rule, s.Out.Text(), s.Source.Section)
	// Output: circuit.device 40 A 240.6(A)
}

func TestNilSheetKeepsNothingAndAllocatesNothing(t *testing.T) {
	var sheet *working.Sheet
	require.Zero(t, testing.AllocsPerRun(100, func() {
		sheet.Add(working.Step{Rule: "x", In: working.In(working.Num("a", 1, "A"))})
	}))
	require.False(t, sheet.Keeping())
}

func TestBrokenWordsAreRefusedByLine(t *testing.T) {
	bad := fstest.MapFS{"en/x.yaml": {Data: []byte("a.b:\n  formula: f\n  sentence: s\nc.d:\n  formula: only\n")}}
	_, err := working.LoadWords(bad, "en")
	require.ErrorContains(t, err, "en/x.yaml:4")
}

func TestEmbeddedWordsLoad(t *testing.T) {
	_, err := working.LoadWords(working.Embedded(), "en")
	require.NoError(t, err)
}
