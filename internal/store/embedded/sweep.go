package embedded

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"slices"
	"time"

	"daybreak/internal/store"

	bolt "go.etcd.io/bbolt"
)

// sweepPage bounds how much one transaction removes: a long one holds up
// writers and keeps pages from being used again.
const sweepPage = 500

// expire notes when a key is due. A session's expiry slides with every append
// without moving the note: the sweep looks at the true expiry and notes anew.
func expire(tx *bolt.Tx, due time.Time, bucket []byte, key string) error {
	k := binary.BigEndian.AppendUint64(nil, uint64(due.UnixMilli()))
	return tx.Bucket(expiryBucket).Put(append(k, key...), bucket)
}

func (s *Store) sweeper(every time.Duration) {
	defer s.running.Done()
	tick := time.NewTicker(every)
	defer tick.Stop()
	for {
		select {
		case <-tick.C:
			ctx, cancel := context.WithTimeout(context.Background(), every)
			_, _ = s.Sweep(ctx) // what is left waits for the next; reads never show it
			cancel()
		case <-s.closing:
			return
		}
	}
}

// Sweep removes what has expired, page by page, and says how many things it
// removed. Reads never show expired things; sweeping only gives back room.
func (s *Store) Sweep(ctx context.Context) (int, error) {
	total := 0
	for {
		var seen, removed int
		var gone []string
		err := s.commit(ctx, func(tx *bolt.Tx) (err error) {
			seen, removed, gone, err = s.page(tx)
			return err
		})
		total += removed
		for _, key := range s.watchers.Keys() {
			if slices.Contains(gone, store.SessionKey(key)) {
				s.watchers.Gone(key)
			}
		}
		if err != nil || seen < sweepPage {
			return total, err
		}
	}
}

// page handles the notes that are due, at most sweepPage of them.
func (s *Store) page(tx *bolt.Tx) (seen, removed int, gone []string, err error) {
	now := s.now()
	type note struct{ at, bucket []byte }
	var due []note
	c := tx.Bucket(expiryBucket).Cursor()
	for k, v := c.First(); k != nil && len(due) < sweepPage && !until(k).After(now); k, v = c.Next() {
		due = append(due, note{bytes.Clone(k), bytes.Clone(v)})
	}
	for _, n := range due {
		key := n.at[8:]
		next := expiryOf(tx, n.bucket, key)
		err = errors.Join(err, tx.Bucket(expiryBucket).Delete(n.at))
		switch {
		case next.After(now): // it slid, or was put again
			err = errors.Join(err, expire(tx, next, n.bucket, string(key)))
		case next.IsZero(): // deleted already
		case bytes.Equal(n.bucket, stateBucket):
			removed++
			gone = append(gone, string(key))
			err = errors.Join(err, erase(tx, string(key)))
		default:
			removed++
			err = errors.Join(err, tx.Bucket(n.bucket).Delete(key))
		}
	}
	return len(due), removed, gone, err
}

// expiryOf is when a thing truly expires; zero when it is not there.
func expiryOf(tx *bolt.Tx, bucket, key []byte) time.Time {
	raw := tx.Bucket(bucket).Get(key)
	if bytes.Equal(bucket, stateBucket) || bytes.Equal(bucket, goneBucket) {
		st, ok := decodeState(raw)
		if !ok {
			return time.Time{}
		}
		return st.expires
	}
	if len(raw) < 8 {
		return time.Time{}
	}
	return until(raw)
}
