package redis_test

import (
	"context"
	"crypto/sha256"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"daybreak/internal/fault"
	"daybreak/internal/store"
	"daybreak/internal/store/redis"
	"daybreak/internal/store/storetest"

	goredis "github.com/redis/go-redis/v9"
	"github.com/stretchr/testify/require"
	"go.uber.org/goleak"
)

var bg = context.Background()

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

func open(t testing.TB, c redis.Config) *redis.Store {
	t.Helper()
	s, err := redis.Open(bg, c)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, s.Close()) })
	return s
}

func raw(t testing.TB, server *storetest.RedisServer) *goredis.Client {
	t.Helper()
	c := goredis.NewClient(&goredis.Options{Addr: server.Addr, DisableIdentity: true})
	t.Cleanup(func() { require.NoError(t, c.Close()) })
	return c
}

func TestConformance(t *testing.T) {
	server := storetest.StartRedis(t)
	client := raw(t, server)
	storetest.Run(t, func(t *testing.T, s storetest.Settings) storetest.Opened {
		require.NoError(t, client.FlushAll(bg).Err())
		c := redis.Config{URL: server.URL(), Now: s.Now, Lives: s.Lives}
		first := open(t, c)
		return storetest.Opened{Store: first, Again: func() store.Store {
			require.NoError(t, first.Close())
			return open(t, c)
		}}
	})
}

// The same suite on three masters: each script's keys share a slot, whatever
// the session.
func TestConformanceOnCluster(t *testing.T) {
	url := storetest.StartRedisCluster(t)
	o, err := goredis.ParseClusterURL(url)
	require.NoError(t, err)
	o.DisableIdentity = true
	client := goredis.NewClusterClient(o)
	t.Cleanup(func() { require.NoError(t, client.Close()) })
	storetest.Run(t, func(t *testing.T, s storetest.Settings) storetest.Opened {
		require.NoError(t, client.ForEachMaster(bg, func(ctx context.Context, one *goredis.Client) error { return one.FlushAll(ctx).Err() }))
		c := redis.Config{URL: url, Now: s.Now, Lives: s.Lives}
		first := open(t, c)
		require.Contains(t, first.Promise(), "Cluster")
		return storetest.Opened{Store: first, Again: func() store.Store {
			require.NoError(t, first.Close())
			return open(t, c)
		}}
	})
}

// Through Sentinel the master is found by its name.
func TestSentinelFindsTheMaster(t *testing.T) {
	server := storetest.StartRedis(t)
	host, port, err := net.SplitHostPort(server.Addr)
	require.NoError(t, err)
	conf := filepath.Join(t.TempDir(), "sentinel.conf")
	require.NoError(t, os.WriteFile(conf, []byte(fmt.Sprintf("sentinel monitor alder %s %s 1\n", host, port)), 0o600))
	sentinel := storetest.StartRedis(t, conf, "--sentinel")
	s := open(t, redis.Config{URL: sentinel.URL() + "?master_name=alder"})
	fill(t, s, "one")
	n, err := raw(t, server).Exists(bg, store.SessionKey(store.Key{Shop: "alder", ID: "one"})).Result()
	require.NoError(t, err)
	require.Equal(t, int64(1), n)
	_, err = redis.Open(bg, redis.Config{URL: sentinel.URL() + "?master_name=other"})
	require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindUnavailable})
}

func session(id string) store.NewSession {
	return store.NewSession{Key: store.Key{Shop: "alder", ID: id}, Request: store.Request{Method: "CreateSession", ID: id}, Header: []byte("header")}
}

func answer(key store.Key, base store.Revision, n int) store.Append {
	record := []byte(fmt.Sprintf("answer %d", n))
	return store.Append{Key: key, Base: base, Record: record,
		Request: store.Request{Method: "Answer", ID: fmt.Sprint(n), Body: sha256.Sum256(record)}}
}

func fill(t testing.TB, s store.Store, id string) store.Appended {
	t.Helper()
	made, err := s.CreateSession(bg, session(id))
	require.NoError(t, err)
	got, err := s.Append(bg, answer(made.Key, made.Head, 1))
	require.NoError(t, err)
	_, err = s.PutQuote(bg, store.Quote{Key: store.Key{Shop: "alder", ID: store.QuoteID(id, [32]byte{1})}, Session: id,
		Request: store.Request{Method: "CreateQuote", ID: id}, Issued: time.Now(), Record: []byte("q")})
	require.NoError(t, err)
	_, err = s.PutBook(bg, "alder", []byte("book"))
	require.NoError(t, err)
	_, err = s.Remember(bg, "alder", store.Request{Method: "Publish", ID: id}, []byte("reply"))
	require.NoError(t, err)
	return got
}

