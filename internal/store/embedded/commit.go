package embedded

import (
	"context"
	"errors"
	"io/fs"
	"strings"
	"syscall"

	"daybreak/internal/fault"
	"daybreak/internal/store"

	bolt "go.etcd.io/bbolt"
	bolterrors "go.etcd.io/bbolt/errors"
)

// largestGroup bounds how many writes share a transaction.
const largestGroup = 256

// write is one change waiting to be committed. do checks first and changes
// afterwards, returns a fault before it has changed anything, and may run
// twice: once in its group and once alone.
type write struct {
	do   func(tx *bolt.Tx) error
	err  error
	done chan struct{}
}

// commit hands a change to the writer and waits until it is on disk. When ctx
// ends first the change may or may not come to be.
func (s *Store) commit(ctx context.Context, do func(tx *bolt.Tx) error) error {
	w := &write{do: do, done: make(chan struct{})}
	select {
	case s.writes <- w:
	case <-s.closing:
		return store.Closed()
	case <-ctx.Done():
		return store.Away(ctx.Err())
	}
	select {
	case <-w.done:
		return w.err
	case <-ctx.Done():
		return store.Away(ctx.Err())
	case <-s.stopped: // handed in while the store was closing
	}
	select {
	case <-w.done:
		return w.err
	default:
		return store.Closed()
	}
}

// writer drains waiting writes into one transaction each time.
func (s *Store) writer() {
	defer s.running.Done()
	defer close(s.stopped)
	for {
		select {
		case first := <-s.writes:
			s.group(s.gather(first))
		case <-s.closing:
			s.drain()
			return
		}
	}
}

func (s *Store) gather(first *write) []*write {
	group := append(make([]*write, 0, 16), first)
	for len(group) < largestGroup {
		select {
		case w := <-s.writes:
			group = append(group, w)
		default:
			return group
		}
	}
	return group
}

// drain commits what was handed in before the store was closed.
func (s *Store) drain() {
	for {
		select {
		case w := <-s.writes:
			s.group(s.gather(w))
		default:
			return
		}
	}
}

func (s *Store) group(group []*write) {
	defer func() {
		for _, w := range group {
			close(w.done)
		}
	}()
	if err := s.broken(); err != nil {
		for _, w := range group {
			w.err = err
		}
		return
	}
	if s.update(group...) == nil {
		return
	}
	for _, w := range group {
		w.err = s.update(w)
	}
}

// update runs writes in one transaction. A fault of one is that one's answer
// and no reason to fail the others; anything else fails the transaction.
func (s *Store) update(group ...*write) error {
	err := s.db.Update(func(tx *bolt.Tx) error {
		for _, w := range group {
			w.err = w.do(tx)
			if _, expected := fault.As(w.err); w.err != nil && !expected {
				return w.err
			}
		}
		return nil
	})
	if err == nil {
		if len(group) == 1 {
			return group[0].err
		}
		return nil
	}
	return s.judge(err)
}

// judge turns a failed transaction into a fault, and marks the store broken
// when a flush has failed: the kernel may have dropped the pages it could not
// write, so trying again would acknowledge what is not there.
func (s *Store) judge(err error) error {
	if full(err) {
		return store.NoRoom(err)
	}
	var path *fs.PathError
	if bare := syscall.Errno(0); errors.As(err, &bare) && (!errors.As(err, &path) || path.Op == "sync") {
		s.failed.CompareAndSwap(nil, &err)
	}
	return store.Away(err)
}

func full(err error) bool {
	return errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT) || errors.Is(err, syscall.EFBIG) ||
		errors.Is(err, bolterrors.ErrMaxSizeReached) || strings.Contains(err.Error(), syscall.ENOSPC.Error())
}

func (s *Store) broken() error {
	if cause := s.failed.Load(); cause != nil {
		return store.Away(*cause)
	}
	return nil
}
