package caution

import (
	"embed"
	"io/fs"
)

//go:embed findings.yaml words
var embedded embed.FS

// Embedded returns the findings and words that ship with the program.
func Embedded() fs.FS { return embedded }
