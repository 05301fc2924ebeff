package main

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestAGatedRowThatFallsShortFailsTheRun(t *testing.T) {
	for name, c := range map[string]struct {
		row  row
		code int
		mark string
	}{
		"printed":              {row{what: "a", value: 0.1, unit: ratio}, 0, "printed"},
		"a ratio that holds":   {row{what: "a", value: 0.5, unit: ratio, gate: 0.5, gated: true}, 0, "gated 0.5\n"},
		"a ratio too small":    {row{what: "a", value: 0.4, unit: ratio, gate: 0.5, gated: true}, 1, "gated 0.5, FALLS SHORT"},
		"a rate too small":     {row{what: "a", value: 10, unit: perSecond, gate: 20, gated: true}, 1, "FALLS SHORT"},
		"a time that holds":    {row{what: "a", value: 9, unit: "µs", gate: 10, gated: true}, 0, "gated 10\n"},
		"a time too long":      {row{what: "a", value: 11, unit: "µs", gate: 10, gated: true}, 1, "FALLS SHORT"},
		"allocations too many": {row{what: "a", value: 1, unit: "allocs", gate: 0, gated: true}, 1, "FALLS SHORT"},
	} {
		t.Run(name, func(t *testing.T) {
			var out, errs bytes.Buffer
			require.Equal(t, c.code, report([]row{{what: "other", unit: ratio}, c.row}, &out, &errs))
			require.Contains(t, out.String(), c.mark)
			require.Equal(t, c.code == 1, errs.Len() > 0)
		})
	}
}

func TestFiguresReadWell(t *testing.T) {
	require.Equal(t, []string{"0.013", "87.3", "477", "29500"}, []string{figure(0.01302), figure(87.31), figure(477.4), figure(29500.2)})
}

func TestMedian(t *testing.T) {
	require.Equal(t, 2.0, median([]float64{9, 1, 2}))
}
