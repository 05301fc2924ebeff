package store

import (
	"crypto/sha256"
	"encoding/base32"
	"encoding/binary"
	"fmt"
	"strconv"
)

// Shards is how many groups all keys fall into. Keys of one shard may change
// in one transaction.
const Shards = 1024

// ShardOf is the shard of a session id, a book hash or a request id.
func ShardOf(id string) int {
	sum := sha256.Sum256([]byte(id))
	return int(binary.BigEndian.Uint16(sum[:]) % Shards)
}

// Tag is a shard as it stands in keys: "s0417". In Redis its braces make it
// the hash tag of every key.
func Tag(shard int) string { return fmt.Sprintf("s%04d", shard) }

// QuoteID makes a quote's id from its session's id and a secret digest: three
// hexadecimal digits of the session's shard, then 128 bits of the digest, so
// that a quote is found by its id alone and lies beside its session.
func QuoteID(session string, digest [32]byte) string {
	text := base32.HexEncoding.WithPadding(base32.NoPadding).EncodeToString(digest[:16])
	return fmt.Sprintf("%03x", ShardOf(session)) + lower(text)
}

// QuoteShard reads the shard from a quote's id; false when it is not one made
// by QuoteID.
func QuoteShard(id string) (int, bool) {
	if len(id) < 4 {
		return 0, false
	}
	n, err := strconv.ParseUint(id[:3], 16, 16)
	return int(n), err == nil && n < Shards
}

func lower(s string) string {
	b := []byte(s)
	for i, c := range b {
		if c >= 'A' && c <= 'Z' {
			b[i] = c + 'a' - 'A'
		}
	}
	return string(b)
}

// SessionKey is the key a session lies under, "{s0417}:shop:session:id". Its
// log, requests and tombstone add a word to it.
func SessionKey(k Key) string { return fullKey(ShardOf(k.ID), k.Shop, "session", k.ID) }

// QuoteKey is the key a quote lies under, in its session's shard; false when
// the id is not one made by QuoteID.
func QuoteKey(k Key) (string, bool) {
	shard, ok := QuoteShard(k.ID)
	return fullKey(shard, k.Shop, "quote", k.ID), ok
}

// BookKey is the key a book lies under.
func BookKey(shop, hash string) string { return fullKey(ShardOf(hash), shop, "book", hash) }

// ReplyKey is the key a remembered reply lies under.
func ReplyKey(shop string, r Request) string {
	return fullKey(ShardOf(r.ID), shop, "reply", r.Method+":"+r.ID)
}

func fullKey(shard int, shop, kind, id string) string {
	return "{" + Tag(shard) + "}:" + shop + ":" + kind + ":" + id
}
