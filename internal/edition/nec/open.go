package nec

import "io/fs"

// Open resolves the code book of a year (2017, 2020, 2023 or 2026) from its
// files. A year without entries, and a broken file, is a fault.
func Open(fsys fs.FS, year int) (*Book, error) { return open(fsys, year) }
