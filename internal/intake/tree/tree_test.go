package tree_test

import (
	"fmt"
	"testing"

	"daybreak/internal/facts"
	"daybreak/internal/intake/tree"

	"github.com/stretchr/testify/require"
)

func load(t testing.TB) *tree.Tree {
	tr, err := tree.Load(tree.Embedded())
	require.NoError(t, err)
	return tr
}

func TestLoad(t *testing.T) {
	tr := load(t)
	fmt.Println(len(tr.Questions()), tr.Dimensions(), tr.Revision())
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		_ = load(b)
	}
}

func BenchmarkDraw(b *testing.B) {
	tr := load(b)
	u := make([]float64, tr.Dimensions())
	for i := range u {
		u[i] = float64(i%10)/10 + 0.05
	}
	b.ReportAllocs()
	for b.Loop() {
		var f facts.Facts
		tr.Draw(u, &f, &tree.World{})
	}
}
