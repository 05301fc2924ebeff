package storetest

import (
	"context"
	"crypto/sha256"
	"fmt"
	"sync/atomic"
	"testing"
	"time"

	"daybreak/internal/fault"
	"daybreak/internal/store"

	"github.com/stretchr/testify/require"
)

// Settings are what the suite asks of the store it opens.
type Settings struct {
	Now   func() time.Time
	Lives store.Lives
}

// Opened is an open store. Again closes it and opens what it kept.
type Opened struct {
	Store store.Store
	Again func() store.Store
}

// Open opens a fresh store; it registers its own cleaning up.
type Open func(t *testing.T, s Settings) Opened

// Run runs the whole suite.
func Run(t *testing.T, open Open) {
	for _, c := range []struct {
		name string
		test func(t *testing.T, b *bench)
	}{
		{"a session is created once", createdOnce},
		{"appends chain in order", appendsChain},
		{"an append is judged by request, then base", appendJudged},
		{"a deleted session stays deleted", deleted},
		{"expiry slides with every append", slides},
		{"racing appends are all there, once", racing},
		{"one request raced is one entry", oneRequestRaced},
		{"a session is full at its limit", fullSession},
		{"quotes are put once and kept", quotes},
		{"books lie by content hash", books},
		{"replies are remembered", replies},
		{"another shop's things are absent", foreign},
		{"watchers hear of every move", watch},
		{"watches end", watchEnds},
		{"names and sizes are checked", refused},
		{"all survives reopening", reopened},
		{"a random walk agrees with a plain model", walk},
		{"a closed store says so", closed},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := &bench{open: open, ctx: t.Context()}
			b.clock.Store(time.Now().UnixMilli())
			b.Opened = open(t, Settings{Now: b.now})
			c.test(t, b)
		})
	}
}

// bench is what each test stands on.
type bench struct {
	Opened
	open  Open
	ctx   context.Context
	clock atomic.Int64 // milliseconds
}

func (b *bench) now() time.Time { return time.UnixMilli(b.clock.Load()).UTC() }

func (b *bench) pass(d time.Duration) { b.clock.Add(d.Milliseconds()) }

func request(method, id, body string) store.Request {
	return store.Request{Method: method, ID: id, Body: sha256.Sum256([]byte(body))}
}

func fresh(id string) store.NewSession {
	return store.NewSession{Key: store.Key{Shop: "alder", ID: id}, Request: request("CreateSession", "r-"+id, "b"), Header: []byte("header of " + id)}
}

// begin creates a session and returns it.
func (b *bench) begin(t require.TestingT, id string) store.Session {
	s, err := b.Store.CreateSession(b.ctx, fresh(id))
	require.NoError(t, err)
	return s
}

// answer appends at a base.
func (b *bench) answer(key store.Key, base store.Revision, n int) (store.Appended, error) {
	return b.Store.Append(b.ctx, store.Append{Key: key, Base: base,
		Request: request("Answer", fmt.Sprintf("a-%d", n), fmt.Sprint(n)), Record: []byte(fmt.Sprintf("answer %d", n))})
}

func kind(t require.TestingT, err error, k fault.Kind, reason string) *fault.Fault {
	require.ErrorIs(t, err, &fault.Fault{Kind: k, Reason: reason})
	f, _ := fault.As(err)
	return f
}

func absent(t require.TestingT, err error) { kind(t, err, fault.KindNotFound, "NOT_FOUND") }

const day = 24 * time.Hour
