package quote

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"

	"daybreak/internal/facts"
	"daybreak/internal/unit"
)

// Fingerprint names what a quote was made from: the household as told, the
// date and the revision of every book. Words are not in it.
func Fingerprint(told *facts.Facts, asOf unit.Date, revisions []Revision) string {
	h := sha256.New()
	facts := told.Fingerprint()
	fmt.Fprintf(h, "daybreak quote 1\n%x\n%s\n", facts, asOf)
	for _, r := range revisions {
		fmt.Fprintf(h, "%s\t%s\t%s\n", r.Book, r.Name, r.Digest)
	}
	return hex.EncodeToString(h.Sum(nil))
}

// symbols is Crockford's base 32 without the letters that are misheard; the
// check symbol is the value modulo 37 and drawn again outside the 32.
//
// Source: Crockford, Base 32 encoding.
const symbols = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"

// Reference is a short name that can be read out: two groups of four symbols
// and a check symbol, made from a fingerprint.
func Reference(fingerprint string) string {
	raw, err := hex.DecodeString(fingerprint)
	if err != nil || len(raw) < 8 {
		return ""
	}
	for salt := 0; ; salt++ {
		sum := sha256.Sum256(append([]byte{byte(salt)}, raw...))
		var value uint64
		for _, b := range sum[:5] {
			value = value<<8 | uint64(b)
		}
		check := value % 37
		if check >= 32 {
			continue // its symbol is no letter or figure: cannot be spoken
		}
		out := make([]byte, 8)
		for i := range out {
			out[7-i] = symbols[value&31]
			value >>= 5
		}
		return fmt.Sprintf("%s-%s-%c", out[:4], out[4:], symbols[check])
	}
}

// ReferenceHolds reports whether a reference's check symbol is right; spaces,
// case and the letters O, I and L are forgiven.
func ReferenceHolds(ref string) bool {
	var value uint64
	var got []byte
	for i := range len(ref) {
		c := ref[i]
		switch {
		case c == ' ' || c == '-':
			continue
		case c >= 'a' && c <= 'z':
			c -= 'a' - 'A'
		}
		switch c {
		case 'O':
			c = '0'
		case 'I', 'L':
			c = '1'
		}
		got = append(got, c)
	}
	if len(got) != 9 {
		return false
	}
	for _, c := range got[:8] {
		i := indexByte(c)
		if i < 0 {
			return false
		}
		value = value<<5 | uint64(i)
	}
	check := value % 37
	return check < 32 && got[8] == symbols[check]
}

func indexByte(c byte) int {
	for i := range len(symbols) {
		if symbols[i] == c {
			return i
		}
	}
	return -1
}
