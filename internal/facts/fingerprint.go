package facts

import (
	"crypto/sha256"
	"encoding/hex"
	"strconv"
)

// Fingerprint is a digest of everything known: two households with the same
// one are the same to every engine. Words for people do not enter it.
type Fingerprint [sha256.Size]byte

// String prints the digest in lower-case hexadecimal.
func (p Fingerprint) String() string { return hex.EncodeToString(p[:]) }

// Fingerprint digests the canonical bytes of the household.
func (f *Facts) Fingerprint() Fingerprint {
	buf := make([]byte, 0, 4096)
	return sha256.Sum256(f.AppendCanonical(buf))
}

// AppendCanonical appends one line for each leaf that is not unknown, in the
// order of the table: path, state, basis when derived, value. The same
// household gives the same bytes on every platform.
func (f *Facts) AppendCanonical(b []byte) []byte {
	b = append(b, "facts 1\n"...)
	for _, l := range leaves {
		b = l.appendCanonical(b, f)
	}
	return b
}

// AppendCanonical appends the line of one leaf; nothing when it is unknown.
func (s Slot) AppendCanonical(b []byte) []byte { return s.leaf.appendCanonical(b, s.facts) }

func (l *Leaf) appendCanonical(b []byte, f *Facts) []byte {
	r, state, basis := l.cell(f).load()
	if state == Unknown {
		return b
	}
	b = append(b, l.Path...)
	b = append(b, ' ')
	b = append(b, state.String()...)
	switch state {
	case Told:
		b = l.appendValue(append(b, ' '), r)
	case Derived:
		b = append(append(b, ' '), basis.String()...)
		b = l.appendValue(append(b, ' '), r)
	case Narrowed:
		if n, ok := f.NarrowedTo(l); ok {
			b = append(append(b, ' '), n.weight.String()...)
			for _, x := range n.values[:n.count] {
				b = l.appendValue(append(b, ' '), raw{num: x})
			}
		}
	}
	return append(b, '\n')
}

func (l *Leaf) appendValue(b []byte, r raw) []byte {
	switch l.Kind {
	case Number:
		return strconv.AppendFloat(b, r.num, 'g', -1, 64)
	case Text:
		return append(b, r.text...)
	case Choice:
		return append(b, wordAt(l.Words, uint8(r.num))...)
	case Set:
		b = append(b, '{')
		for i, w := range l.Words {
			if uint32(r.num)&(1<<i) != 0 {
				b = append(append(b, w...), ',')
			}
		}
		return append(b, '}')
	}
	return strconv.AppendInt(b, int64(r.num), 10)
}
