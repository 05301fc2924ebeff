package store

import (
	"encoding/binary"
	"fmt"
	"strings"
	"time"

	"daybreak/internal/fault"
)

// recordVersion is the first byte of every stored record. A reader refuses a
// version it does not know, rather than guess at its fields.
const recordVersion = 1

// Head is the part of a session that never changes, as stored.
type Head struct {
	Created time.Time
	Request Request
	Header  []byte
}

// Encode gives the stored form.
func (h Head) Encode() []byte {
	w := writer{recordVersion}
	w.time(h.Created)
	w.request(h.Request)
	w.bytes(h.Header)
	return w
}

// DecodeHead reads what Head.Encode wrote.
func DecodeHead(raw []byte) (Head, error) {
	r := open(raw)
	h := Head{Created: r.time(), Request: r.request(), Header: r.bytes()}
	return h, r.end("session")
}

// Encode gives the stored form, without the request: that lies apart, as Done,
// so that the log stays small.
func (e Entry) Encode() []byte {
	w := writer{recordVersion}
	w.revision(e.Revision)
	w.time(e.At)
	w.bytes(e.Record)
	return w
}

// DecodeEntry reads what Entry.Encode wrote.
func DecodeEntry(raw []byte) (Entry, error) {
	r := open(raw)
	e := Entry{Revision: r.revision(), At: r.time(), Record: r.bytes()}
	return e, r.end("entry")
}

// Done is what a session remembers of a committed request, under its method
// and id.
type Done struct {
	Body     [32]byte
	Revision Revision // the head the request made
}

// Encode gives the stored form: the version, then the body's hash at a fixed
// place, where a script compares it.
func (d Done) Encode() []byte {
	w := append(writer{recordVersion}, d.Body[:]...)
	w.revision(d.Revision)
	return w
}

// DecodeDone reads what Done.Encode wrote.
func DecodeDone(raw []byte) (Done, error) {
	r := open(raw)
	var d Done
	copy(d.Body[:], r.take(len(d.Body)))
	d.Revision = r.revision()
	return d, r.end("request")
}

// Name is how a request is told from others of its session: "Answer:<id>".
func (q Request) Name() string { return q.Method + ":" + q.ID }

// Sign gives the entry that a request made its name, method and body.
func (d Done) Sign(log []Entry, name string) {
	if n := d.Revision.Number; n >= 1 && n <= len(log) && log[n-1].Revision == d.Revision {
		method, id, _ := strings.Cut(name, ":")
		log[n-1].Request = Request{Method: method, ID: id, Body: d.Body}
	}
}

// Encode gives the stored form, without the key it lies under.
func (q Quote) Encode() []byte {
	w := writer{recordVersion}
	w.bytes([]byte(q.Session))
	w.request(q.Request)
	w.revision(q.Revision)
	w.time(q.Issued)
	w.bytes(q.Record)
	return w
}

// DecodeQuote reads what Quote.Encode wrote.
func DecodeQuote(key Key, raw []byte) (Quote, error) {
	r := open(raw)
	q := Quote{Key: key, Session: string(r.bytes()), Request: r.request(), Revision: r.revision(), Issued: r.time(), Record: r.bytes()}
	return q, r.end("quote")
}

// Reply is a remembered reply as stored.
type Reply struct {
	Request Request
	At      time.Time
	Bytes   []byte
}

// Encode gives the stored form.
func (p Reply) Encode() []byte {
	w := writer{recordVersion}
	w.request(p.Request)
	w.time(p.At)
	w.bytes(p.Bytes)
	return w
}

// DecodeReply reads what Reply.Encode wrote.
func DecodeReply(raw []byte) (Reply, error) {
	r := open(raw)
	p := Reply{Request: r.request(), At: r.time(), Bytes: r.bytes()}
	return p, r.end("reply")
}

// EncodeBook gives the stored form of a book's bytes.
func EncodeBook(content []byte) []byte { return append(writer{recordVersion}, content...) }

// DecodeBook reads what EncodeBook wrote, and checks it against its hash.
func DecodeBook(hash string, raw []byte) ([]byte, error) {
	r := open(raw)
	content := append([]byte(nil), r.rest...)
	r.rest = nil
	if err := r.end("book"); err != nil {
		return nil, err
	}
	if BookHash(content) != hash {
		return nil, broken("book", "bytes that do not match their hash")
	}
	return content, nil
}

type writer []byte

func (w *writer) bytes(b []byte) {
	*w = binary.AppendUvarint(*w, uint64(len(b)))
	*w = append(*w, b...)
}

func (w *writer) time(t time.Time) { *w = binary.AppendVarint(*w, t.UnixMilli()) }

func (w *writer) request(q Request) {
	w.bytes([]byte(q.Method))
	w.bytes([]byte(q.ID))
	*w = append(*w, q.Body[:]...)
}

func (w *writer) revision(r Revision) {
	*w = binary.AppendUvarint(*w, uint64(r.Number))
	*w = append(*w, r.Digest[:]...)
}

// reader takes fields off the front; after the first trouble it gives zeros
// and end reports it.
type reader struct {
	version byte
	rest    []byte
	bad     bool
}

func open(raw []byte) *reader {
	if len(raw) == 0 {
		return &reader{bad: true}
	}
	return &reader{version: raw[0], rest: raw[1:], bad: raw[0] != recordVersion}
}

func (r *reader) take(n int) []byte {
	if r.bad || n < 0 || n > len(r.rest) {
		r.bad = true
		return nil
	}
	b := r.rest[:n]
	r.rest = r.rest[n:]
	return b
}

func (r *reader) uvarint() uint64 {
	if r.bad {
		return 0
	}
	v, n := binary.Uvarint(r.rest)
	if n <= 0 {
		r.bad = true
		return 0
	}
	r.rest = r.rest[n:]
	return v
}

// bytes copies, since the source may live no longer than a transaction.
func (r *reader) bytes() []byte {
	n := r.uvarint()
	if n > uint64(len(r.rest)) {
		r.bad = true
		return nil
	}
	return append([]byte(nil), r.take(int(n))...)
}

func (r *reader) time() time.Time {
	if r.bad {
		return time.Time{}
	}
	ms, n := binary.Varint(r.rest)
	if n <= 0 {
		r.bad = true
		return time.Time{}
	}
	r.rest = r.rest[n:]
	return time.UnixMilli(ms).UTC()
}

func (r *reader) request() Request {
	q := Request{Method: string(r.bytes()), ID: string(r.bytes())}
	copy(q.Body[:], r.take(len(q.Body)))
	return q
}

func (r *reader) revision() Revision {
	n := r.uvarint()
	v := Revision{Number: int(min(n, 1<<31))}
	copy(v.Digest[:], r.take(len(v.Digest)))
	return v
}

func (r *reader) end(what string) error {
	switch {
	case r.version != 0 && r.version != recordVersion:
		return &fault.Fault{Kind: fault.KindUnavailable, Reason: "RECORD_VERSION", Field: what,
			Got: fmt.Sprintf("version %d", r.version), Accepted: fmt.Sprintf("version %d; a newer program wrote it", recordVersion)}
	case r.bad || len(r.rest) > 0:
		return broken(what, "a broken record")
	}
	return nil
}

func broken(what, got string) error {
	return &fault.Fault{Kind: fault.KindUnavailable, Reason: "RECORD_BROKEN", Field: what, Got: got, Accepted: "a record as it was written"}
}
