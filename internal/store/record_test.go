package store_test

import (
	"crypto/sha256"
	"fmt"
	"strings"
	"testing"
	"time"

	"daybreak/internal/fault"
	"daybreak/internal/store"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func Example() {
	session := store.NewSession{Key: store.Key{Shop: "alder", ID: "s1"}, Header: []byte("header")}
	first := store.First(session)
	next := store.Append{Key: session.Key, Base: first, Record: []byte("answer")}.Next()
	fmt.Println(first)
	fmt.Println(next)
	fmt.Println(store.SessionKey(session.Key))
	// Output:
	// 0-8c2d7f6e
	// 1-05c14631
	// {s0188}:alder:session:s1
}

func drawRequest(t *rapid.T) store.Request {
	return store.Request{Method: rapid.String().Draw(t, "method"), ID: rapid.String().Draw(t, "id"),
		Body: sha256.Sum256([]byte(rapid.String().Draw(t, "body")))}
}

func drawRevision(t *rapid.T) store.Revision {
	r := store.Revision{Number: rapid.IntRange(0, 1<<31).Draw(t, "number")}
	copy(r.Digest[:], rapid.SliceOfN(rapid.Byte(), 4, 4).Draw(t, "digest"))
	return r
}

func drawTime(t *rapid.T) time.Time {
	return time.UnixMilli(rapid.Int64Range(0, 1<<42).Draw(t, "ms")).UTC()
}

func TestRecordsReadBackAsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		raw := append([]byte{}, rapid.SliceOf(rapid.Byte()).Draw(t, "raw")...)
		h := store.Head{Created: drawTime(t), Request: drawRequest(t), Header: raw}
		h2, err := store.DecodeHead(h.Encode())
		require.NoError(t, err)
		require.Equal(t, fmt.Sprint(h), fmt.Sprint(h2))
		d := store.Done{Body: sha256.Sum256(raw), Revision: drawRevision(t)}
		d2, err := store.DecodeDone(d.Encode())
		require.NoError(t, err)
		require.Equal(t, d, d2)
		e := store.Entry{Revision: drawRevision(t), At: drawTime(t), Record: raw}
		e2, err := store.DecodeEntry(e.Encode())
		require.NoError(t, err)
		require.Equal(t, fmt.Sprint(e), fmt.Sprint(e2))
		q := store.Quote{Session: "s", Request: drawRequest(t), Revision: drawRevision(t), Issued: drawTime(t), Record: raw}
		q2, err := store.DecodeQuote(store.Key{}, q.Encode())
		require.NoError(t, err)
		require.Equal(t, fmt.Sprint(q), fmt.Sprint(q2))
		p := store.Reply{Request: drawRequest(t), At: drawTime(t), Bytes: raw}
		p2, err := store.DecodeReply(p.Encode())
		require.NoError(t, err)
		require.Equal(t, fmt.Sprint(p), fmt.Sprint(p2))
		b, err := store.DecodeBook(store.BookHash(raw), store.EncodeBook(raw))
		require.NoError(t, err)
		require.Equal(t, fmt.Sprint(raw), fmt.Sprint(b))
	})
}

func TestBrokenAndNewerRecordsAreRefused(t *testing.T) {
	whole := store.Entry{At: time.Unix(1, 0), Record: []byte("r")}.Encode()
	for cut := range whole {
		_, err := store.DecodeEntry(whole[:cut])
		require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindUnavailable, Reason: "RECORD_BROKEN"}, "cut at %d", cut)
	}
	_, err := store.DecodeEntry(append(whole, 0))
	require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindUnavailable, Reason: "RECORD_BROKEN"})
	whole[0] = 2
	_, err = store.DecodeEntry(whole)
	require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindUnavailable, Reason: "RECORD_VERSION"})
	_, err = store.DecodeBook(store.BookHash([]byte("a")), store.EncodeBook([]byte("b")))
	require.ErrorContains(t, err, "hash")
}

func TestRevisionsPrintAndParse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRevision(t)
		if r == (store.Revision{}) {
			return
		}
		back, err := store.ParseRevision(r.String())
		require.NoError(t, err)
		require.Equal(t, r, back)
	})
	for _, bad := range []string{"", "3", "3-", "-9f86d081", "03-9f86d081", "3-9F86D081", "3-9f86d08", "3-9f86d0811", "x-9f86d081", "-1-9f86d081", strings.Repeat("9", 99) + "-9f86d081"} {
		_, err := store.ParseRevision(bad)
		require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindInvalid}, bad)
	}
}

// Two logs that differ anywhere never share a revision, whatever their length.
func TestChainTellsLogsApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		head := func(records []string) store.Revision {
			r := store.First(store.NewSession{})
			for _, x := range records {
				r = store.Append{Base: r, Record: []byte(x)}.Next()
			}
			return r
		}
		a := rapid.SliceOfN(rapid.StringN(0, 3, -1), 0, 5).Draw(t, "a")
		b := rapid.SliceOfN(rapid.StringN(0, 3, -1), 0, 5).Draw(t, "b")
		require.Equal(t, fmt.Sprintf("%q", a) == fmt.Sprintf("%q", b), head(a) == head(b))
	})
}

func TestShardsSpreadAndQuotesCarryTheirs(t *testing.T) {
	seen := map[int]int{}
	for i := range 20000 {
		id := fmt.Sprint("session-", i)
		seen[store.ShardOf(id)]++
		q := store.QuoteID(id, sha256.Sum256([]byte(id)))
		shard, ok := store.QuoteShard(q)
		require.True(t, ok)
		require.Equal(t, store.ShardOf(id), shard)
		require.NoError(t, store.Key{Shop: "alder", ID: q}.Check())
	}
	require.Len(t, seen, store.Shards)
	for _, bad := range []string{"", "00", "400abc", "zzzabc", "-01abc", "3ff"} {
		_, ok := store.QuoteShard(bad)
		require.False(t, ok, bad)
	}
}

func FuzzRecords(f *testing.F) {
	f.Add(store.Head{Header: []byte("h")}.Encode())
	f.Add(store.Entry{Record: []byte("r")}.Encode())
	f.Add(store.Quote{Session: "s", Record: []byte("r")}.Encode())
	f.Add(store.Reply{Bytes: []byte("r")}.Encode())
	f.Add([]byte{2, 255, 255, 255, 255, 255, 255, 255, 255, 255, 1})
	f.Fuzz(func(t *testing.T, raw []byte) {
		if h, err := store.DecodeHead(raw); err == nil {
			again, err := store.DecodeHead(h.Encode())
			require.NoError(t, err)
			require.Equal(t, h, again)
		}
		_, _ = store.DecodeEntry(raw)
		_, _ = store.DecodeQuote(store.Key{}, raw)
		_, _ = store.DecodeReply(raw)
		_, _ = store.DecodeBook(store.BookHash(raw), raw)
		_, _ = store.ParseRevision(string(raw))
	})
}
