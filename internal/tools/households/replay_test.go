package main

import (
	"os"
	"path/filepath"
	"testing"

	"daybreak/internal/tools/households/draw"

	"github.com/stretchr/testify/require"
)

// A household comes back from its record as it went: the same facts, filled the
// same, with the same found on its quote.
func TestARecordReplays(t *testing.T) {
	books, err := draw.Books()
	require.NoError(t, err)
	for n := range uint64(40) {
		out := draw.Run(books, 3, n)
		text, err := record(&out)
		require.NoError(t, err)
		file := filepath.Join(t.TempDir(), "household.json")
		require.NoError(t, os.WriteFile(file, text, 0o600))
		back, err := again(books, file)
		require.NoError(t, err)
		require.Equal(t, out.Told.Fingerprint(), back.Told.Fingerprint(), n)
		require.Equal(t, out.Filled.Fingerprint(), back.Filled.Fingerprint(), n)
		require.Equal(t, out.Found, back.Found, n)
	}
	_, err = again(books, filepath.Join(t.TempDir(), "none.json"))
	require.Error(t, err)
}

// The households on which faults were found once, each named for its rule:
// nothing is found on their quotes any more.
func TestWhatWasFoundOnceIsPutRight(t *testing.T) {
	books, err := draw.Books()
	require.NoError(t, err)
	files, err := filepath.Glob("testdata/once/*.json")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		out, err := again(books, file)
		require.NoError(t, err, file)
		require.NoError(t, out.Refused, file)
		require.Empty(t, out.Found, file)
	}
}

// What makes no sense is refused by the flag's name.
func TestFlagsThatMakeNoSenseAreNamed(t *testing.T) {
	for _, bad := range []struct {
		n, workers int
		rule, want string
	}{{0, 1, "", "-n"}, {most + 1, 1, "", "-n"}, {1, 0, "", "-workers"}, {1, 1, "no-such", "-rule"}} {
		_, err := run(bad.n, 1, bad.workers, "", bad.rule)
		require.ErrorContains(t, err, bad.want)
	}
}
