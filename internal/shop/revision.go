package shop

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"io/fs"
	"sort"
	"strings"

	"daybreak/internal/fault"
)

// Revision names one book as it was loaded.
type Revision struct {
	Book   string // "jurisdictions", "prices", "shop"
	Name   string // the revision its staff gave it; "" where it has none
	Digest string // SHA-256 over the book's files, hexadecimal
}

func revisions(fsys fs.FS, s *Shop) ([]Revision, error) {
	books := []Revision{
		{Book: "jurisdictions", Name: s.Jurisdictions.Revision},
		{Book: "prices", Name: s.Prices.Revision},
		{Book: "shop"},
	}
	for i := range books {
		files, err := filesOf(fsys, books[i].Book)
		if err != nil {
			return nil, err
		}
		if books[i].Digest, err = digest(fsys, files); err != nil {
			return nil, err
		}
	}
	return books, nil
}

// Digest is the SHA-256 over every file of a folder, hexadecimal.
func Digest(fsys fs.FS) (string, error) {
	files, err := filesOf(fsys, "")
	if err != nil {
		return "", err
	}
	return digest(fsys, files)
}

// filesOf lists the files of one book, or of all when it is "".
func filesOf(fsys fs.FS, book string) (files []string, err error) {
	err = fs.WalkDir(fsys, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		top, _, _ := strings.Cut(strings.TrimSuffix(name, ".yaml"), "/")
		if book == "" || top == book {
			files = append(files, name)
		}
		return nil
	})
	if err != nil {
		return nil, fault.InFile(".", 0, "", "unreadable", "a readable folder")
	}
	return files, nil
}

// digest hashes names and bytes with their lengths, so that no two folders
// hash alike by being cut differently.
func digest(fsys fs.FS, files []string) (string, error) {
	sort.Strings(files)
	h := sha256.New()
	write := func(b []byte) {
		var n [8]byte
		binary.BigEndian.PutUint64(n[:], uint64(len(b)))
		h.Write(n[:])
		h.Write(b)
	}
	for _, name := range files {
		raw, err := fs.ReadFile(fsys, name)
		if err != nil {
			return "", fault.InFile(name, 0, "", "unreadable", "a readable file")
		}
		write([]byte(name))
		write(raw)
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}
