package charging

import (
	"fmt"
	"io"

	"daybreak/internal/fault"
)

// guarded reads text of at most so many bytes. A longer one is refused, not
// cut: half a table must not pass for a whole one. So is a NUL byte, which no
// text holds.
type guarded struct {
	from io.Reader
	file string
	left int
	most int
	line int
}

func guard(from io.Reader, file string, most int) io.Reader {
	return &guarded{from: from, file: file, left: most, most: most, line: 1}
}

// Read passes on what may be read; its faults name file and line.
func (g *guarded) Read(p []byte) (int, error) {
	n, err := g.from.Read(p[:min(len(p), g.left+1)])
	for i, b := range p[:n] {
		switch b {
		case '\n':
			g.line++
		case 0:
			return i, fault.InFile(g.file, g.line, "", "a NUL byte", "text")
		}
	}
	if n > g.left {
		return g.left, fault.InFile(g.file, g.line, "", "a longer file", fmt.Sprintf("at most %d bytes", g.most))
	}
	g.left -= n
	return n, err
}
