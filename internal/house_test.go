// Package internal_test holds the house in order: which room may look into
// which, and what no room below the edge may touch.
package internal_test

import (
	"bytes"
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// arrows is the whole plan: for each room, the rooms it may import besides
// the ground floor. A room that is not named here does not belong in the house.
var arrows = map[string][]string{
	// ground
	"unit":            {},
	"fault":           {},
	"working":         {"unit", "fault"},
	"facts":           {"unit", "fault"},
	"facts/condition": {"facts", "unit", "fault"},
	// engines
	"edition":        {"ground"},
	"edition/nec":    {"ground", "edition"},
	"circuit":        {"ground", "edition"},
	"circuit/outlet": {"ground", "edition", "edition/nec", "circuit"},
	"panel":          {"ground", "edition"},
	"charging":       {"ground"},
	"readiness":      {"ground", "charging"},
	"tariff":         {"ground", "charging"},
	"pricing":        {"ground", "circuit", "circuit/outlet", "panel", "edition"},
	// answer
	"quote":         {"ground", "facts", "facts/condition", "engines", "quote/caution", "shop"},
	"quote/caution": {"ground", "facts", "facts/condition"},
	"band":          {"ground", "facts", "engines", "quote", "quote/caution", "intake/tree", "shop"},
	"intake":        {"ground", "facts", "facts/condition", "intake/tree"},
	"intake/tree":   {"ground", "facts", "facts/condition", "panel"},
	"shop":          {"ground", "facts", "engines", "intake/tree", "quote/caution"},
	// edge
	"store":           {"ground"},
	"store/embedded":  {"ground", "store"},
	"store/redis":     {"ground", "store"},
	"store/storetest": {"ground", "store"},
	"service":         {"*"},
	"service/wire":    {"*"},
	"service/access":  {"*"},
	"document":        {"ground", "facts", "engines", "quote", "quote/caution", "band", "intake", "intake/tree", "shop", "document/plot"},
	"document/plot":   {"ground"},
	"web":             {"ground", "document", "document/plot", "service", "service/access", "service/wire"},
	"tools":           {"*"},
}

var floors = map[string][]string{
	"ground":  {"unit", "fault", "working"},
	"engines": {"edition", "edition/nec", "circuit", "circuit/outlet", "panel", "charging", "readiness", "tariff", "pricing"},
}

// edge rooms may meet the outside world.
var edge = []string{"store", "service", "web", "document", "tools"}

type listed struct {
	ImportPath   string
	Dir          string
	GoFiles      []string
	Imports      []string
	TestImports  []string
	XTestImports []string
}

func packages(t *testing.T) []listed {
	t.Helper()
	cmd := exec.Command("go", "list", "-json=ImportPath,Dir,GoFiles,Imports", "daybreak/...")
	cmd.Dir = ".."
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	require.NoError(t, err)
	var all []listed
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		if err := dec.Decode(&p); err == io.EOF {
			return all
		} else {
			require.NoError(t, err)
		}
		all = append(all, p)
	}
}

// room gives the room of an import path: its longest prefix in the plan.
func room(importPath string) string {
	path, inside := strings.CutPrefix(importPath, "daybreak/internal/")
	if !inside {
		return ""
	}
	for ; path != "."; path = filepath.Dir(path) {
		if _, ok := arrows[path]; ok {
			return path
		}
	}
	return "unplanned: " + importPath
}

func mayImport(from, to string) bool {
	for _, a := range arrows[from] {
		if a == "*" || a == to || slices.Contains(floors[a], to) {
			return true
		}
	}
	return from == to
}

func isEdge(r string) bool {
	return slices.ContainsFunc(edge, func(e string) bool { return r == e || strings.HasPrefix(r, e+"/") })
}

func TestEveryArrowIsInThePlan(t *testing.T) {
	for _, p := range packages(t) {
		from := room(p.ImportPath)
		if from == "" {
			continue // api and cmd
		}
		if strings.HasPrefix(from, "unplanned") {
			t.Errorf("%s is no room of the house", p.ImportPath)
			continue
		}
		for _, imp := range p.Imports {
			if to := room(imp); to != "" && !mayImport(from, to) {
				t.Errorf("%s must not import %s", from, to)
			}
		}
	}
}

