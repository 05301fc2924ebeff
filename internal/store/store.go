package store

import (
	"context"
	"time"
)

// Store keeps sessions, quotes, books and remembered requests. Every method
// may be called from many goroutines. Errors are *fault.Fault of the kinds
// NotFound (absent, expired, deleted or another shop's: all alike), Conflict
// (reasons STALE_REVISION with Current, REQUEST_ID_REUSED, ALREADY_EXISTS),
// Invalid (a key or record beyond its limits), Exhausted (disk or memory is
// full) and Unavailable (the file or server does not answer; the write may or
// may not exist, and repeating it with the same request id settles it).
type Store interface {
	// CreateSession writes a new session, or returns the one that the same
	// request made before. Another body under the same id is
	// Conflict/REQUEST_ID_REUSED; a deleted session's id is NotFound.
	CreateSession(ctx context.Context, n NewSession) (Session, error)

	// Session reads header, head and the whole log.
	Session(ctx context.Context, key Key) (Session, error)

	// Append adds one entry at the head, or reports what the same request
	// committed before (Appended.Repeated). It slides the session's expiry.
	// A base that is not the head is Conflict/STALE_REVISION with Current; a
	// request id used for another body is Conflict/REQUEST_ID_REUSED.
	Append(ctx context.Context, a Append) (Appended, error)

	// DeleteSession removes session, log and remembered requests at once and
	// leaves a tombstone, so that no late append revives it. Deleting again
	// while the tombstone stands succeeds. Issued quotes stay.
	DeleteSession(ctx context.Context, key Key) error

	// PutQuote keeps a quote for good. The same quote again is no error and
	// returns the one kept; another body under its id is
	// Conflict/REQUEST_ID_REUSED.
	PutQuote(ctx context.Context, q Quote) (Quote, error)

	// Quote reads an issued quote.
	Quote(ctx context.Context, key Key) (Quote, error)

	// PutBook keeps the bytes of a book revision by their content hash and
	// renews their retention. It returns the hash, lower-case hexadecimal.
	PutBook(ctx context.Context, shop string, content []byte) (string, error)

	// Book reads a kept book revision and checks it against its hash.
	Book(ctx context.Context, shop, hash string) ([]byte, error)

	// Remember keeps the reply of a committed request that belongs to no
	// session, for Lives.Request. When the same request is remembered already
	// its first reply is returned with Repeated; another body is
	// Conflict/REQUEST_ID_REUSED.
	Remember(ctx context.Context, shop string, r Request, reply []byte) (Remembered, error)

	// Recall returns the reply remembered for a request: NotFound when there
	// is none, Conflict/REQUEST_ID_REUSED when it was for another body.
	Recall(ctx context.Context, shop string, r Request) (Remembered, error)

	// Watch sends the session's head at once and then whenever it has moved,
	// within a second. Only the newest waits: a slow reader skips revisions
	// and never holds anybody up. The channel is closed when the session is
	// gone or ctx is done.
	Watch(ctx context.Context, key Key) (<-chan Revision, error)

	// Ready says whether the store answers; nil when it does.
	Ready(ctx context.Context) error

	// Promise is one line for people: what an acknowledged write survives.
	Promise() string

	// Close ends all watches and releases file or connections.
	Close() error
}

// Key names a session or a quote of one shop. ID is 1 to 64 letters, digits,
// '-' or '_'; Shop likewise.
type Key struct {
	Shop string
	ID   string
}

// Request is what makes a call repeatable: the same method, id and body is
// the same request. Body is the SHA-256 of the canonical body without its base
// revision.
type Request struct {
	Method string // "Answer"; ids of different methods are independent
	ID     string // a UUID given by the client
	Body   [32]byte
}

// NewSession is a conversation to begin. Header is opaque: pinned revisions,
// locale, whatever the service needs to fold the log.
type NewSession struct {
	Key     Key
	Request Request
	Header  []byte // at most MaxRecord bytes
}

// Session is a conversation as stored.
type Session struct {
	Key      Key
	Header   []byte
	Created  time.Time
	Expires  time.Time // slides with every append
	Head     Revision
	Log      []Entry // oldest first
	Repeated bool    // from CreateSession: it stood already
}

// Entry is one committed append.
type Entry struct {
	Revision Revision // the head it made
	Request  Request  // the request that made it
	At       time.Time
	Record   []byte // opaque, versioned by the caller
}

// Append is one entry to be added at a known head.
type Append struct {
	Key     Key
	Base    Revision // the head the caller has read
	Request Request
	Record  []byte // at most MaxRecord bytes
}

// Appended says what came of an append.
type Appended struct {
	Revision Revision // the head this request made, now or the first time
	Expires  time.Time
	Repeated bool // the same request was committed before
}

// Quote is an issued quote. Its id begins with its session's shard: see
// [QuoteID].
type Quote struct {
	Key      Key
	Session  string // id of the session it came from; may be empty
	Request  Request
	Revision Revision // head of the session it was made from
	Issued   time.Time
	Record   []byte // opaque, at most MaxQuote bytes
	Repeated bool   // from PutQuote: it stood already
}

// Remembered is the reply of a committed request.
type Remembered struct {
	Reply    []byte
	At       time.Time
	Repeated bool
}

// Lives says how long things are kept. A zero field takes its default.
type Lives struct {
	Session   time.Duration // after the last append; 14 days
	Tombstone time.Duration // after a deletion; 24 hours
	Request   time.Duration // replies remembered by Remember; a session remembers its own requests as long as it lives; 24 hours
	Quote     time.Duration // after it was issued; 400 days
	Book      time.Duration // after it was last put; 800 days, twice a quote's life
}

// OrDefault fills the fields that are zero.
func (l Lives) OrDefault() Lives {
	const day = 24 * time.Hour
	for _, f := range []struct {
		at  *time.Duration
		def time.Duration
	}{{&l.Session, 14 * day}, {&l.Tombstone, day}, {&l.Request, day}, {&l.Quote, 400 * day}, {&l.Book, 800 * day}} {
		if *f.at <= 0 {
			*f.at = f.def
		}
	}
	return l
}

// Limits of what is stored, in bytes.
const (
	MaxRecord  = 64 << 10
	MaxQuote   = 1 << 20
	MaxBook    = 16 << 20
	MaxEntries = 2000 // appends of one session
)
