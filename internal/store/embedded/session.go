package embedded

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"time"

	"daybreak/internal/store"

	bolt "go.etcd.io/bbolt"
)

// state is what changes of a session: its head and when it expires.
type state struct {
	head    store.Revision
	expires time.Time
}

func (st state) encode() []byte {
	b := append([]byte{1}, st.head.Digest[:]...)
	b = binary.BigEndian.AppendUint32(b, uint32(st.head.Number))
	return binary.BigEndian.AppendUint64(b, uint64(st.expires.UnixMilli()))
}

func decodeState(raw []byte) (st state, ok bool) {
	if len(raw) != 17 || raw[0] != 1 {
		return st, false
	}
	copy(st.head.Digest[:], raw[1:5])
	st.head.Number = int(binary.BigEndian.Uint32(raw[5:9]))
	st.expires = time.UnixMilli(int64(binary.BigEndian.Uint64(raw[9:17]))).UTC()
	return st, true
}

// state reads a session that has not expired.
func (s *Store) state(tx *bolt.Tx, key string) (state, bool) {
	st, ok := decodeState(tx.Bucket(stateBucket).Get([]byte(key)))
	return st, ok && st.expires.After(s.now())
}

// CreateSession writes a new session or returns the one made before.
func (s *Store) CreateSession(ctx context.Context, n store.NewSession) (store.Session, error) {
	if err := n.Check(); err != nil {
		return store.Session{}, err
	}
	key, repeated := store.SessionKey(n.Key), false
	err := s.commit(ctx, func(tx *bolt.Tx) error {
		repeated = false
		if s.tombstone(tx, key) {
			return store.Gone(n.Key.ID)
		}
		if _, there := s.state(tx, key); there {
			head, err := store.DecodeHead(tx.Bucket(headBucket).Get([]byte(key)))
			if err == nil && head.Request != n.Request {
				err = store.Reused(n.Request.ID)
			}
			repeated = err == nil
			return err
		}
		if err := erase(tx, key); err != nil { // what an expired one left
			return err
		}
		now := s.now()
		st := state{store.First(n), now.Add(s.lives.Session)}
		head := store.Head{Created: now, Request: n.Request, Header: n.Header}
		return errors.Join(
			tx.Bucket(headBucket).Put([]byte(key), head.Encode()),
			tx.Bucket(stateBucket).Put([]byte(key), st.encode()),
			expire(tx, st.expires, stateBucket, key),
		)
	})
	if err != nil {
		return store.Session{}, err
	}
	session, err := s.Session(ctx, n.Key)
	session.Repeated = repeated
	return session, err
}

// Session reads header, head and log.
func (s *Store) Session(ctx context.Context, key store.Key) (store.Session, error) {
	if err := key.Check(); err != nil {
		return store.Session{}, err
	}
	name := store.SessionKey(key)
	var out store.Session
	err := s.view(ctx, func(tx *bolt.Tx) error {
		st, there := s.state(tx, name)
		if !there {
			return store.Gone(key.ID)
		}
		head, err := store.DecodeHead(tx.Bucket(headBucket).Get([]byte(name)))
		if err != nil {
			return err
		}
		out = store.Session{Key: key, Header: head.Header, Created: head.Created, Expires: st.expires, Head: st.head,
			Log: make([]store.Entry, 0, st.head.Number)}
		err = under(tx, logBucket, name, func(_, v []byte) error {
			e, err := store.DecodeEntry(v)
			out.Log = append(out.Log, e)
			return err
		})
		if err != nil {
			return err
		}
		return under(tx, doneBucket, name, func(k, v []byte) error {
			d, err := store.DecodeDone(v)
			d.Sign(out.Log, string(k[len(name)+1:]))
			return err
		})
	})
	if err != nil {
		return store.Session{}, err
	}
	return out, nil
}

