package web

import (
	"encoding/json"
	"strings"
	"testing"

	daybreakv1 "daybreak/api/daybreak/v1"

	"github.com/stretchr/testify/require"
)

func TestDepthCountsBracketsOutsideTexts(t *testing.T) {
	for body, want := range map[string]int{
		``: 0, `{}`: 1, `{"a": [1, {"b": 2}]}`: 3, `{"a": "[[[["}`: 1, `{"a": "\"[["}`: 1, `[[],[]]`: 2, `]]]`: 0,
	} {
		require.Equal(t, want, depth([]byte(body)), body)
	}
}

func TestPositionsAreLineAndColumn(t *testing.T) {
	line, column := position([]byte("{\n  ]"), 5)
	require.Equal(t, []int{2, 3}, []int{line, column})
	line, column = position([]byte("x"), 1)
	require.Equal(t, []int{1, 1}, []int{line, column})
}

func TestLocalHosts(t *testing.T) {
	for host, local := range map[string]bool{
		"localhost": true, "localhost:8080": true, "LOCALHOST.": true, "127.0.0.1:1": true, "127.9.9.9": true, "[::1]:8080": true, "::1": true,
		"": false, "shop.example": false, "localhost.example": false, "127.0.0.1.example": false, "0.0.0.0": false, "[::ffff:127.0.0.1]:1": true,
	} {
		require.Equal(t, local, localHost(host), host)
	}
}

// Whatever JSON comes, the search for what does not fit ends and does not panic.
func FuzzMisfit(f *testing.F) {
	for _, seed := range []string{
		`{"facts": {"panel": {"service_amps": 200}}}`, `{"facts": []}`, `{"view": 1.5}`, `null`, `[]`, `{"facts": {"unsure": ["a", 1, null]}}`,
		`{"facts": {"route": {"ways": {"words": ["WAY_OPEN", 3, {}]}}}}`, strings.Repeat(`{"facts":`, 20) + "1" + strings.Repeat("}", 20),
	} {
		f.Add(seed)
	}
	input := (&daybreakv1.ComposeQuoteRequest{}).ProtoReflect().Descriptor()
	f.Fuzz(func(t *testing.T, body string) {
		depth([]byte(body))
		var given any
		dec := json.NewDecoder(strings.NewReader(body))
		dec.UseNumber()
		if dec.Decode(&given) != nil {
			return
		}
		if err := misfit(input, given, ""); err != nil {
			require.NotEmpty(t, err.Error())
		}
	})
}
