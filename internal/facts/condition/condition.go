package condition

import (
	"daybreak/internal/facts"

	"cel.dev/cel-go/cel"
	celast "cel.dev/cel-go/common/ast"
	"cel.dev/cel-go/common/types"
)

// Truth is one of three values. Its zero value is Unknown.
type Truth uint8

const (
	// Unknown: it rests on a leaf that has no value.
	Unknown Truth = iota
	// False: it does not hold, whatever the missing leaves are.
	False
	// True: it holds, whatever the missing leaves are.
	True
)

// String is the word for the truth.
func (t Truth) String() string { return [...]string{"unknown", "false", "true"}[t%3] }

// Result is the truth of a condition for one household.
type Result struct {
	Value   Truth
	Missing []string // when unknown: the paths it rests on, in the order of the leaf table
}

// Condition is a compiled expression. It is safe for concurrent use.
type Condition struct {
	source  string
	reads   []*facts.Leaf
	program cel.Program
	root    celast.Expr
}

// Source is the text it was compiled from.
func (c *Condition) Source() string { return c.source }

// Reads returns the paths of every leaf it mentions, also inside known, told
// and unsure, in the order of the leaf table.
func (c *Condition) Reads() []string { return paths(c.reads) }

func paths(leaves []*facts.Leaf) []string {
	out := make([]string, len(leaves))
	for i, l := range leaves {
		out[i] = l.Path
	}
	return out
}

// Truth evaluates the condition for one household.
func (c *Condition) Truth(f *facts.Facts) Truth {
	t, _ := c.run(f)
	return t
}

// Eval evaluates the condition for one household and names what is missing.
func (c *Condition) Eval(f *facts.Facts) Result {
	t, unknown := c.run(f)
	if t != Unknown {
		return Result{Value: t}
	}
	r := Result{}
	if unknown == nil {
		r.Missing = c.Reads()
		return r
	}
	table := facts.Leaves()
	for _, id := range unknown.IDs() {
		if i := int(id) - 1; i >= 0 && i < len(table) {
			r.Missing = append(r.Missing, table[i].Path)
		}
	}
	return r
}

// run gives the truth; when it is unknown, also what it rests on. An
// expression that compiled cannot fail, and if it did it would be unknown.
func (c *Condition) run(f *facts.Facts) (Truth, *types.Unknown) {
	val, _, err := c.program.Eval((*household)(f))
	if err != nil {
		return Unknown, nil
	}
	switch v := val.(type) {
	case types.Bool:
		if v {
			return True, nil
		}
		return False, nil
	case *types.Unknown:
		return Unknown, v
	}
	return Unknown, nil
}
