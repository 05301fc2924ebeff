package storetest

import (
	"bytes"
	"context"
	"crypto/sha256"
	"strings"
	"testing"
	"time"

	"daybreak/internal/fault"
	"daybreak/internal/store"

	"github.com/stretchr/testify/require"
)

func quote(b *bench, session, body string) store.Quote {
	return store.Quote{
		Key:     store.Key{Shop: "alder", ID: store.QuoteID(session, sha256.Sum256([]byte(session)))},
		Session: session, Request: request("CreateQuote", "q-"+session, body),
		Revision: store.Revision{Number: 3, Digest: [4]byte{9}}, Issued: b.now(), Record: []byte("a quote " + body),
	}
}

func quotes(t *testing.T, b *bench) {
	q := quote(b, "s1", "first")
	put, err := b.Store.PutQuote(b.ctx, q)
	require.NoError(t, err)
	require.Equal(t, q, put)
	got, err := b.Store.Quote(b.ctx, q.Key)
	require.NoError(t, err)
	require.Equal(t, q, got)

	b.pass(time.Hour)
	later := quote(b, "s1", "first")
	later.Record = []byte("made again, a little later")
	again, err := b.Store.PutQuote(b.ctx, later)
	require.NoError(t, err)
	require.True(t, again.Repeated)
	require.Equal(t, q.Record, again.Record, "the first one stays")
	require.Equal(t, q.Issued, again.Issued)
	_, err = b.Store.PutQuote(b.ctx, quote(b, "s1", "other"))
	kind(t, err, fault.KindConflict, "REQUEST_ID_REUSED")

	b.begin(t, "s1")
	require.NoError(t, b.Store.DeleteSession(b.ctx, store.Key{Shop: "alder", ID: "s1"}))
	b.pass(398 * day)
	_, err = b.Store.Quote(b.ctx, q.Key)
	require.NoError(t, err, "a quote outlives its session")
	b.pass(2 * day)
	_, err = b.Store.Quote(b.ctx, q.Key)
	absent(t, err)
	_, err = b.Store.Quote(b.ctx, store.Key{Shop: "alder", ID: "not-a-quote"})
	absent(t, err)
}

func books(t *testing.T, b *bench) {
	book := bytes.Repeat([]byte("a price book\n"), 5000)
	hash, err := b.Store.PutBook(b.ctx, "alder", book)
	require.NoError(t, err)
	require.Equal(t, store.BookHash(book), hash)
	got, err := b.Store.Book(b.ctx, "alder", hash)
	require.NoError(t, err)
	require.Equal(t, book, got)
	_, err = b.Store.Book(b.ctx, "alder", strings.Repeat("0", 64))
	absent(t, err)
	b.pass(700 * day)
	_, err = b.Store.PutBook(b.ctx, "alder", book)
	require.NoError(t, err)
	b.pass(700 * day)
	_, err = b.Store.Book(b.ctx, "alder", hash)
	require.NoError(t, err, "putting it again renews it")
	b.pass(101 * day)
	_, err = b.Store.Book(b.ctx, "alder", hash)
	absent(t, err)
	empty, err := b.Store.PutBook(b.ctx, "alder", nil)
	require.NoError(t, err)
	got, err = b.Store.Book(b.ctx, "alder", empty)
	require.NoError(t, err)
	require.Empty(t, got)
}

func replies(t *testing.T, b *bench) {
	r := request("Publish", "p-1", "body")
	_, err := b.Store.Recall(b.ctx, "alder", r)
	absent(t, err)
	first, err := b.Store.Remember(b.ctx, "alder", r, []byte("reply"))
	require.NoError(t, err)
	require.False(t, first.Repeated)
	again, err := b.Store.Remember(b.ctx, "alder", r, []byte("another reply"))
	require.NoError(t, err)
	require.True(t, again.Repeated)
	require.Equal(t, []byte("reply"), again.Reply)
	got, err := b.Store.Recall(b.ctx, "alder", r)
	require.NoError(t, err)
	require.Equal(t, []byte("reply"), got.Reply)
	require.Equal(t, b.now(), got.At)
	other := request("Publish", "p-1", "other")
	_, err = b.Store.Recall(b.ctx, "alder", other)
	kind(t, err, fault.KindConflict, "REQUEST_ID_REUSED")
	_, err = b.Store.Remember(b.ctx, "alder", other, nil)
	kind(t, err, fault.KindConflict, "REQUEST_ID_REUSED")
	_, err = b.Store.Recall(b.ctx, "alder", request("Withdraw", "p-1", "body"))
	absent(t, err)
	b.pass(25 * time.Hour)
	_, err = b.Store.Recall(b.ctx, "alder", r)
	absent(t, err)
	_, err = b.Store.Remember(b.ctx, "alder", other, []byte("new"))
	require.NoError(t, err)
}

