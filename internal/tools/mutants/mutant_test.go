package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

const root = "../../.."

// Every fault can still be planted: its text stands once in its file. Whether it
// is found is the command's business, which builds each.
func TestEveryFaultCanBePlanted(t *testing.T) {
	faults, err := load(filepath.Join(root, list))
	require.NoError(t, err)
	for _, f := range faults {
		raw, err := os.ReadFile(filepath.Join(root, f.File))
		require.NoError(t, err)
		require.Equal(t, 1, strings.Count(string(raw), f.Text), "%s: %s", f.File, f.Text)
		require.NotEqual(t, f.Text, f.Becomes, f.Rule)
		require.False(t, strings.HasPrefix(f.File, "internal/quote/inspector"), "a fault is planted in what is checked, not in the checker")
	}
}

// Five days in a row make the list whole, each fault once.
func TestFiveDaysMakeTheListWhole(t *testing.T) {
	faults, err := load(filepath.Join(root, list))
	require.NoError(t, err)
	met := map[string]int{}
	for day := range fifths {
		date := time.Date(2026, 2, 26+day, 12, 0, 0, 0, time.UTC).Format(time.DateOnly)
		chosen, err := choose(faults, false, date, "", time.Time{})
		require.NoError(t, err)
		for _, f := range chosen {
			met[f.File+f.Text]++
		}
	}
	require.Len(t, met, len(faults))
	for what, times := range met {
		require.Equal(t, 1, times, what)
	}
	for _, bad := range []struct {
		all       bool
		day, rule string
	}{{}, {true, "today", ""}, {false, "yesterday", ""}, {false, "", "no-such-rule"}} {
		_, err := choose(faults, bad.all, bad.day, bad.rule, time.Time{})
		require.Error(t, err)
	}
}
