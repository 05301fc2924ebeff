package bookfile_test

import (
	"testing"
	"testing/fstest"

	"daybreak/internal/fault"
	"daybreak/internal/pricing/bookfile"

	"github.com/stretchr/testify/require"
)

func parse(text string) (bookfile.Node, *bookfile.Faults) {
	var faults bookfile.Faults
	return bookfile.Parse([]byte(text), "x.yaml", &faults), &faults
}

func TestValuesAreReadByKind(t *testing.T) {
	n, faults := parse("name: a shop\nrate: 0.0825\nn: 12\non: true\nday: \"2026-07-01\"\nlist: [1, 2]\nnothing: null\n")
	require.Equal(t, "a shop", n.At("name").Text())
	require.Equal(t, int64(825), n.At("rate").Scaled(4, "0", "1"))
	require.Equal(t, 12, n.At("n").Whole(1, 20))
	require.True(t, n.At("on").Flag())
	require.Equal(t, "2026-07-01", n.At("day").Date().String())
	require.Len(t, n.At("list").Items(), 2)
	require.True(t, n.At("list").IsList())
	require.True(t, n.Maybe("nothing").IsNull())
	require.NoError(t, faults.Err())
}

func TestEveryMistakeNamesItsPlace(t *testing.T) {
	for _, c := range []struct {
		text string
		ask  func(bookfile.Node)
		line int
		name string
	}{
		{"a: [x", func(bookfile.Node) {}, 1, ""},
		{"", func(bookfile.Node) {}, 0, ""},
		{"a: 1\na: 2", func(n bookfile.Node) { n.Pairs() }, 2, "a"},
		{"a: 1\nb: 2", func(n bookfile.Node) { n.Only("a") }, 2, "b"},
		{"a: 1", func(n bookfile.Node) { n.At("b") }, 1, "b"},
		{"a: {b: x}", func(n bookfile.Node) { n.At("a").At("b").Whole(0, 9) }, 1, "a.b"},
		{"a: [1, 2, x]", func(n bookfile.Node) { n.At("a").Items()[2].Whole(0, 9) }, 1, "a[2]"},
		{"a: 99", func(n bookfile.Node) { n.At("a").Whole(0, 9) }, 1, "a"},
		{"a: maybe", func(n bookfile.Node) { n.At("a").Flag() }, 1, "a"},
		{"a: red", func(n bookfile.Node) { n.At("a").Word("blue", "green") }, 1, "a"},
		{"a: 2026-13-01", func(n bookfile.Node) { n.At("a").Date() }, 1, "a"},
		{"a: 1.23456", func(n bookfile.Node) { n.At("a").Scaled(2, "0", "9") }, 1, "a"},
		{"a: -1", func(n bookfile.Node) { n.At("a").Scaled(2, "0", "9") }, 1, "a"},
		{"a: .inf", func(n bookfile.Node) { n.At("a").Decimal(2, "0", "9") }, 1, "a"},
		{"a: ''", func(n bookfile.Node) { n.At("a").Text() }, 1, "a"},
		{"a: {}", func(n bookfile.Node) { n.At("a").Text() }, 1, "a"},
		{"a: b", func(n bookfile.Node) { n.At("a").Items() }, 1, "a"},
		{"a: b", func(n bookfile.Node) { n.At("a").Pairs() }, 1, "a"},
		{"a: &x 1\nb: *x", func(n bookfile.Node) { n.At("b") }, 2, "b"},
		{"a: !!str 1", func(n bookfile.Node) { n.At("a") }, 1, "a"},
	} {
		n, faults := parse(c.text)
		c.ask(n)
		list := fault.All(faults.Err())
		require.NotEmpty(t, list, c.text)
		require.Equal(t, "x.yaml", list[0].File)
		require.Equal(t, c.line, list[0].Line, c.text)
		require.Equal(t, c.name, list[0].Field, c.text)
		require.NotEmpty(t, list[0].Accepted)
	}
}

func TestWhatIsNotThereStaysQuiet(t *testing.T) {
	var none bookfile.Node
	require.False(t, none.OK())
	require.Zero(t, none.Whole(1, 2))
	require.Empty(t, none.Text())
	require.Nil(t, none.Items())
	require.Nil(t, none.Pairs())
	none.At("x").Only("y")
}

func TestFilesThatCannotBeRead(t *testing.T) {
	var faults bookfile.Faults
	bookfile.Open(fstest.MapFS{}, "gone.yaml", &faults)
	bookfile.Open(fstest.MapFS{"big.yaml": {Data: make([]byte, 5<<20)}}, "big.yaml", &faults)
	require.Len(t, fault.All(faults.Err()), 2)
	require.True(t, faults.Any())
}

func FuzzParse(f *testing.F) {
	f.Add([]byte("a: {b: [1, 2.5, x]}\n"))
	f.Add([]byte("? [a]\n: b"))
	f.Add([]byte("a: &a [*a]"))
	f.Fuzz(func(t *testing.T, raw []byte) {
		var faults bookfile.Faults
		walk(bookfile.Parse(raw, "x.yaml", &faults), 0)
		for _, x := range fault.All(faults.Err()) {
			require.Equal(t, "x.yaml", x.File)
		}
	})
}

func walk(n bookfile.Node, depth int) {
	if depth > 20 {
		return
	}
	n.Text()
	n.Scaled(3, "0", "1000")
	n.Date()
	for _, v := range n.Items() {
		walk(v, depth+1)
	}
	for _, p := range n.Pairs() {
		walk(p.Value, depth+1)
	}
}
