package page

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Whole comments go, and nothing but whole comments: a string may look like
// one, and a comment may stand before the code it types.
func TestShipLeavesOutCommentsAlone(t *testing.T) {
	for name, c := range map[string]struct{ extension, written, sent string }{
		"a line":             {".js", "// why\nlet a = 1\n", "let a = 1\n"},
		"a line within":      {".js", "f()\n  // why\ng()\n", "f()\ng()\n"},
		"an address":         {".js", "let a = 'http://x//y' // kept\n", "let a = 'http://x//y' // kept\n"},
		"a block":            {".js", "/**\n * What.\n * @param {a} b **/\nf()\n", "f()\n"},
		"a typed field":      {".js", "/** @type {a} */ b = 1\nc()\n/** What. */\nd()\n", "b = 1\nc()\nd()\n"},
		"a typed parameter":  {".js", "(/** @type {a} */ b, /** @type {c} */ d) => b * d\n", "(b, d) => b * d\n"},
		"a product":          {".js", "a = b * c / d\n", "a = b * c / d\n"},
		"an ordinary remark": {".js", "f(/* two */ 2)\n", "f(/* two */ 2)\n"},
		"a style's comment":  {".css", "/* Frame */\na { b: c }\n", "a { b: c }\n"},
		"a style's end":      {".css", "a { b: c } /* kept */\n", "a { b: c } /* kept */\n"},
		"a page":             {".html", "<!-- // -->\n", "<!-- // -->\n"},
	} {
		require.Equal(t, c.sent, string(ship(c.extension, []byte(c.written))), name)
	}
}
