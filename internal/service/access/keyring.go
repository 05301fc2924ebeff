package access

import (
	"crypto/hmac"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base32"
	"encoding/base64"

	"daybreak/internal/fault"
	"daybreak/internal/store"
)

// KeySize is the length of a service key in bytes.
const KeySize = 32

// Keyring makes everything that follows from the service key. It does not
// change.
type Keyring struct{ key [KeySize]byte }

// NewKeyring takes a service key of [KeySize] bytes.
func NewKeyring(key []byte) (*Keyring, error) {
	if len(key) != KeySize {
		return nil, fault.Invalid("service key", len(key), "32 random bytes")
	}
	return &Keyring{key: [KeySize]byte(key)}, nil
}

// sum is a keyed hash of parts, each with its length, for one purpose.
func (k *Keyring) sum(purpose string, parts ...string) [sha256.Size]byte {
	h := hmac.New(sha256.New, k.key[:])
	for _, p := range append([]string{purpose}, parts...) {
		n := len(p)
		h.Write([]byte{byte(n >> 24), byte(n >> 16), byte(n >> 8), byte(n)})
		h.Write([]byte(p))
	}
	return [sha256.Size]byte(h.Sum(nil))
}

var lowerBase32 = base32.NewEncoding("0123456789abcdefghjkmnpqrstvwxyz").WithPadding(base32.NoPadding)

// SessionID is the id of the session a request creates in a shop: 26 letters
// and digits, not to be guessed.
func (k *Keyring) SessionID(shop, requestID string) string {
	sum := k.sum("session", shop, requestID)
	return lowerBase32.EncodeToString(sum[:16])
}

// Secret is a session's secret.
func (k *Keyring) Secret(sessionID string) string {
	sum := k.sum("secret", sessionID)
	return base64.RawURLEncoding.EncodeToString(sum[:])
}

// Owns faults a secret that is not the session's, or none.
func (k *Keyring) Owns(sessionID, secret string) error {
	if secret == "" {
		return &fault.Fault{
			Kind: fault.KindDenied, Reason: "SESSION_SECRET_MISSING", Field: "daybreak-session",
			Accepted: "the secret that CreateSession returned, as metadata or header",
		}
	}
	if subtle.ConstantTimeCompare([]byte(secret), []byte(k.Secret(sessionID))) != 1 {
		return &fault.Fault{
			Kind: fault.KindDenied, Reason: "SESSION_SECRET_WRONG", Field: "daybreak-session",
			Accepted: "the secret that CreateSession returned for this session",
		}
	}
	return nil
}

// QuoteID is the id of the quote that a request makes of a session. Its shard
// is the session's.
func (k *Keyring) QuoteID(sessionID, requestID string) string {
	return store.QuoteID(sessionID, k.sum("quote", sessionID, requestID))
}

// PageToken seals where a listing goes on, for one shop and one filter.
func (k *Keyring) PageToken(shop, filter, next string) string {
	sum := k.sum("page", shop, filter, next)
	return base64.RawURLEncoding.EncodeToString(append(sum[:12], next...))
}

// OpenPageToken is where a sealed listing goes on. A token of another shop or
// filter, or one made up, is a fault.
func (k *Keyring) OpenPageToken(shop, filter, token string) (string, error) {
	raw, err := base64.RawURLEncoding.DecodeString(token)
	if err != nil || len(raw) < 12 {
		return "", badToken(token)
	}
	next := string(raw[12:])
	if subtle.ConstantTimeCompare([]byte(token), []byte(k.PageToken(shop, filter, next))) != 1 {
		return "", badToken(token)
	}
	return next, nil
}

func badToken(token string) error {
	return fault.Invalid("page_token", token, "the next_page_token of the page before, or nothing")
}
