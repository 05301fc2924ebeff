package condition

import (
	"fmt"
	"slices"
	"strings"

	"daybreak/internal/facts"

	celast "cel.dev/cel-go/common/ast"
	"cel.dev/cel-go/common/operators"
	"cel.dev/cel-go/common/types"
)

// reader walks a parsed expression: it collects the leaves, refuses paths and
// words that do not exist, and makes every number a quantity.
type reader struct {
	factory celast.ExprFactory
	reads   []*facts.Leaf
}

func (r *reader) walk(e celast.Expr, depth int) error {
	if depth > DeepestNesting {
		return refuse("an expression nested deeper", "at most 32 levels")
	}
	switch e.Kind() {
	case celast.LiteralKind:
		if n, ok := e.AsLiteral().(types.Int); ok {
			e.SetKindCase(r.factory.NewLiteral(e.ID(), types.Double(n)))
		}
		return nil
	case celast.IdentKind, celast.SelectKind:
		return r.path(e)
	case celast.ListKind:
		for _, item := range e.AsList().Elements() {
			if err := r.walk(item, depth+1); err != nil {
				return err
			}
		}
		return nil
	case celast.CallKind:
		return r.call(e.AsCall(), depth)
	}
	return refuse("a loop, map or message", "comparisons of facts, joined by && || !")
}

func (r *reader) path(e celast.Expr) error {
	path, ok := pathOf(e)
	if !ok {
		return refuse("a field of a value", "the path of a fact")
	}
	l, err := leafOf(path)
	if err != nil {
		return err
	}
	r.reads = append(r.reads, l)
	return nil
}

// leafOf finds the leaf of a path, or of a question about a path's state.
func leafOf(path string) (*facts.Leaf, error) {
	if head, rest, ok := strings.Cut(path, "."); ok && (head == knownOf || head == toldOf || head == unsureOf) {
		path = rest
	}
	l, ok := facts.LeafAt(path)
	if !ok {
		f := facts.UnknownPath(path)
		f.Got, f.Field = fmt.Sprintf("%q", path), ""
		return nil, f
	}
	return l, nil
}

func (r *reader) call(c celast.CallExpr, depth int) error {
	args := c.Args()
	if c.IsMemberFunction() {
		args = append(slices.Clone(args), c.Target())
	}
	for _, a := range args {
		if err := r.walk(a, depth+1); err != nil {
			return err
		}
	}
	switch c.FunctionName() {
	case operators.Equals, operators.NotEquals, operators.In:
		return wordsExist(args[0], args[1])
	}
	return nil
}

// wordsExist refuses a comparison of a leaf with a word it can never hold.
func wordsExist(a, b celast.Expr) error {
	for _, pair := range [][2]celast.Expr{{a, b}, {b, a}} {
		path, ok := pathOf(pair[0])
		if !ok {
			continue
		}
		l, err := leafOf(path)
		if err != nil || (l.Kind != facts.Choice && l.Kind != facts.Set) {
			continue
		}
		for _, word := range literalWords(pair[1]) {
			if !slices.Contains(l.Words, word) {
				return refuse(l.Path+" with "+word, l.Accepted())
			}
		}
	}
	return nil
}

func literalWords(e celast.Expr) []string {
	switch e.Kind() {
	case celast.LiteralKind:
		if s, ok := e.AsLiteral().(types.String); ok {
			return []string{string(s)}
		}
	case celast.ListKind:
		var words []string
		for _, item := range e.AsList().Elements() {
			words = append(words, literalWords(item)...)
		}
		return words
	}
	return nil
}
