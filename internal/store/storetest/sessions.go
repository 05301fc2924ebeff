package storetest

import (
	"errors"
	"fmt"
	"sync"
	"testing"
	"time"

	"daybreak/internal/fault"
	"daybreak/internal/store"

	"github.com/stretchr/testify/require"
)

func createdOnce(t *testing.T, b *bench) {
	first := b.begin(t, "one")
	require.False(t, first.Repeated)
	require.Equal(t, store.First(fresh("one")), first.Head)
	require.Equal(t, []byte("header of one"), first.Header)
	require.Equal(t, b.now(), first.Created)
	require.Equal(t, b.now().Add(14*day), first.Expires)
	require.Empty(t, first.Log)

	again := b.begin(t, "one")
	require.True(t, again.Repeated)
	require.Equal(t, first.Head, again.Head)

	other := fresh("one")
	other.Request = request("CreateSession", "r-one", "another body")
	_, err := b.Store.CreateSession(b.ctx, other)
	kind(t, err, fault.KindConflict, "REQUEST_ID_REUSED")

	read, err := b.Store.Session(b.ctx, first.Key)
	require.NoError(t, err)
	require.Equal(t, first, read)
	_, err = b.Store.Session(b.ctx, store.Key{Shop: "alder", ID: "none"})
	absent(t, err)
}

func appendsChain(t *testing.T, b *bench) {
	s := b.begin(t, "chain")
	head := s.Head
	for n := range 20 {
		b.pass(time.Second)
		got, err := b.answer(s.Key, head, n)
		require.NoError(t, err)
		require.False(t, got.Repeated)
		require.Equal(t, n+1, got.Revision.Number)
		require.Equal(t, b.now().Add(14*day), got.Expires)
		head = got.Revision
	}
	read, err := b.Store.Session(b.ctx, s.Key)
	require.NoError(t, err)
	require.Equal(t, head, read.Head)
	require.Len(t, read.Log, 20)
	base := s.Head
	for n, e := range read.Log {
		require.Equal(t, fmt.Sprintf("answer %d", n), string(e.Record))
		require.Equal(t, request("Answer", fmt.Sprintf("a-%d", n), fmt.Sprint(n)), e.Request)
		require.Equal(t, store.Append{Key: s.Key, Base: base, Record: e.Record}.Next(), e.Revision)
		require.Equal(t, s.Created.Add(time.Duration(n+1)*time.Second), e.At)
		base = e.Revision
	}
}

func appendJudged(t *testing.T, b *bench) {
	s := b.begin(t, "judged")
	one, err := b.answer(s.Key, s.Head, 1)
	require.NoError(t, err)
	two, err := b.answer(s.Key, one.Revision, 2)
	require.NoError(t, err)

	// The same request again is the same answer, whatever base it names now.
	for _, base := range []store.Revision{s.Head, two.Revision} {
		again, err := b.answer(s.Key, base, 1)
		require.NoError(t, err)
		require.True(t, again.Repeated)
		require.Equal(t, one.Revision, again.Revision)
	}
	// The id for another body is refused before the base is looked at.
	_, err = b.Store.Append(b.ctx, store.Append{Key: s.Key, Base: s.Head, Request: request("Answer", "a-1", "other"), Record: []byte("x")})
	kind(t, err, fault.KindConflict, "REQUEST_ID_REUSED")
	// The same id of another method is another request.
	undo, err := b.Store.Append(b.ctx, store.Append{Key: s.Key, Base: two.Revision, Request: request("Undo", "a-1", "1"), Record: []byte("u")})
	require.NoError(t, err)
	require.Equal(t, 3, undo.Revision.Number)
	// A stale base is told the head, and leaves the id free.
	_, err = b.answer(s.Key, one.Revision, 9)
	require.Equal(t, undo.Revision.String(), kind(t, err, fault.KindConflict, "STALE_REVISION").Current)
	_, err = b.answer(s.Key, undo.Revision, 9)
	require.NoError(t, err)
	// The right number with another digest is stale too.
	forged := store.Revision{Number: 4, Digest: [4]byte{1, 2, 3, 4}}
	_, err = b.answer(s.Key, forged, 10)
	kind(t, err, fault.KindConflict, "STALE_REVISION")
	_, err = b.answer(store.Key{Shop: "alder", ID: "none"}, s.Head, 1)
	absent(t, err)
}

