package datafile_test

import (
	"testing"
	"testing/fstest"

	"daybreak/internal/fault"
	"daybreak/internal/fault/datafile"

	"github.com/stretchr/testify/require"
)

type doc struct {
	Rows []struct {
		ID   string `yaml:"id"`
		Amps int    `yaml:"amps"`
	} `yaml:"rows"`
}

func open(text string) (*datafile.File, error) {
	return datafile.Open(fstest.MapFS{"a.yaml": {Data: []byte(text)}}, "a.yaml", &doc{})
}

func TestWhatIsWrongIsSaidWithItsLine(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		line int
	}{
		"empty":       {"", 1},
		"comment":     {"# nothing\n", 1},
		"unknown key": {"rows:\n  - id: a\n    volts: 240\n", 3},
		"doubled key": {"rows:\n  - id: a\n    id: b\n", 3},
		"wrong kind":  {"rows:\n  - id: a\n    amps: many\n", 3},
		"no YAML":     {"rows:\n\t- id\n", 2},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := open(c.text)
			var f *fault.Fault
			require.ErrorAs(t, err, &f)
			require.Equal(t, "a.yaml", f.File)
			require.Equal(t, c.line, f.Line)
			require.NotEmpty(t, f.Accepted)
		})
	}
	_, err := datafile.Open(fstest.MapFS{}, "a.yaml", &doc{})
	require.ErrorContains(t, err, "a.yaml")
}

func TestLineIsOfTheDeepestPartThereIs(t *testing.T) {
	f, err := open("# head\nrows:\n  - id: a\n    amps: 16\n  - id: b\n")
	require.NoError(t, err)
	require.Equal(t, 2, f.Line())
	require.Equal(t, 4, f.Line("rows", 0, "amps"))
	require.Equal(t, 5, f.Line("rows", 1, "amps"))
	require.Equal(t, 3, f.Line("rows", 9))
	require.Equal(t, 2, f.Line("columns"))
}
