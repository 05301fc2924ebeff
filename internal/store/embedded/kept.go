package embedded

import (
	"context"
	"encoding/binary"
	"errors"
	"time"

	"daybreak/internal/fault"
	"daybreak/internal/store"

	bolt "go.etcd.io/bbolt"
)

// Things kept for a time lie as their expiry, eight bytes, then their record.

func (s *Store) keep(tx *bolt.Tx, bucket []byte, key string, until time.Time, record []byte) error {
	raw := binary.BigEndian.AppendUint64(make([]byte, 0, 8+len(record)), uint64(until.UnixMilli()))
	return errors.Join(
		tx.Bucket(bucket).Put([]byte(key), append(raw, record...)),
		expire(tx, until, bucket, key),
	)
}

func (s *Store) kept(tx *bolt.Tx, bucket []byte, key string) ([]byte, bool) {
	raw := tx.Bucket(bucket).Get([]byte(key))
	if len(raw) < 8 || !until(raw).After(s.now()) {
		return nil, false
	}
	return raw[8:], true
}

func until(raw []byte) time.Time {
	return time.UnixMilli(int64(binary.BigEndian.Uint64(raw)))
}

// PutQuote keeps a quote, once.
func (s *Store) PutQuote(ctx context.Context, q store.Quote) (store.Quote, error) {
	if err := q.Check(); err != nil {
		return store.Quote{}, err
	}
	key, _ := store.QuoteKey(q.Key)
	out := q
	err := s.commit(ctx, func(tx *bolt.Tx) error {
		raw, there := s.kept(tx, quoteBucket, key)
		if !there {
			out = q
			return s.keep(tx, quoteBucket, key, q.Issued.Add(s.lives.Quote), q.Encode())
		}
		var err error
		if out, err = store.DecodeQuote(q.Key, raw); err != nil {
			return err
		}
		if out.Request != q.Request {
			return store.Reused(q.Request.ID)
		}
		out.Repeated = true
		return nil
	})
	if err != nil {
		return store.Quote{}, err
	}
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
	var out store.Quote
	err := s.view(ctx, func(tx *bolt.Tx) error {
		raw, there := s.kept(tx, quoteBucket, name)
		if !there {
			return fault.NotFound("quote", key.ID)
		}
		var err error
		out, err = store.DecodeQuote(key, raw)
		return err
	})
	return out, err
}

// PutBook keeps a book by its content hash and renews its retention.
func (s *Store) PutBook(ctx context.Context, shop string, content []byte) (string, error) {
	if err := store.CheckBook(shop, content); err != nil {
		return "", err
	}
	hash := store.BookHash(content)
	err := s.commit(ctx, func(tx *bolt.Tx) error {
		return s.keep(tx, bookBucket, store.BookKey(shop, hash), s.now().Add(s.lives.Book), store.EncodeBook(content))
	})
	if err != nil {
		return "", err
	}
	return hash, nil
}

// Book reads a kept book and checks it against its hash.
func (s *Store) Book(ctx context.Context, shop, hash string) ([]byte, error) {
	if err := (store.Key{Shop: shop, ID: hash}).Check(); err != nil {
		return nil, err
	}
	var out []byte
	err := s.view(ctx, func(tx *bolt.Tx) error {
		raw, there := s.kept(tx, bookBucket, store.BookKey(shop, hash))
		if !there {
			return fault.NotFound("book", hash)
		}
		var err error
		out, err = store.DecodeBook(hash, raw)
		return err
	})
	return out, err
}

// Remember keeps the reply of a request, the first one.
func (s *Store) Remember(ctx context.Context, shop string, r store.Request, reply []byte) (store.Remembered, error) {
	if err := store.CheckReply(shop, r, reply); err != nil {
		return store.Remembered{}, err
	}
	key := store.ReplyKey(shop, r)
	var out store.Remembered
	err := s.commit(ctx, func(tx *bolt.Tx) error {
		raw, there := s.kept(tx, replyBucket, key)
		if there {
			var err error
			out, err = recalled(r, raw)
			return err
		}
		now := s.now()
		out = store.Remembered{Reply: reply, At: now}
		return s.keep(tx, replyBucket, key, now.Add(s.lives.Request), store.Reply{Request: r, At: now, Bytes: reply}.Encode())
	})
	if err != nil {
		return store.Remembered{}, err
	}
	return out, nil
}

// Recall returns a remembered reply.
func (s *Store) Recall(ctx context.Context, shop string, r store.Request) (store.Remembered, error) {
	if err := store.CheckReply(shop, r, nil); err != nil {
		return store.Remembered{}, err
	}
	var out store.Remembered
	err := s.view(ctx, func(tx *bolt.Tx) error {
		raw, there := s.kept(tx, replyBucket, store.ReplyKey(shop, r))
		if !there {
			return fault.NotFound("request_id", r.ID)
		}
		var err error
		out, err = recalled(r, raw)
		return err
	})
	return out, err
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
