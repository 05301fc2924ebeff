package embedded

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"syscall"
	"testing"

	"daybreak/internal/fault"
	"daybreak/internal/store"

	"github.com/stretchr/testify/require"
	bolt "go.etcd.io/bbolt"
)

// A flush that fails is final: reads go on, and no later write is acknowledged.
// A write that fails for want of room, or otherwise, is not.
func TestFailedFlushIsFinal(t *testing.T) {
	for _, c := range []struct {
		err   error
		kind  fault.Kind
		final bool
	}{
		{syscall.EIO, fault.KindUnavailable, true}, // fdatasync gives the bare number
		{&fs.PathError{Op: "sync", Path: "f", Err: syscall.EIO}, fault.KindUnavailable, true},
		{&fs.PathError{Op: "write", Path: "f", Err: syscall.EIO}, fault.KindUnavailable, false},
		{&fs.PathError{Op: "write", Path: "f", Err: syscall.ENOSPC}, fault.KindExhausted, false},
		{fmt.Errorf("file resize error: %s", syscall.ENOSPC), fault.KindExhausted, false},
		{errors.New("anything else"), fault.KindUnavailable, false},
	} {
		s, err := Open(Config{Dir: t.TempDir()})
		require.NoError(t, err)
		n := store.NewSession{Key: store.Key{Shop: "alder", ID: "s1"}, Request: store.Request{Method: "CreateSession", ID: "1"}}
		made, err := s.CreateSession(context.Background(), n)
		require.NoError(t, err)

		require.ErrorIs(t, s.judge(c.err), &fault.Fault{Kind: c.kind})
		a := store.Append{Key: n.Key, Base: made.Head, Request: store.Request{Method: "Answer", ID: "1"}}
		_, err = s.Append(context.Background(), a)
		require.Equal(t, c.final, err != nil, "%v", c.err)
		require.Equal(t, c.final, s.Ready(context.Background()) != nil)
		_, err = s.Session(context.Background(), n.Key)
		require.NoError(t, err)
		require.NoError(t, s.Close())
	}
}

// One write that fails does not fail the others of its group.
func TestGroupIsTriedSinglyWhenItFails(t *testing.T) {
	s, err := Open(Config{Dir: t.TempDir()})
	require.NoError(t, err)
	defer s.Close()
	boom := errors.New("boom")
	group := []*write{
		{do: func(tx *bolt.Tx) error { return tx.Bucket(metaBucket).Put([]byte("a"), []byte("1")) }, done: make(chan struct{})},
		{do: func(*bolt.Tx) error { return boom }, done: make(chan struct{})},
		{do: func(tx *bolt.Tx) error { return tx.Bucket(metaBucket).Put([]byte("b"), []byte("1")) }, done: make(chan struct{})},
		{do: func(*bolt.Tx) error { return store.Gone("x") }, done: make(chan struct{})},
	}
	s.group(group)
	require.NoError(t, group[0].err)
	require.ErrorIs(t, group[1].err, boom)
	require.NoError(t, group[2].err)
	require.ErrorIs(t, group[3].err, &fault.Fault{Kind: fault.KindNotFound})
	require.NoError(t, s.db.View(func(tx *bolt.Tx) error {
		require.NotNil(t, tx.Bucket(metaBucket).Get([]byte("a")))
		require.NotNil(t, tx.Bucket(metaBucket).Get([]byte("b")))
		return nil
	}))
}