// Every key carries shard and shop, one session's keys share a slot, and all
// of them expire.
func TestKeysCarryShardAndShopAndExpire(t *testing.T) {
	server := storetest.StartRedis(t)
	client := raw(t, server)
	s := open(t, redis.Config{URL: server.URL()})
	fill(t, s, "one")
	fill(t, s, "two")
	require.NoError(t, s.DeleteSession(bg, store.Key{Shop: "alder", ID: "two"}))
	keys, err := client.Keys(bg, "*").Result()
	require.NoError(t, err)
	require.Len(t, keys, 3+1+2+1+2, "session with log and requests; tombstone; quotes; book; replies")
	for _, key := range keys {
		require.Regexp(t, `^\{s\d{4}\}:alder:(session|quote|book|reply):`, key)
		life, err := client.PTTL(bg, key).Result()
		require.NoError(t, err)
		require.Positive(t, life, key)
		if strings.Contains(key, "one") && !strings.Contains(key, "reply") || strings.Contains(key, ":quote:") {
			require.LessOrEqual(t, life, 400*24*time.Hour)
		}
		value := client.Dump(bg, key)
		require.NoError(t, value.Err())
	}
	tag := "{" + store.Tag(store.ShardOf("one")) + "}:alder:"
	require.Contains(t, keys, tag+"session:one")
	require.Contains(t, keys, tag+"session:one:log")
	require.Contains(t, keys, tag+"quote:"+store.QuoteID("one", [32]byte{1}))
}

func TestEvictingPolicyIsRefused(t *testing.T) {
	server := storetest.StartRedis(t, "--maxmemory", "64mb", "--maxmemory-policy", "allkeys-lru")
	_, err := redis.Open(bg, redis.Config{URL: server.URL()})
	require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindPrecondition, Reason: "REDIS_EVICTS"})
	require.ErrorContains(t, err, "allkeys-lru")
	require.ErrorContains(t, err, "noeviction")
}

func TestPromiseFollowsPersistence(t *testing.T) {
	for want, args := range map[string][]string{
		"for trials only":  nil,
		"two seconds":      {"--appendonly", "yes"},
		"before we answer": {"--appendonly", "yes", "--appendfsync", "always"},
	} {
		server := storetest.StartRedis(t, args...)
		require.Contains(t, open(t, redis.Config{URL: server.URL()}).Promise(), want)
	}
}

func TestUnreadableURLsAreNamedWithoutTheirSecret(t *testing.T) {
	for _, bad := range []string{"", "127.0.0.1:6379", "http://127.0.0.1", "redis://:hunter2@127.0.0.1:6379/?what=1", "redis://:hunter2@127.0.0.1:port"} {
		_, err := redis.Open(bg, redis.Config{URL: bad})
		require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindInvalid}, bad)
		require.ErrorContains(t, err, "redis://host:port")
		require.NotContains(t, err.Error(), "hunter2")
	}
}

func TestAwayServerIsUnavailableWithinTheDeadline(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	url := "redis://" + l.Addr().String()
	require.NoError(t, l.Close())
	_, err = redis.Open(bg, redis.Config{URL: url})
	require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindUnavailable, Reason: "STORE_AWAY"})

	// One that accepts and never answers: the caller's deadline holds.
	l, err = net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer l.Close()
	ctx, cancel := context.WithTimeout(bg, 100*time.Millisecond)
	defer cancel()
	_, err = redis.Open(ctx, redis.Config{URL: "redis://" + l.Addr().String()})
	require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindUnavailable, Reason: "STORE_AWAY"})
}

// A server that was restarted has lost its scripts; one that was flushed too.
func TestLostScriptsAreGivenAgain(t *testing.T) {
	server := storetest.StartRedis(t)
	client := raw(t, server)
	s := open(t, redis.Config{URL: server.URL()})
	got := fill(t, s, "one")
	require.NoError(t, client.ScriptFlush(bg).Err())
	_, err := s.Append(bg, answer(store.Key{Shop: "alder", ID: "one"}, got.Revision, 2))
	require.NoError(t, err)
}