func TestTheCoreTouchesNothingOutside(t *testing.T) {
	forbidden := []string{"net", "net/http", "log", "log/slog", "math/rand", "math/rand/v2", "os", "os/exec", "context", "crypto/rand", "testing"}
	onlyEdge := []string{"google.golang.org/grpc", "google.golang.org/protobuf", "daybreak/api", "github.com/grpc-ecosystem", "buf.build"}
	for _, p := range packages(t) {
		r := room(p.ImportPath)
		if r == "" {
			continue
		}
		for _, imp := range p.Imports {
			if !isEdge(r) && slices.Contains(forbidden, imp) {
				t.Errorf("%s is below the edge and must not import %s", r, imp)
			}
			transport := slices.ContainsFunc(onlyEdge, func(o string) bool { return imp == o || strings.HasPrefix(imp, o+"/") })
			if transport && r != "tools" && !strings.HasPrefix(r, "service") && !strings.HasPrefix(r, "web") {
				t.Errorf("%s must not import %s: only service, web and cmd speak the contract", r, imp)
			}
			if strings.HasPrefix(imp, "cel.dev/") && r != "facts/condition" {
				t.Errorf("%s must not import %s: conditions live in facts/condition", r, imp)
			}
			if strings.HasPrefix(imp, "github.com/redis/") && r != "store/redis" && r != "tools" {
				t.Errorf("%s must not import %s: Redis lives in store/redis", r, imp)
			}
		}
	}
}

// No clock and no init below the edge, and no package variable that a function
// assigns to.
func TestTheCoreHasNoClockNoInitAndNoChangingVariable(t *testing.T) {
	for _, p := range packages(t) {
		r := room(p.ImportPath)
		if r == "" || isEdge(r) {
			continue
		}
		fset := token.NewFileSet()
		var files []*ast.File
		vars := map[string]bool{}
		for _, name := range p.GoFiles {
			f, err := parser.ParseFile(fset, filepath.Join(p.Dir, name), nil, parser.SkipObjectResolution)
			require.NoError(t, err)
			files = append(files, f)
			for _, d := range f.Decls {
				if g, ok := d.(*ast.GenDecl); ok && g.Tok == token.VAR {
					for _, s := range g.Specs {
						for _, n := range s.(*ast.ValueSpec).Names {
							vars[n.Name] = true
						}
					}
				}
			}
		}
		for _, f := range files {
			for _, d := range f.Decls {
				fn, ok := d.(*ast.FuncDecl)
				if !ok {
					continue
				}
				if fn.Name.Name == "init" && fn.Recv == nil {
					t.Errorf("%s has an init in %s", r, fset.Position(fn.Pos()))
				}
				own := declared(fn)
				ast.Inspect(fn, func(n ast.Node) bool {
					switch n := n.(type) {
					case *ast.SelectorExpr:
						if x, ok := n.X.(*ast.Ident); ok && x.Name == "time" && !own["time"] && (n.Sel.Name == "Now" || n.Sel.Name == "Since") {
							t.Errorf("%s reads the clock at %s", r, fset.Position(n.Pos()))
						}
					case *ast.AssignStmt:
						for _, l := range n.Lhs {
							if id, ok := l.(*ast.Ident); ok && vars[id.Name] && !own[id.Name] {
								t.Errorf("%s changes the package variable %s at %s", r, id.Name, fset.Position(n.Pos()))
							}
						}
					}
					return true
				})
			}
		}
	}
}

// declared are the names a function declares itself: parameters, results and
// whatever it defines inside.
func declared(fn *ast.FuncDecl) map[string]bool {
	own := map[string]bool{}
	ast.Inspect(fn, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.Field:
			for _, name := range n.Names {
				own[name.Name] = true
			}
		case *ast.ValueSpec:
			for _, name := range n.Names {
				own[name.Name] = true
			}
		case *ast.AssignStmt:
			if n.Tok == token.DEFINE {
				for _, l := range n.Lhs {
					if id, ok := l.(*ast.Ident); ok {
						own[id.Name] = true
					}
				}
			}
		case *ast.RangeStmt:
			for _, e := range []ast.Expr{n.Key, n.Value} {
				if id, ok := e.(*ast.Ident); ok && n.Tok == token.DEFINE {
					own[id.Name] = true
				}
			}
		}
		return true
	})
	if fn.Recv != nil {
		for _, f := range fn.Recv.List {
			for _, name := range f.Names {
				own[name.Name] = true
			}
		}
	}
	return own
}

// A file is one idea: none above 400 lines unless generated.
func TestNoFileIsAHall(t *testing.T) {
	var long []string
	for _, p := range packages(t) {
		if strings.HasPrefix(p.ImportPath, "daybreak/api") {
			continue
		}
		names, err := filepath.Glob(filepath.Join(p.Dir, "*.go"))
		require.NoError(t, err)
		for _, name := range names {
			raw, err := os.ReadFile(name)
			require.NoError(t, err)
			if n := bytes.Count(raw, []byte("\n")); n > 400 {
				rel, _ := filepath.Rel(filepath.Dir(filepath.Dir(p.Dir)), name)
				long = append(long, rel)
			}
		}
	}
	sort.Strings(long)
	require.Empty(t, long, "files above 400 lines")
}
