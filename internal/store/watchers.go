package store

import (
	"context"
	"sync"
)

// Watchers hands the newest head of each session to those who watch it. Only
// one revision waits for each watcher, and it is the newest, so that a slow
// one costs nothing and delays nobody. The zero value is ready.
type Watchers struct {
	mu      sync.Mutex
	by      map[Key]map[*watcher]struct{}
	changed map[Key]struct{}
	signal  chan struct{}
	closed  bool
}

type watcher struct {
	next chan Revision
	seen int // number of the last head sent; -1 before the first
	stop func() bool
}

// Add begins to watch a session until ctx is done or the session is gone. The
// caller then reads the head and passes it to Moved: adding first and reading
// afterwards misses nothing.
func (w *Watchers) Add(ctx context.Context, key Key) (<-chan Revision, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.closed {
		return nil, Closed()
	}
	one := &watcher{next: make(chan Revision, 1), seen: -1}
	if w.by == nil {
		w.by = map[Key]map[*watcher]struct{}{}
	}
	if w.by[key] == nil {
		w.by[key] = map[*watcher]struct{}{}
		w.note(key)
	}
	w.by[key][one] = struct{}{}
	one.stop = context.AfterFunc(ctx, func() { w.drop(key, one) })
	return one.next, nil
}

// Moved tells a session's watchers its head. An older one than they have seen
// is ignored: watchers never go back.
func (w *Watchers) Moved(key Key, head Revision) {
	w.mu.Lock()
	defer w.mu.Unlock()
	for one := range w.by[key] {
		if head.Number <= one.seen {
			continue
		}
		one.seen = head.Number
		select {
		case <-one.next: // nobody took the older one
		default:
		}
		one.next <- head
	}
}

// Gone ends the watches of a session.
func (w *Watchers) Gone(key Key) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.end(key)
}

// Close ends all watches and lets no more begin.
func (w *Watchers) Close() {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.closed = true
	for key := range w.by {
		w.end(key)
	}
}

// Watching reports whether anybody watches a session.
func (w *Watchers) Watching(key Key) bool {
	w.mu.Lock()
	defer w.mu.Unlock()
	return len(w.by[key]) > 0
}

// Keys returns the sessions watched now.
func (w *Watchers) Keys() []Key {
	w.mu.Lock()
	defer w.mu.Unlock()
	keys := make([]Key, 0, len(w.by))
	for key := range w.by {
		keys = append(keys, key)
	}
	return keys
}

// Changes signals that sessions began or ceased to be watched; TakeChanged
// then names them. For adapters that subscribe somewhere on watchers' behalf.
func (w *Watchers) Changes() <-chan struct{} {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.signals()
}

// TakeChanged names the sessions whose being watched has changed since it was
// last called.
func (w *Watchers) TakeChanged() []Key {
	w.mu.Lock()
	defer w.mu.Unlock()
	keys := make([]Key, 0, len(w.changed))
	for key := range w.changed {
		keys = append(keys, key)
	}
	clear(w.changed)
	return keys
}

func (w *Watchers) drop(key Key, one *watcher) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if _, still := w.by[key][one]; !still {
		return
	}
	delete(w.by[key], one)
	close(one.next)
	if len(w.by[key]) == 0 {
		delete(w.by, key)
		w.note(key)
	}
}

func (w *Watchers) end(key Key) {
	for one := range w.by[key] {
		one.stop()
		close(one.next)
	}
	if _, there := w.by[key]; there {
		delete(w.by, key)
		w.note(key)
	}
}

func (w *Watchers) note(key Key) {
	if w.signal == nil {
		return // nobody asked for changes
	}
	w.changed[key] = struct{}{}
	select {
	case w.signal <- struct{}{}:
	default:
	}
}

func (w *Watchers) signals() chan struct{} {
	if w.signal == nil {
		w.signal = make(chan struct{}, 1)
		w.changed = map[Key]struct{}{}
	}
	return w.signal
}
