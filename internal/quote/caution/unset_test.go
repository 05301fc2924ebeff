package caution

import (
	"strings"
	"testing"

	"daybreak/internal/facts"
	"daybreak/internal/facts/condition"

	"github.com/stretchr/testify/require"
)

// Every condition with every leaf it reads unset: no plain true, and a plain
// false only from a question about the state of a leaf. Then one leaf at a
// time taken away from a household for which it holds: true by another part,
// or unknown, never false.
func TestNoConditionRestsOnADefault(t *testing.T) {
	b, err := Load(Embedded())
	require.NoError(t, err)
	asked := 0
	for _, e := range b.entries {
		for i := range e.askings {
			a := &e.askings[i]
			for name, c := range map[string]*condition.Condition{"when": a.when, "whole_when": a.whole, "check": a.check} {
				if c == nil {
					continue
				}
				asked++
				state := strings.Contains(c.Source(), "known(") || strings.Contains(c.Source(), "unsure(")
				var nothing facts.Facts
				r := c.Eval(&nothing)
				if name != "check" || !state {
					require.Equal(t, condition.Unknown, r.Value, "%s %s: %s", e.Code, name, c.Source())
					require.NotEmpty(t, r.Missing, e.Code)
				}
				require.NotEqual(t, condition.True, r.Value, "%s %s", e.Code, name)

				holds, ok := condition.Witness(c)
				require.True(t, ok, "%s %s can never hold: %s", e.Code, name, c.Source())
				for _, path := range c.Reads() {
					if state {
						continue
					}
					f := holds
					l, _ := facts.LeafAt(path)
					l.At(&f).Clear()
					require.NotEqual(t, condition.False, c.Truth(&f), "%s %s without %s", e.Code, name, path)
				}
			}
		}
	}
	t.Logf("%d conditions", asked)
}

// The list holds 82 findings, 25 of which halt, and 15 contradictions.
func TestTheListIsWhole(t *testing.T) {
	b, err := Load(Embedded())
	require.NoError(t, err)
	count := map[string]int{}
	for _, e := range b.entries {
		count[e.Code[:1]]++
		count[e.Code[:1]+string(e.Gravity)]++
	}
	require.Equal(t, map[string]int{"D": 82, "Dhalt": 25, "Dadds_lines": 48, "Dsaid": 9, "C": 15, "Chalt": 2, "Csaid": 13}, count)
}