func foreign(t *testing.T, b *bench) {
	s := b.begin(t, "mine")
	q := quote(b, "mine", "first")
	_, err := b.Store.PutQuote(b.ctx, q)
	require.NoError(t, err)
	hash, err := b.Store.PutBook(b.ctx, "alder", []byte("book"))
	require.NoError(t, err)
	r := request("Publish", "p-1", "body")
	_, err = b.Store.Remember(b.ctx, "alder", r, []byte("reply"))
	require.NoError(t, err)

	theirs := store.Key{Shop: "other", ID: "mine"}
	_, err = b.Store.Session(b.ctx, theirs)
	absent(t, err)
	foreign := err
	_, err = b.Store.Session(b.ctx, store.Key{Shop: "alder", ID: "mind"})
	require.Equal(t, strings.ReplaceAll(err.Error(), "mind", "mine"), foreign.Error(), "foreign and absent read alike")
	_, err = b.answer(theirs, s.Head, 1)
	absent(t, err)
	absent(t, b.Store.DeleteSession(b.ctx, theirs))
	_, err = b.Store.Watch(b.ctx, theirs)
	absent(t, err)
	_, err = b.Store.Quote(b.ctx, store.Key{Shop: "other", ID: q.Key.ID})
	absent(t, err)
	_, err = b.Store.Book(b.ctx, "other", hash)
	absent(t, err)
	_, err = b.Store.Recall(b.ctx, "other", r)
	absent(t, err)
	n := fresh("mine")
	n.Key.Shop = "other"
	own, err := b.Store.CreateSession(b.ctx, n)
	require.NoError(t, err)
	require.False(t, own.Repeated, "the same id of two shops is two sessions")
}

func refused(t *testing.T, b *bench) {
	s := b.begin(t, "checked")
	field := func(err error, name string) {
		t.Helper()
		require.Equal(t, name, kind(t, err, fault.KindInvalid, "INVALID_FIELD").Field)
	}
	for _, bad := range []string{"", "a b", "a:b", "ünï", "{s0001}", strings.Repeat("x", 65)} {
		_, err := b.Store.Session(b.ctx, store.Key{Shop: "alder", ID: bad})
		field(err, "id")
		_, err = b.Store.PutBook(b.ctx, bad, nil)
		field(err, "shop")
		_, err = b.Store.Recall(b.ctx, "alder", store.Request{Method: "Answer", ID: bad})
		field(err, "request_id")
		_, err = b.Store.Watch(b.ctx, store.Key{Shop: bad, ID: "x"})
		field(err, "shop")
		field(b.Store.DeleteSession(b.ctx, store.Key{Shop: "alder", ID: bad}), "id")
	}
	big := make([]byte, store.MaxRecord+1)
	_, err := b.Store.Append(b.ctx, store.Append{Key: s.Key, Base: s.Head, Request: request("Answer", "a", ""), Record: big})
	field(err, "record")
	n := fresh("big")
	n.Header = big
	_, err = b.Store.CreateSession(b.ctx, n)
	field(err, "header")
	q := quote(b, "checked", "x")
	q.Record = make([]byte, store.MaxQuote+1)
	_, err = b.Store.PutQuote(b.ctx, q)
	field(err, "record")
	q = quote(b, "checked", "x")
	q.Key.ID = "zzz-no-shard"
	_, err = b.Store.PutQuote(b.ctx, q)
	field(err, "id")
	q = quote(b, "checked", "x")
	q.Issued = time.Time{}
	_, err = b.Store.PutQuote(b.ctx, q)
	field(err, "issued")
	read, err := b.Store.Session(b.ctx, s.Key)
	require.NoError(t, err)
	require.Empty(t, read.Log, "nothing was half applied")
	// The largest allowed goes through whole.
	_, err = b.Store.Append(b.ctx, store.Append{Key: s.Key, Base: s.Head, Request: request("Answer", "a", ""), Record: big[1:]})
	require.NoError(t, err)
}

func reopened(t *testing.T, b *bench) {
	s := b.begin(t, "kept")
	one, err := b.answer(s.Key, s.Head, 1)
	require.NoError(t, err)
	q := quote(b, "kept", "first")
	_, err = b.Store.PutQuote(b.ctx, q)
	require.NoError(t, err)
	hash, err := b.Store.PutBook(b.ctx, "alder", []byte("book"))
	require.NoError(t, err)

	b.Store = b.Again()
	require.NoError(t, b.Store.Ready(b.ctx))
	require.NotEmpty(t, b.Store.Promise())
	read, err := b.Store.Session(b.ctx, s.Key)
	require.NoError(t, err)
	require.Equal(t, one.Revision, read.Head)
	require.Equal(t, one.Expires, read.Expires)
	again, err := b.answer(s.Key, s.Head, 1)
	require.NoError(t, err)
	require.True(t, again.Repeated)
	got, err := b.Store.Quote(b.ctx, q.Key)
	require.NoError(t, err)
	require.Equal(t, q, got)
	_, err = b.Store.Book(b.ctx, "alder", hash)
	require.NoError(t, err)
}

func closed(t *testing.T, b *bench) {
	s := b.begin(t, "closed")
	heads, err := b.Store.Watch(b.ctx, s.Key)
	require.NoError(t, err)
	require.NoError(t, b.Store.Close())
	require.NoError(t, b.Store.Close(), "closing twice")
	for range heads { // the head, then the end
	}
	_, err = b.Store.Session(b.ctx, s.Key)
	kind(t, err, fault.KindUnavailable, "")
	_, err = b.answer(s.Key, s.Head, 1)
	kind(t, err, fault.KindUnavailable, "")
	_, err = b.Store.Watch(b.ctx, s.Key)
	kind(t, err, fault.KindUnavailable, "")
	require.Error(t, b.Store.Ready(context.WithoutCancel(b.ctx)))
}
