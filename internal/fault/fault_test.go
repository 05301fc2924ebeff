package fault_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"daybreak/internal/fault"

	"github.com/stretchr/testify/require"
)

func Example() {
	fmt.Println(fault.Invalid("panel.service_amps", -20, "30 to 400 A"))
	fmt.Println(fault.InFile("book.yaml", 12, "items[3].price", "cheap", "three whole numbers of minor units"))
	// Output:
	// panel.service_amps: -20 is not accepted; give 30 to 400 A
	// book.yaml:12: items[3].price: "cheap" is not accepted; give three whole numbers of minor units
}

func TestKindsMatchThroughWrapping(t *testing.T) {
	err := fmt.Errorf("answer: %w", fault.NotFound("name", "sessions/x"))
	require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindNotFound})
	require.NotErrorIs(t, err, &fault.Fault{Kind: fault.KindDenied})
	require.Len(t, fault.All(errors.Join(err, fault.Invalid("a", 1, "2"))), 2)
}

func TestLongValuesAreCut(t *testing.T) {
	f := fault.Invalid("x", strings.Repeat("long ", 1000), "less")
	require.LessOrEqual(t, len([]rune(f.Got)), 60)
}

// The classic pair of the edit distance, and words with nothing in common.
func TestChangesCountsLetters(t *testing.T) {
	require.Equal(t, 3, fault.Changes("kitten", "sitting"))
	require.Equal(t, 0, fault.Changes("amps", "amps"))
	require.Equal(t, 4, fault.Changes("", "amps"))
	require.Equal(t, 4, fault.Changes("volt", "amps"))
}
