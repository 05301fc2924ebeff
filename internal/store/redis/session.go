package redis

import (
	"context"
	"fmt"
	"strconv"
	"time"

	"daybreak/internal/store"

	goredis "github.com/redis/go-redis/v9"
)

// keys of a session, in the order of the scripts.
func keysOf(k store.Key) []string {
	s := store.SessionKey(k)
	return []string{s, s + ":log", s + ":requests", s + ":gone"}
}

// channel carries the heads of one session to its watchers.
func channel(k store.Key) string { return store.SessionKey(k) + ":moved" }

func millis(t time.Time) string { return strconv.FormatInt(t.UnixMilli(), 10) }

// run runs a script and returns its verdict and what came with it. A server
// that has lost its scripts is given them again.
func (s *Store) run(ctx context.Context, script *goredis.Script, keys []string, args ...any) (verdict, with string, err error) {
	out, err := script.Run(ctx, s.client, keys, args...).StringSlice()
	if err != nil {
		return "", "", s.judge(err)
	}
	if len(out) > 1 {
		with = out[1]
	}
	return out[0], with, nil
}

// CreateSession writes a new session or returns the one made before.
func (s *Store) CreateSession(ctx context.Context, n store.NewSession) (store.Session, error) {
	if err := n.Check(); err != nil {
		return store.Session{}, err
	}
	now := s.now()
	head := store.Head{Created: now, Request: n.Request, Header: n.Header}
	same := n.Request.Name() + ":" + string(n.Request.Body[:])
	verdict, _, err := s.run(ctx, createScript, keysOf(n.Key),
		millis(now), string(head.Encode()), store.First(n).String(), same, millis(now.Add(s.lives.Session)))
	switch {
	case err != nil:
		return store.Session{}, err
	case verdict == "gone":
		return store.Session{}, store.Gone(n.Key.ID)
	case verdict == "other":
		return store.Session{}, store.Reused(n.Request.ID)
	}
	session, err := s.Session(ctx, n.Key)
	session.Repeated = err == nil && verdict == "yours"
	return session, err
}

// Session reads header, head and log. The log is read after the head and tells
// the head anew, so that an append in between shows whole; a log shorter than
// its head was deleted in between. A transaction would be refused by a full
// server, which must go on reading.
func (s *Store) Session(ctx context.Context, key store.Key) (store.Session, error) {
	if err := key.Check(); err != nil {
		return store.Session{}, err
	}
	keys := keysOf(key)
	var fields *goredis.SliceCmd
	var entries *goredis.StringSliceCmd
	var requests *goredis.MapStringStringCmd
	_, err := s.client.Pipelined(ctx, func(p goredis.Pipeliner) error {
		fields = p.HMGet(ctx, keys[0], "r", "x", "v")
		entries = p.LRange(ctx, keys[1], 0, -1)
		requests = p.HGetAll(ctx, keys[2])
		return nil
	})
	if err != nil {
		return store.Session{}, s.judge(err)
	}
	revision, expires, there := s.stands(fields.Val())
	if !there {
		return store.Session{}, store.Gone(key.ID)
	}
	record, _ := fields.Val()[2].(string)
	head, err := store.DecodeHead([]byte(record))
	if err != nil {
		return store.Session{}, err
	}
	out := store.Session{Key: key, Header: head.Header, Created: head.Created, Expires: expires,
		Log: make([]store.Entry, 0, len(entries.Val()))}
	if out.Head, err = store.ParseRevision(revision); err != nil {
		return store.Session{}, err
	}
	for _, raw := range entries.Val() {
		e, err := store.DecodeEntry([]byte(raw))
		if err != nil {
			return store.Session{}, err
		}
		out.Log = append(out.Log, e)
	}
	for name, raw := range requests.Val() {
		d, err := store.DecodeDone([]byte(raw))
		if err != nil {
			return store.Session{}, err
		}
		d.Sign(out.Log, name)
	}
	if len(out.Log) < out.Head.Number {
		return store.Session{}, store.Gone(key.ID)
	}
	if n := len(out.Log); n > 0 {
		out.Head = out.Log[n-1].Revision
	}
	return out, nil
}

// stands reads a session's fields r and x; false when it is absent or expired.
func (s *Store) stands(fields []any) (revision string, expires time.Time, there bool) {
	if len(fields) < 2 {
		return "", time.Time{}, false
	}
	revision, a := fields[0].(string)
	ms, b := fields[1].(string)
	at, err := strconv.ParseInt(ms, 10, 64)
	expires = time.UnixMilli(at).UTC()
	return revision, expires, a && b && err == nil && expires.After(s.now())
}

// Append adds one entry at the head, all of it or nothing.
func (s *Store) Append(ctx context.Context, a store.Append) (store.Appended, error) {
	if err := a.Check(); err != nil {
		return store.Appended{}, err
	}
	now := s.now()
	next := a.Next()
	out := store.Appended{Revision: next, Expires: time.UnixMilli(now.Add(s.lives.Session).UnixMilli()).UTC()}
	entry := store.Entry{Revision: next, At: now, Record: a.Record}
	done := store.Done{Body: a.Request.Body, Revision: next}
	verdict, with, err := s.run(ctx, appendScript, keysOf(a.Key)[:3],
		millis(now), a.Base.String(), next.String(), string(entry.Encode()), a.Request.Name(),
		string(done.Encode()), millis(out.Expires), store.MaxEntries, channel(a.Key))
	switch {
	case err != nil:
		return store.Appended{}, err
	case verdict == "appended":
		return out, nil
	case verdict == "gone":
		return store.Appended{}, store.Gone(a.Key.ID)
	case verdict == "other":
		return store.Appended{}, store.Reused(a.Request.ID)
	case verdict == "full":
		return store.Appended{}, store.Full()
	}
	switch verdict {
	case "stale":
		head, err := store.ParseRevision(with)
		if err != nil {
			return store.Appended{}, err
		}
		return store.Appended{}, store.Stale(a.Base, head)
	case "yours":
		first, err := store.DecodeDone([]byte(with))
		out.Revision, out.Repeated = first.Revision, true
		return out, err
	}
	return store.Appended{}, fmt.Errorf("redis: the append script answers %q", verdict)
}

// DeleteSession removes a session and leaves a tombstone.
func (s *Store) DeleteSession(ctx context.Context, key store.Key) error {
	if err := key.Check(); err != nil {
		return err
	}
	now := s.now()
	verdict, _, err := s.run(ctx, deleteScript, keysOf(key), millis(now), millis(now.Add(s.lives.Tombstone)), channel(key))
	if err == nil && verdict == "absent" {
		return store.Gone(key.ID)
	}
	return err
}
