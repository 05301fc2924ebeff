package condition

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"daybreak/internal/facts"
	"daybreak/internal/fault"

	"cel.dev/cel-go/cel"
	celast "cel.dev/cel-go/common/ast"
	"cel.dev/cel-go/common/env"
	"cel.dev/cel-go/common/operators"
	"cel.dev/cel-go/common/types"
	"cel.dev/cel-go/common/types/ref"
)

const (
	// LongestSource is the most bytes a condition may have.
	LongestSource = 2000
	// DeepestNesting is how deep its parts may lie in one another.
	DeepestNesting = 32
)

// The three questions about a leaf's state are variables of their own, so
// that asking them is never unknown. The loader turns known(path) into them.
const (
	knownOf  = "known_of"
	toldOf   = "told_of"
	unsureOf = "unsure_of"
)

// Compile reads a condition. It faults, without a field or place of its own,
// on a text that is too long or too deep, a path that is no leaf (naming the
// nearest that is), a word that a leaf cannot hold, a comparison of different
// kinds, and on anything that is not a true-or-false expression.
func Compile(source string) (*Condition, error) {
	if len(source) > LongestSource {
		return nil, refuse(fmt.Sprintf("%d bytes", len(source)), "a condition of at most 2000 bytes")
	}
	e, err := language()
	if err != nil {
		return nil, err
	}
	ast, issues := e.Parse(source)
	if issues.Err() != nil {
		return nil, refuse(source, "an expression over fact paths; "+firstLine(issues.Err()))
	}
	r := reader{factory: celast.NewExprFactory()}
	root := ast.NativeRep().Expr()
	if err := r.walk(root, 1); err != nil {
		return nil, err
	}
	checked, issues := e.Check(ast)
	if issues.Err() != nil {
		return nil, refuse(source, "parts that fit together; "+firstLine(issues.Err()))
	}
	if checked.OutputType() != cel.BoolType {
		return nil, refuse(source, "an expression that is true or false")
	}
	program, err := e.Program(checked)
	if err != nil {
		return nil, refuse(source, "an expression that can be planned; "+firstLine(err))
	}
	slices.SortFunc(r.reads, func(a, b *facts.Leaf) int { return a.Index - b.Index })
	return &Condition{source: source, reads: slices.Compact(r.reads), program: program, root: root}, nil
}

func refuse(got any, accepted string) *fault.Fault { return fault.Invalid("", got, accepted) }

func firstLine(err error) string {
	line, _, _ := strings.Cut(err.Error(), "\n")
	return strings.TrimPrefix(line, "ERROR: <input>:")
}

// language is what a condition may use: the leaves, and a part of the
// standard library without loops, patterns or time.
var language = sync.OnceValues(func() (*cel.Env, error) {
	standard := env.NewLibrarySubset().SetDisableMacros(true)
	for _, name := range []string{
		operators.LogicalAnd, operators.LogicalOr, operators.LogicalNot, operators.Conditional,
		operators.Equals, operators.NotEquals, operators.Less, operators.LessEquals,
		operators.Greater, operators.GreaterEquals, operators.In,
		operators.Add, operators.Subtract, operators.Multiply, operators.Negate,
	} {
		standard.AddIncludedFunctions(env.NewFunction(name))
	}
	options := []cel.EnvOption{
		cel.StdLib(cel.StdLibSubset(standard)),
		cel.ParserRecursionLimit(DeepestNesting),
		cel.ParserExpressionSizeLimit(LongestSource),
		cel.Macros(stateMacro("known", knownOf), stateMacro("told", toldOf), stateMacro("unsure", unsureOf)),
		cel.Function("size", cel.Overload("size_of_set", []*cel.Type{cel.ListType(cel.StringType)}, cel.DoubleType,
			cel.UnaryBinding(sizeOf))),
	}
	for _, l := range facts.Leaves() {
		options = append(options, cel.Variable(l.Path, typeOf(l)))
		for _, root := range []string{knownOf, toldOf, unsureOf} {
			options = append(options, cel.Variable(root+"."+l.Path, cel.BoolType))
		}
	}
	return cel.NewCustomEnv(options...)
})

func typeOf(l *facts.Leaf) *cel.Type {
	switch l.Kind {
	case facts.Flag:
		return cel.BoolType
	case facts.Set:
		return cel.ListType(cel.StringType)
	case facts.Choice, facts.Text, facts.Day:
		return cel.StringType
	}
	return cel.DoubleType
}

func sizeOf(v ref.Val) ref.Val {
	if set, ok := v.(interface{ Size() ref.Val }); ok {
		if n, ok := set.Size().(types.Int); ok {
			return types.Double(n)
		}
	}
	return types.MaybeNoSuchOverloadErr(v)
}

// stateMacro turns known(panel.service_amps) into known_of.panel.service_amps.
func stateMacro(name, root string) cel.Macro {
	return cel.GlobalMacro(name, 1, func(f cel.MacroExprFactory, _ celast.Expr, args []celast.Expr) (celast.Expr, *cel.Error) {
		path, ok := pathOf(args[0])
		if !ok {
			return nil, f.NewError(args[0].ID(), name+" takes one fact path")
		}
		e := f.NewIdent(root)
		for _, part := range strings.Split(path, ".") {
			e = f.NewSelect(e, part)
		}
		return e, nil
	})
}

// pathOf joins an identifier and its selects with dots.
func pathOf(e celast.Expr) (string, bool) {
	switch e.Kind() {
	case celast.IdentKind:
		return e.AsIdent(), true
	case celast.SelectKind:
		s := e.AsSelect()
		if s.IsTestOnly() {
			return "", false
		}
		head, ok := pathOf(s.Operand())
		return head + "." + s.FieldName(), ok
	}
	return "", false
}
