package inspector_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// mayBeImported are the rooms whose plain result types the inspector reads, the
// ground floor, and a few packages of the standard library.
var mayBeImported = []string{
	"bytes", "embed", "errors", "fmt", "io/fs", "math", "slices", "strconv", "strings", "sync", "go.yaml.in/yaml/v3",
	"daybreak/internal/facts", "daybreak/internal/fault", "daybreak/internal/unit", "daybreak/internal/working",
	"daybreak/internal/charging", "daybreak/internal/circuit", "daybreak/internal/circuit/outlet", "daybreak/internal/edition",
	"daybreak/internal/panel", "daybreak/internal/pricing", "daybreak/internal/quote", "daybreak/internal/quote/caution",
}

// designers are rooms of which only types and constants may be used.
var designers = []string{"charging", "circuit", "outlet", "edition", "panel", "pricing", "quote", "caution"}

// The inspector is written apart: it imports no code book, and calls no function
// of a room that designs, calculates or prices. What has the word of a value is
// a method of the value, and not among them.
func TestNothingOfTheDesignersIsCalled(t *testing.T) {
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		src, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		require.NoError(t, err)
		for _, imp := range src.Imports {
			path, err := strconv.Unquote(imp.Path.Value)
			require.NoError(t, err)
			require.Contains(t, mayBeImported, path, name)
		}
		ast.Inspect(src, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok {
				return true
			}
			fun, ok := call.Fun.(*ast.SelectorExpr)
			if !ok {
				return true
			}
			if room, ok := fun.X.(*ast.Ident); ok && room.Obj == nil {
				require.NotContains(t, designers, room.Name, "%s calls %s.%s", name, room.Name, fun.Sel.Name)
			}
			return true
		})
	}
}

// What is written of the rules is there to be read: each rule's function says
// what it means and where it is written.
func TestEveryRuleSaysWhatItMeansAndItsSource(t *testing.T) {
	said := map[string]string{}
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	for _, name := range files {
		src, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ParseComments)
		require.NoError(t, err)
		for _, d := range src.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Recv != nil {
				said[f.Name.Name] = f.Doc.Text()
			}
		}
	}
	raw, err := os.ReadFile("rules.go")
	require.NoError(t, err)
	n := 0
	for _, line := range strings.Split(string(raw), "\n") {
		_, function, ok := strings.Cut(line, "(*sight).")
		if !ok {
			continue
		}
		n++
		function = strings.TrimRight(function, "},")
		require.Contains(t, said[function], "Source:", function)
		require.Greater(t, len(said[function]), 60, function)
	}
	require.Greater(t, n, 50)
}