func deleted(t *testing.T, b *bench) {
	s := b.begin(t, "deleted")
	_, err := b.answer(s.Key, s.Head, 1)
	require.NoError(t, err)
	require.NoError(t, b.Store.DeleteSession(b.ctx, s.Key))
	_, err = b.Store.Session(b.ctx, s.Key)
	absent(t, err)
	_, err = b.answer(s.Key, s.Head, 1)
	absent(t, err)
	_, err = b.Store.CreateSession(b.ctx, fresh("deleted"))
	absent(t, err)
	require.NoError(t, b.Store.DeleteSession(b.ctx, s.Key), "deleting again while the tombstone stands")
	b.pass(25 * time.Hour)
	absent(t, b.Store.DeleteSession(b.ctx, s.Key))
	again := b.begin(t, "deleted")
	require.Empty(t, again.Log)
	require.False(t, again.Repeated)
	absent(t, b.Store.DeleteSession(b.ctx, store.Key{Shop: "alder", ID: "never"}))
}

func slides(t *testing.T, b *bench) {
	s := b.begin(t, "slides")
	b.pass(13 * day)
	one, err := b.answer(s.Key, s.Head, 1)
	require.NoError(t, err)
	b.pass(13 * day)
	again, err := b.answer(s.Key, s.Head, 1)
	require.NoError(t, err)
	require.True(t, again.Repeated, "a repeated request slides it too")
	b.pass(13 * day)
	read, err := b.Store.Session(b.ctx, s.Key)
	require.NoError(t, err)
	require.Equal(t, one.Revision, read.Head)
	b.pass(25 * time.Hour)
	_, err = b.Store.Session(b.ctx, s.Key)
	absent(t, err)
	_, err = b.answer(s.Key, one.Revision, 2)
	absent(t, err)
	absent(t, b.Store.DeleteSession(b.ctx, s.Key))
	require.Empty(t, b.begin(t, "slides").Log, "nothing of an expired session comes back")
}

func racing(t *testing.T, b *bench) {
	const writers, each = 8, 25
	s := b.begin(t, "racing")
	var all sync.WaitGroup
	failed := make(chan error, writers)
	for w := range writers {
		all.Go(func() {
			head := s.Head
			for i := 0; i < each; {
				got, err := b.answer(s.Key, head, w*each+i)
				var f *fault.Fault
				switch {
				case err == nil:
					head = got.Revision
					i++
				case errors.As(err, &f) && f.Reason == "STALE_REVISION":
					if head, err = store.ParseRevision(f.Current); err != nil {
						failed <- err
						return
					}
				default:
					failed <- err
					return
				}
			}
		})
	}
	all.Wait()
	close(failed)
	require.NoError(t, <-failed)
	read, err := b.Store.Session(b.ctx, s.Key)
	require.NoError(t, err)
	require.Len(t, read.Log, writers*each)
	seen := map[string]bool{}
	for i, e := range read.Log {
		require.Equal(t, i+1, e.Revision.Number)
		require.False(t, seen[e.Request.ID])
		seen[e.Request.ID] = true
	}
}

func oneRequestRaced(t *testing.T, b *bench) {
	s := b.begin(t, "raced")
	var all sync.WaitGroup
	var mu sync.Mutex
	fresh, faults := 0, []error{}
	for range 16 {
		all.Go(func() {
			got, err := b.answer(s.Key, s.Head, 1)
			mu.Lock()
			defer mu.Unlock()
			if err != nil {
				faults = append(faults, err)
			} else if !got.Repeated {
				fresh++
			}
		})
	}
	all.Wait()
	require.Empty(t, faults)
	require.Equal(t, 1, fresh)
	read, err := b.Store.Session(b.ctx, s.Key)
	require.NoError(t, err)
	require.Len(t, read.Log, 1)
}

func fullSession(t *testing.T, b *bench) {
	s := b.begin(t, "full")
	head := s.Head
	for n := range store.MaxEntries {
		got, err := b.answer(s.Key, head, n)
		require.NoError(t, err)
		head = got.Revision
	}
	_, err := b.answer(s.Key, head, store.MaxEntries)
	kind(t, err, fault.KindExhausted, "SESSION_FULL")
}
