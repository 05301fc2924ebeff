package store

import (
	"crypto/sha256"
	"encoding/hex"
	"strconv"
	"strings"

	"daybreak/internal/fault"
)

// Revision names a state of a session's log: how many entries it has, and a
// digest chained over header and all of them. Clients treat it as opaque. The
// zero value is no revision.
type Revision struct {
	Number int
	Digest [4]byte
}

// String prints "<number>-<digest8>", such as "3-9f86d081"; "" for no revision.
func (r Revision) String() string {
	if r == (Revision{}) {
		return ""
	}
	return strconv.Itoa(r.Number) + "-" + hex.EncodeToString(r.Digest[:])
}

// ParseRevision reads what String printed. Anything else is a fault of the
// field revision.
func ParseRevision(s string) (Revision, error) {
	n, d, found := strings.Cut(s, "-")
	num, err := strconv.Atoi(n)
	raw, herr := hex.DecodeString(d)
	r := Revision{Number: num}
	copy(r.Digest[:], raw)
	if !found || err != nil || herr != nil || len(raw) != 4 || num < 0 || r.String() != s {
		return Revision{}, fault.Invalid("revision", s, "a revision as returned, such as 3-9f86d081")
	}
	return r, nil
}

// First is the revision of a session without entries.
func First(n NewSession) Revision {
	return chain(Revision{}, 0, n.Header)
}

// Next is the revision that an append makes of its base.
func (a Append) Next() Revision {
	return chain(a.Base, a.Base.Number+1, a.Record)
}

// chain digests the revision before and the record, so that the same number
// after a lost suffix carries another digest unless the log reads the same.
func chain(base Revision, number int, record []byte) Revision {
	h := sha256.New()
	h.Write([]byte(base.String()))
	h.Write([]byte{'\n'})
	h.Write(record)
	r := Revision{Number: number}
	copy(r.Digest[:], h.Sum(nil))
	return r
}
