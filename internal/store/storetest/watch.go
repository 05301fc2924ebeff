package storetest

import (
	"context"
	"testing"
	"time"

	"daybreak/internal/store"

	"github.com/stretchr/testify/require"
)

// within is how soon a watcher hears.
const within = time.Second

func hear(t *testing.T, heads <-chan store.Revision) (store.Revision, bool) {
	t.Helper()
	select {
	case r, open := <-heads:
		return r, open
	case <-time.After(within):
		require.FailNow(t, "a watcher heard nothing within a second")
		return store.Revision{}, false
	}
}

func watch(t *testing.T, b *bench) {
	s := b.begin(t, "watched")
	heads, err := b.Store.Watch(b.ctx, s.Key)
	require.NoError(t, err)
	got, open := hear(t, heads)
	require.True(t, open)
	require.Equal(t, s.Head, got, "the head comes at once")
	head := s.Head
	for n := range 5 {
		appended, err := b.answer(s.Key, head, n)
		require.NoError(t, err)
		head = appended.Revision
		got, open = hear(t, heads)
		require.True(t, open)
		require.Equal(t, head, got)
	}
	// Who does not read holds nobody up, and then hears the newest.
	for n := 5; n < 50; n++ {
		appended, err := b.answer(s.Key, head, n)
		require.NoError(t, err)
		head = appended.Revision
	}
	for last := 5; got != head; last = got.Number {
		got, open = hear(t, heads)
		require.True(t, open)
		require.Greater(t, got.Number, last, "watchers never go back")
	}
	_, err = b.Store.Watch(b.ctx, store.Key{Shop: "alder", ID: "none"})
	absent(t, err)
}

func watchEnds(t *testing.T, b *bench) {
	s := b.begin(t, "ends")
	ctx, cancel := context.WithCancel(b.ctx)
	left, err := b.Store.Watch(ctx, s.Key)
	require.NoError(t, err)
	stays, err := b.Store.Watch(b.ctx, s.Key)
	require.NoError(t, err)
	hear(t, left)
	hear(t, stays)
	cancel()
	_, open := hear(t, left)
	require.False(t, open, "a watch ends with its context")
	appended, err := b.answer(s.Key, s.Head, 1)
	require.NoError(t, err)
	got, open := hear(t, stays)
	require.True(t, open)
	require.Equal(t, appended.Revision, got)
	require.NoError(t, b.Store.DeleteSession(b.ctx, s.Key))
	_, open = hear(t, stays)
	require.False(t, open, "a watch ends with its session")
}
