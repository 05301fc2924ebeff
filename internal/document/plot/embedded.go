package plot

import (
	"embed"
	"io/fs"
)

//go:embed faces.yaml shapes.yaml words
var embedded embed.FS

// Embedded returns the geometry and words that ship with the program.
func Embedded() fs.FS { return embedded }
