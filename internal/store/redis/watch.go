package redis

import (
	"context"
	"time"

	"daybreak/internal/store"

	goredis "github.com/redis/go-redis/v9"
)

const (
	pollEvery = time.Second
	pollMost  = 1000 // sessions looked at in one poll
)

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
	there, err := s.look(ctx, key)
	if err == nil && !there {
		err = store.Gone(key.ID)
	}
	if err != nil {
		cancel()
		return nil, err
	}
	context.AfterFunc(ctx, cancel)
	return next, nil
}

// look reads a session's head and tells its watchers.
func (s *Store) look(ctx context.Context, key store.Key) (there bool, err error) {
	fields, err := s.client.HMGet(ctx, store.SessionKey(key), "r", "x").Result()
	if err != nil {
		return false, s.judge(err)
	}
	return s.tell(key, fields)
}

func (s *Store) tell(key store.Key, fields []any) (there bool, err error) {
	revision, _, there := s.stands(fields)
	if !there {
		return false, nil
	}
	head, err := store.ParseRevision(revision)
	if err != nil {
		return false, err
	}
	s.watchers.Moved(key, head)
	return true, nil
}

// listen keeps one subscription for all watched sessions, and a poll that
// catches what it missed: a message sent while a connection was broken, an
// expiry that nobody announces.
func (s *Store) listen() {
	ctx, stop := context.WithCancel(context.Background())
	s.stop = stop
	changes := s.watchers.Changes()
	sub := s.client.Subscribe(ctx)
	messages := sub.Channel()
	s.running.Go(func() {
		defer sub.Close()
		tick := time.NewTicker(pollEvery)
		defer tick.Stop()
		named := map[string]store.Key{} // channels subscribed to
		next := 0
		for {
			select {
			case <-ctx.Done():
				return
			case <-changes:
				s.follow(ctx, sub, named)
			case m, open := <-messages:
				if open {
					s.heard(named[m.Channel], m.Payload)
				}
			case <-tick.C:
				next = s.poll(ctx, next)
			}
		}
	})
}

// follow subscribes to sessions that began to be watched and leaves the others.
func (s *Store) follow(ctx context.Context, sub *goredis.PubSub, named map[string]store.Key) {
	for _, key := range s.watchers.TakeChanged() {
		name := channel(key)
		_, follows := named[name]
		switch watched := s.watchers.Watching(key); {
		case watched && !follows:
			named[name] = key
			_ = sub.Subscribe(ctx, name) // the poll hears meanwhile; the client subscribes anew when it connects
		case !watched && follows:
			delete(named, name)
			_ = sub.Unsubscribe(ctx, name) // an unwanted message finds no watcher
		}
	}
}

func (s *Store) heard(key store.Key, payload string) {
	if payload == "" {
		s.watchers.Gone(key)
		return
	}
	if head, err := store.ParseRevision(payload); err == nil {
		s.watchers.Moved(key, head)
	}
}

// poll looks at some of the watched sessions, beginning where it left off.
func (s *Store) poll(ctx context.Context, from int) (next int) {
	keys := s.watchers.Keys()
	if from >= len(keys) {
		from = 0
	}
	keys = keys[from:min(from+pollMost, len(keys))]
	if len(keys) == 0 {
		return 0
	}
	ctx, cancel := context.WithTimeout(ctx, pollEvery)
	defer cancel()
	found := make([]*goredis.SliceCmd, len(keys))
	_, err := s.client.Pipelined(ctx, func(p goredis.Pipeliner) error {
		for i, key := range keys {
			found[i] = p.HMGet(ctx, store.SessionKey(key), "r", "x")
		}
		return nil
	})
	if err != nil {
		return from // the server is away: the same ones again
	}
	for i, key := range keys {
		if there, err := s.tell(key, found[i].Val()); err == nil && !there {
			s.watchers.Gone(key)
		}
	}
	return from + len(keys)
}
