package nec_test

import (
	"testing"

	"daybreak/internal/edition/nec"

	"github.com/stretchr/testify/require"
)

func TestEveryYearOpens(t *testing.T) {
	for _, y := range nec.Years() {
		_, err := nec.Open(nec.Embedded(), y)
		require.NoError(t, err)
	}
}
