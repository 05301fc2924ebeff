package redis

import (
	"context"
	"errors"
	"strconv"
	"strings"
	"time"

	"daybreak/internal/fault"
	"daybreak/internal/store"

	goredis "github.com/redis/go-redis/v9"
)

// keep writes a record unless one stands; it returns the one that stands.
func (s *Store) keep(ctx context.Context, key string, until time.Time, record []byte) (standing []byte, err error) {
	verdict, old, err := s.run(ctx, keepScript, []string{key}, millis(s.now()), millis(until), string(record))
	if err != nil || verdict == "kept" {
		return nil, err
	}
	_, body, _ := strings.Cut(old, ":")
	return []byte(body), nil
}

// kept reads a record that has not expired.
func (s *Store) kept(ctx context.Context, key string) ([]byte, bool, error) {
	raw, err := s.client.Get(ctx, key).Result()
	if errors.Is(err, goredis.Nil) {
		return nil, false, nil
	}
	if err != nil {
		return nil, false, s.judge(err)
	}
	ms, body, _ := strings.Cut(raw, ":")
	at, err := strconv.ParseInt(ms, 10, 64)
	return []byte(body), err == nil && time.UnixMilli(at).After(s.now()), nil
}

// PutQuote keeps a quote, once.
func (s *Store) PutQuote(ctx context.Context, q store.Quote) (store.Quote, error) {
	if err := q.Check(); err != nil {
		return store.Quote{}, err
	}
	key, _ := store.QuoteKey(q.Key)
	standing, err := s.keep(ctx, key, q.Issued.Add(s.lives.Quote), q.Encode())
	if err != nil {
		return store.Quote{}, err
	}
	if standing == nil {
		return q, nil
	}
	out, err := store.DecodeQuote(q.Key, standing)
	if err == nil && out.Request != q.Request {
		err = store.Reused(q.Request.ID)
	}
	if err != nil {
		return store.Quote{}, err
	}
	out.Repeated = true
	return out, nil
}

// Quote reads an issued quote.
func (s *Store) Quote(ctx context.Context, key store.Key) (store.Quote, error) {
	if err := key.Check(); err != nil {
		return store.Quote{}, err
	}
	name, ok := store.QuoteKey(key)
	if !ok {
		return store.Quote{}, fault.NotFound("quote", key.ID)
	}
	raw, there, err := s.kept(ctx, name)
	switch {
	case err != nil:
		return store.Quote{}, err
	case !there:
		return store.Quote{}, fault.NotFound("quote", key.ID)
	}
	return store.DecodeQuote(key, raw)
}

// PutBook keeps a book by its content hash and renews its retention.
func (s *Store) PutBook(ctx context.Context, shop string, content []byte) (string, error) {
	if err := store.CheckBook(shop, content); err != nil {
		return "", err
	}
	hash := store.BookHash(content)
	until := s.now().Add(s.lives.Book)
	record := millis(until) + ":" + string(store.EncodeBook(content))
	err := s.client.SetArgs(ctx, store.BookKey(shop, hash), record, goredis.SetArgs{ExpireAt: until}).Err()
	if err != nil {
		return "", s.judge(err)
	}
	return hash, nil
}

// Book reads a kept book and checks it against its hash.
func (s *Store) Book(ctx context.Context, shop, hash string) ([]byte, error) {
	if err := (store.Key{Shop: shop, ID: hash}).Check(); err != nil {
		return nil, err
	}
	raw, there, err := s.kept(ctx, store.BookKey(shop, hash))
	switch {
	case err != nil:
		return nil, err
	case !there:
		return nil, fault.NotFound("book", hash)
	}
	return store.DecodeBook(hash, raw)
}

// Remember keeps the reply of a request, the first one.
func (s *Store) Remember(ctx context.Context, shop string, r store.Request, reply []byte) (store.Remembered, error) {
	if err := store.CheckReply(shop, r, reply); err != nil {
		return store.Remembered{}, err
	}
	now := s.now()
	record := store.Reply{Request: r, At: now, Bytes: reply}
	standing, err := s.keep(ctx, store.ReplyKey(shop, r), now.Add(s.lives.Request), record.Encode())
	switch {
	case err != nil:
		return store.Remembered{}, err
	case standing == nil:
		return store.Remembered{Reply: reply, At: now}, nil
	}
	return recalled(r, standing)
}

// Recall returns a remembered reply.
func (s *Store) Recall(ctx context.Context, shop string, r store.Request) (store.Remembered, error) {
	if err := store.CheckReply(shop, r, nil); err != nil {
		return store.Remembered{}, err
	}
	raw, there, err := s.kept(ctx, store.ReplyKey(shop, r))
	switch {
	case err != nil:
		return store.Remembered{}, err
	case !there:
		return store.Remembered{}, fault.NotFound("request_id", r.ID)
	}
	return recalled(r, raw)
}

func recalled(r store.Request, raw []byte) (store.Remembered, error) {
	p, err := store.DecodeReply(raw)
	if err == nil && p.Request != r {
		err = store.Reused(r.ID)
	}
	if err != nil {
		return store.Remembered{}, err
	}
	return store.Remembered{Reply: p.Bytes, At: p.At, Repeated: true}, nil
}
