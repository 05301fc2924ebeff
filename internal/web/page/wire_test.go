package page_test

import (
	"encoding/json"
	"os"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"daybreak/api"
)

var (
	shape = regexp.MustCompile(`export interface (\w+) \{((?:[^{}]|\{[^}]*\})*)\}`)
	inner = regexp.MustCompile(`\{[^}]*\}`)
	field = regexp.MustCompile(`(\w+)\?:`)
)

// What the scripts read of the contract is what the contract has: every field
// of widget/wire.d.ts stands in the description of the REST routes.
func TestTheScriptsReadFieldsTheContractHas(t *testing.T) {
	var description struct {
		Definitions map[string]struct {
			Properties map[string]json.RawMessage
		}
	}
	require.NoError(t, json.Unmarshal(api.OpenAPI, &description))
	text, err := os.ReadFile("widget/wire.d.ts")
	require.NoError(t, err)
	shapes, fields := 0, 0
	for _, m := range shape.FindAllStringSubmatch(string(text), -1) {
		defined, ok := description.Definitions[m[1]]
		if !ok { // the generator lengthens a name that two definitions end in
			defined, ok = description.Definitions["v1."+m[1]]
		}
		require.True(t, ok, "the contract has no %s", m[1])
		shapes++
		for _, f := range field.FindAllStringSubmatch(inner.ReplaceAllString(m[2], ""), -1) {
			_, known := defined.Properties[f[1]]
			require.True(t, known, "the contract has no %s.%s", m[1], f[1])
			fields++
		}
	}
	t.Logf("%d shapes, %d fields", shapes, fields)
	require.Greater(t, shapes, 30)
	require.Greater(t, fields, 150)
}
