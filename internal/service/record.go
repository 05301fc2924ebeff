package service

import (
	"encoding/binary"
	"errors"
)

// recordVersion begins everything this room stores.
const recordVersion = 1

var errRecord = errors.New("a stored record is damaged or of a version this program cannot read")

// fieldsOf reads a record: its version and then tagged fields. A tag this
// version does not know is passed over; records are never written back.
func fieldsOf(raw []byte, take func(tag uint64, value []byte)) error {
	if len(raw) == 0 || raw[0] != recordVersion {
		return errRecord
	}
	for raw = raw[1:]; len(raw) > 0; {
		tag, n := binary.Uvarint(raw)
		if n <= 0 {
			return errRecord
		}
		size, m := binary.Uvarint(raw[n:])
		if m <= 0 || size > uint64(len(raw)-n-m) {
			return errRecord
		}
		take(tag, raw[n+m:n+m+int(size)])
		raw = raw[n+m+int(size):]
	}
	return nil
}

func appendField(b []byte, tag uint64, value []byte) []byte {
	b = binary.AppendUvarint(b, tag)
	b = binary.AppendUvarint(b, uint64(len(value)))
	return append(b, value...)
}

// header is what a session keeps beside its log.
type header struct {
	locale string
	tree   string // revision of the question tree it began with
}

const (
	tagLocale = 1
	tagTree   = 2
)

func (h header) encode() []byte {
	b := appendField([]byte{recordVersion}, tagLocale, []byte(h.locale))
	return appendField(b, tagTree, []byte(h.tree))
}

func decodeHeader(raw []byte) (header, error) {
	var h header
	err := fieldsOf(raw, func(tag uint64, value []byte) {
		switch tag {
		case tagLocale:
			h.locale = string(value)
		case tagTree:
			h.tree = string(value)
		}
	})
	return h, err
}

const tagEntry = 1

// pack puts the entries of one request into one record, so that all are
// appended or none.
func pack(entries [][]byte) []byte {
	b := []byte{recordVersion}
	for _, e := range entries {
		b = appendField(b, tagEntry, e)
	}
	return b
}

func unpack(raw []byte) ([][]byte, error) {
	var entries [][]byte
	err := fieldsOf(raw, func(tag uint64, value []byte) {
		if tag == tagEntry {
			entries = append(entries, value)
		}
	})
	return entries, err
}

// issued is a quote as it is kept: what it was made from, its canonical body,
// and how it read on the day.
type issued struct {
	asOf      string
	canonical []byte
	facts     []byte   // the household as told, in its canonical form
	message   []byte   // the full view, as it was issued
	books     []string // content hashes of the books it was made with, as the store keeps them
}

const (
	tagAsOf      = 1
	tagCanonical = 2
	tagFacts     = 3
	tagMessage   = 4
	tagBook      = 5 // once for each book
)

func (q issued) encode() []byte {
	b := appendField([]byte{recordVersion}, tagAsOf, []byte(q.asOf))
	b = appendField(b, tagCanonical, q.canonical)
	b = appendField(b, tagFacts, q.facts)
	b = appendField(b, tagMessage, q.message)
	for _, hash := range q.books {
		b = appendField(b, tagBook, []byte(hash))
	}
	return b
}

func decodeIssued(raw []byte) (issued, error) {
	var q issued
	err := fieldsOf(raw, func(tag uint64, value []byte) {
		switch tag {
		case tagAsOf:
			q.asOf = string(value)
		case tagCanonical:
			q.canonical = value
		case tagFacts:
			q.facts = value
		case tagMessage:
			q.message = value
		case tagBook:
			q.books = append(q.books, string(value))
		}
	})
	return q, err
}