// Append adds one entry at the head, all of it or nothing.
func (s *Store) Append(ctx context.Context, a store.Append) (store.Appended, error) {
	if err := a.Check(); err != nil {
		return store.Appended{}, err
	}
	key := store.SessionKey(a.Key)
	next := a.Next()
	var out store.Appended
	err := s.commit(ctx, func(tx *bolt.Tx) error {
		st, there := s.state(tx, key)
		if !there {
			return store.Gone(a.Key.ID)
		}
		now := s.now()
		request := []byte(key + ":" + a.Request.Name())
		out = store.Appended{Revision: next, Expires: now.Add(s.lives.Session)}
		if known := tx.Bucket(doneBucket).Get(request); known != nil {
			d, err := store.DecodeDone(known)
			if err != nil {
				return err
			}
			if d.Body != a.Request.Body {
				return store.Reused(a.Request.ID)
			}
			out.Repeated, out.Revision = true, d.Revision
			return tx.Bucket(stateBucket).Put([]byte(key), state{st.head, out.Expires}.encode())
		}
		switch {
		case st.head != a.Base:
			return store.Stale(a.Base, st.head)
		case st.head.Number >= store.MaxEntries:
			return store.Full()
		}
		entry := store.Entry{Revision: next, At: now, Record: a.Record}
		done := store.Done{Body: a.Request.Body, Revision: next}
		return errors.Join(
			tx.Bucket(logBucket).Put(numbered(key, next.Number), entry.Encode()),
			tx.Bucket(doneBucket).Put(request, done.Encode()),
			tx.Bucket(stateBucket).Put([]byte(key), state{next, out.Expires}.encode()),
		)
	})
	if err != nil {
		return store.Appended{}, err
	}
	if !out.Repeated {
		s.watchers.Moved(a.Key, next)
	}
	return out, nil
}

// DeleteSession removes a session and leaves a tombstone.
func (s *Store) DeleteSession(ctx context.Context, key store.Key) error {
	if err := key.Check(); err != nil {
		return err
	}
	name := store.SessionKey(key)
	err := s.commit(ctx, func(tx *bolt.Tx) error {
		if _, there := s.state(tx, name); !there {
			if s.tombstone(tx, name) {
				return nil
			}
			return store.Gone(key.ID)
		}
		until := s.now().Add(s.lives.Tombstone)
		return errors.Join(
			erase(tx, name),
			tx.Bucket(goneBucket).Put([]byte(name), state{expires: until}.encode()),
			expire(tx, until, goneBucket, name),
		)
	})
	if err == nil {
		s.watchers.Gone(key)
	}
	return err
}

func (s *Store) tombstone(tx *bolt.Tx, key string) bool {
	st, ok := decodeState(tx.Bucket(goneBucket).Get([]byte(key)))
	return ok && st.expires.After(s.now())
}

// erase removes all there is of a session; its expiry finds nothing later.
func erase(tx *bolt.Tx, key string) error {
	for _, bucket := range [][]byte{logBucket, doneBucket} {
		var keys [][]byte // deleting while walking would skip some
		err := under(tx, bucket, key, func(k, _ []byte) error {
			keys = append(keys, bytes.Clone(k))
			return nil
		})
		for _, k := range keys {
			err = errors.Join(err, tx.Bucket(bucket).Delete(k))
		}
		if err != nil {
			return err
		}
	}
	return errors.Join(
		tx.Bucket(headBucket).Delete([]byte(key)),
		tx.Bucket(stateBucket).Delete([]byte(key)),
	)
}

// under walks everything that lies under a key, in order.
func under(tx *bolt.Tx, bucket []byte, key string, each func(k, v []byte) error) error {
	prefix := []byte(key + ":")
	c := tx.Bucket(bucket).Cursor()
	for k, v := c.Seek(prefix); k != nil && bytes.HasPrefix(k, prefix); k, v = c.Next() {
		if err := each(k, v); err != nil {
			return err
		}
	}
	return nil
}

func numbered(key string, n int) []byte {
	return binary.BigEndian.AppendUint32([]byte(key+":"), uint32(n))
}
