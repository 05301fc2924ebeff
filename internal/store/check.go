package store

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"

	"daybreak/internal/fault"
)

// Faults that both adapters answer with, so that callers meet one wording.

// Gone faults a session that is absent, expired, deleted or another shop's.
func Gone(id string) error { return fault.NotFound("session", id) }

// Stale faults a base that is not the head.
func Stale(base, head Revision) error {
	return &fault.Fault{Kind: fault.KindConflict, Reason: "STALE_REVISION", Field: "revision",
		Got: base.String(), Accepted: "the revision in force", Current: head.String()}
}

// Reused faults a request id that was used for another body.
func Reused(id string) error {
	return &fault.Fault{Kind: fault.KindConflict, Reason: "REQUEST_ID_REUSED", Field: "request_id",
		Got: id, Accepted: "a new request id for a new body"}
}

// Full faults a session that has reached MaxEntries.
func Full() error {
	return &fault.Fault{Kind: fault.KindExhausted, Reason: "SESSION_FULL", Field: "session",
		Got: "another entry", Accepted: fmt.Sprintf("at most %d answers in one conversation", MaxEntries)}
}

// Away faults a file or server that does not answer. The write may or may not
// exist; repeating it with the same request id settles it.
func Away(cause error) error {
	return fmt.Errorf("%w: %w", &fault.Fault{Kind: fault.KindUnavailable, Reason: "STORE_AWAY",
		Detail: "the store does not answer; repeat with the same request id"}, cause)
}

// NoRoom faults a full disk or memory; nothing was written.
func NoRoom(cause error) error {
	return fmt.Errorf("%w: %w", &fault.Fault{Kind: fault.KindExhausted, Reason: "STORE_FULL",
		Detail: "the store is full; nothing was written"}, cause)
}

// Closed faults any use after Close.
func Closed() error {
	return &fault.Fault{Kind: fault.KindUnavailable, Reason: "STORE_CLOSED", Detail: "the store is closed"}
}

const nameRule = "1 to 64 letters, digits, '-' or '_'"

func checkName(field, s string) error {
	if s == "" || len(s) > 64 {
		return fault.Invalid(field, s, nameRule)
	}
	for _, c := range []byte(s) {
		if (c < 'a' || c > 'z') && (c < 'A' || c > 'Z') && (c < '0' || c > '9') && c != '-' && c != '_' {
			return fault.Invalid(field, s, nameRule)
		}
	}
	return nil
}

func checkSize(field string, b []byte, most int) error {
	if len(b) > most {
		return fault.Invalid(field, fmt.Sprintf("%d bytes", len(b)), fmt.Sprintf("at most %d bytes", most))
	}
	return nil
}

// Check faults a name that cannot stand in a key.
func (k Key) Check() error { return errors.Join(checkName("shop", k.Shop), checkName("id", k.ID)) }

// Check faults a method or id that cannot stand in a key.
func (q Request) Check() error {
	return errors.Join(checkName("method", q.Method), checkName("request_id", q.ID))
}

// Check faults what cannot be stored.
func (n NewSession) Check() error {
	return errors.Join(n.Key.Check(), n.Request.Check(), checkSize("header", n.Header, MaxRecord))
}

// Check faults what cannot be stored.
func (a Append) Check() error {
	return errors.Join(a.Key.Check(), a.Request.Check(), checkSize("record", a.Record, MaxRecord))
}

// Check faults what cannot be stored; a quote's id is one of QuoteID.
func (q Quote) Check() error {
	err := errors.Join(q.Key.Check(), q.Request.Check(), checkSize("record", q.Record, MaxQuote))
	if _, ok := QuoteShard(q.Key.ID); !ok && err == nil {
		err = fault.Invalid("id", q.Key.ID, "an id made by QuoteID")
	}
	if q.Issued.IsZero() {
		err = errors.Join(err, fault.Invalid("issued", "no time", "the time of issue"))
	}
	return err
}

// CheckShop faults a shop's name that cannot stand in a key.
func CheckShop(shop string) error { return checkName("shop", shop) }

// CheckBook faults a shop's name or a book that cannot be stored.
func CheckBook(shop string, content []byte) error {
	return errors.Join(CheckShop(shop), checkSize("content", content, MaxBook))
}

// CheckReply faults what cannot be remembered.
func CheckReply(shop string, r Request, reply []byte) error {
	return errors.Join(CheckShop(shop), r.Check(), checkSize("reply", reply, MaxQuote))
}

// BookHash is the content hash a book is kept under.
func BookHash(content []byte) string {
	sum := sha256.Sum256(content)
	return hex.EncodeToString(sum[:])
}