// With an append-only file a killed server keeps what it acknowledged; watchers
// and callers find it again by themselves.
func TestRestartedServerIsFoundAgain(t *testing.T) {
	dir := t.TempDir()
	aof := []string{"--appendonly", "yes", "--appendfsync", "always"}
	server := storetest.StartRedis(t, append(aof, "--dir", dir)...)
	_, port, err := net.SplitHostPort(server.Addr)
	require.NoError(t, err)
	number, err := strconv.Atoi(port)
	require.NoError(t, err)
	s := open(t, redis.Config{URL: server.URL()})
	got := fill(t, s, "one")
	key := store.Key{Shop: "alder", ID: "one"}
	heads, err := s.Watch(bg, key)
	require.NoError(t, err)
	require.Equal(t, got.Revision, <-heads)
	server.Kill()
	_, err = s.Session(bg, key)
	require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindUnavailable, Reason: "STORE_AWAY"})
	require.Error(t, s.Ready(bg))
	storetest.StartRedisAt(t, number, dir, aof...)
	require.Eventually(t, func() bool { return s.Ready(bg) == nil }, 10*time.Second, 10*time.Millisecond)
	next, err := s.Append(bg, answer(key, got.Revision, 2))
	require.NoError(t, err)
	select {
	case r := <-heads:
		require.Equal(t, next.Revision, r)
	case <-time.After(5 * time.Second):
		require.FailNow(t, "a watcher heard nothing after the restart")
	}
	files, err := filepath.Glob(filepath.Join(dir, "appendonlydir", "*"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
}

// A full server refuses writes with a reason, nothing is half applied, and
// reads go on.
func TestFullServerRefuses(t *testing.T) {
	server := storetest.StartRedis(t)
	client := raw(t, server)
	s := open(t, redis.Config{URL: server.URL()})
	made, err := s.CreateSession(bg, session("full"))
	require.NoError(t, err)
	require.NoError(t, client.ConfigSet(bg, "maxmemory", "1mb").Err())
	_, err = s.Append(bg, answer(made.Key, made.Head, 1))
	require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindExhausted, Reason: "STORE_FULL"})
	read, err := s.Session(bg, made.Key)
	require.NoError(t, err)
	require.Empty(t, read.Log)
	require.NoError(t, client.ConfigSet(bg, "maxmemory", "0").Err())
	_, err = s.Append(bg, answer(made.Key, made.Head, 1))
	require.NoError(t, err)
}

// What one process writes, a watcher at another hears within a second.
func TestWatchersOfAnotherProcessHear(t *testing.T) {
	server := storetest.StartRedis(t)
	here := open(t, redis.Config{URL: server.URL()})
	there := open(t, redis.Config{URL: server.URL()})
	made, err := here.CreateSession(bg, session("one"))
	require.NoError(t, err)
	heads, err := there.Watch(bg, made.Key)
	require.NoError(t, err)
	require.Equal(t, made.Head, <-heads)
	head := made.Head
	for n := range 20 {
		got, err := here.Append(bg, answer(made.Key, head, n))
		require.NoError(t, err)
		head = got.Revision
	}
	for deadline := time.After(time.Second); ; {
		select {
		case r := <-heads:
			if r == head {
				return
			}
		case <-deadline:
			require.FailNow(t, "the watcher is more than a second behind")
		}
	}
}

// A session of forty answers is at most two kilobytes, request ids apart.
func TestSessionIsSmall(t *testing.T) {
	server := storetest.StartRedis(t)
	client := raw(t, server)
	s := open(t, redis.Config{URL: server.URL()})
	made, err := s.CreateSession(bg, session("small"))
	require.NoError(t, err)
	head := made.Head
	for n := range 40 {
		a := answer(made.Key, head, n)
		a.Record = make([]byte, 18)
		a.Request.ID = fmt.Sprintf("00000000-0000-4000-8000-%012d", n)
		got, err := s.Append(bg, a)
		require.NoError(t, err)
		head = got.Revision
	}
	bytes := map[string]int64{}
	for _, part := range []string{"", ":log", ":requests"} {
		bytes[part], err = client.MemoryUsage(bg, store.SessionKey(made.Key)+part, 0).Result()
		require.NoError(t, err)
	}
	require.LessOrEqual(t, bytes[":log"], int64(2<<10))
	t.Logf("bytes of a session: %v", bytes)
}

func BenchmarkAppend(b *testing.B) {
	for _, writers := range []int{1, 16, 64} {
		b.Run(fmt.Sprint(writers), func(b *testing.B) {
			server := storetest.StartRedis(b)
			s := open(b, redis.Config{URL: server.URL() + "?pool_size=64"})
			var all sync.WaitGroup
			each := b.N/writers + 1
			b.ResetTimer()
			for w := range writers {
				all.Go(func() {
					for i := 0; i < each; {
						made, err := s.CreateSession(bg, session(fmt.Sprintf("b%d-%d", w, i)))
						if err != nil {
							b.Error(err)
							return
						}
						head := made.Head
						for n := 0; n < 100 && i < each; n++ {
							got, err := s.Append(bg, answer(made.Key, head, n))
							if err != nil {
								b.Error(err)
								return
							}
							head, i = got.Revision, i+1
						}
					}
				})
			}
			all.Wait()
		})
	}
}
