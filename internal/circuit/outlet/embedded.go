package outlet

import (
	"embed"
	"io/fs"
)

//go:embed receptacles.yaml rules.yaml
var embedded embed.FS

// Embedded returns the rules and receptacles that ship with the program.
func Embedded() fs.FS { return embedded }
