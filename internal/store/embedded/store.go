package embedded

import (
	"context"
	"errors"
	"path/filepath"
	"sync"
	"sync/atomic"
	"time"

	"daybreak/internal/fault"
	"daybreak/internal/store"

	bolt "go.etcd.io/bbolt"
	bolterrors "go.etcd.io/bbolt/errors"
)

// Store is a [store.Store] in one file.
type Store struct {
	db       *bolt.DB
	now      func() time.Time
	lives    store.Lives
	writes   chan *write
	closing  chan struct{}
	stopped  chan struct{} // the writer has ended
	once     sync.Once
	running  sync.WaitGroup
	failed   atomic.Pointer[error] // a flush that failed; no write after it
	watchers store.Watchers
	closeErr error
}

var _ store.Store = (*Store)(nil)

func start(c Config, db *bolt.DB) *Store {
	s := &Store{
		db: db, now: c.Now, lives: c.Lives.OrDefault(),
		writes: make(chan *write, largestGroup), closing: make(chan struct{}),
		stopped: make(chan struct{}),
	}
	s.running.Add(2)
	go s.writer()
	go s.sweeper(c.Sweep)
	return s
}

// view reads in one transaction.
func (s *Store) view(ctx context.Context, read func(tx *bolt.Tx) error) error {
	if err := ctx.Err(); err != nil {
		return store.Away(err)
	}
	err := s.db.View(read)
	switch _, expected := fault.As(err); {
	case errors.Is(err, bolterrors.ErrDatabaseNotOpen):
		return store.Closed()
	case err != nil && !expected:
		return store.Away(err)
	}
	return err
}

// Ready reports a store whose file takes no more writes.
func (s *Store) Ready(ctx context.Context) error {
	if err := s.broken(); err != nil {
		return err
	}
	return s.view(ctx, func(*bolt.Tx) error { return nil })
}

// Promise says what an acknowledged write survives.
func (s *Store) Promise() string {
	return "embedded file " + filepath.Base(s.db.Path()) + ", synced on every commit: an acknowledged answer is on disk"
}

// Watch sends the head at once and whenever it moves.
func (s *Store) Watch(ctx context.Context, key store.Key) (<-chan store.Revision, error) {
	if err := key.Check(); err != nil {
		return nil, err
	}
	ctx, cancel := context.WithCancel(ctx)
	next, err := s.watchers.Add(ctx, key)
	if err != nil {
		cancel()
		return nil, err
	}
	err = s.view(ctx, func(tx *bolt.Tx) error {
		st, there := s.state(tx, store.SessionKey(key))
		if !there {
			return store.Gone(key.ID)
		}
		s.watchers.Moved(key, st.head)
		return nil
	})
	if err != nil {
		cancel()
		return nil, err
	}
	context.AfterFunc(ctx, cancel)
	return next, nil
}

// Close ends all watches, commits what was handed in and releases the file.
// Closing again does nothing.
func (s *Store) Close() error {
	s.once.Do(func() {
		close(s.closing)
		s.watchers.Close()
		s.running.Wait()
		path := s.db.Path()
		s.closeErr = errors.Join(s.db.Close(), removed(path+".pid"))
	})
	return s.closeErr
}
