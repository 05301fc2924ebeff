package redis

import (
	"context"
	"net/url"
	"strings"
	"sync"
	"time"

	"daybreak/internal/fault"
	"daybreak/internal/store"

	goredis "github.com/redis/go-redis/v9"
)

// Config says which Redis and for how long. Only URL is needed.
type Config struct {
	// URL is redis://[user:password@]host:port[/db], or rediss:// for TLS. With
	// ?master_name=NAME the hosts are Sentinels; with ?addr=host:port for each
	// further node, or the scheme redis+cluster, they are a Cluster.
	URL   string
	Lives store.Lives      // zero fields take their defaults
	Now   func() time.Time // time.Now when nil
}

const urlRule = "redis://host:port, with ?master_name= for Sentinel or redis+cluster:// for a Cluster"

// Timeouts of one call; the caller's context may end it sooner.
const (
	dialTimeout = 2 * time.Second
	callTimeout = 3 * time.Second
	maxRetries  = 1 // a second try of a script is told by its request id
)

// Store is a [store.Store] in Redis.
type Store struct {
	client   goredis.UniversalClient
	now      func() time.Time
	lives    store.Lives
	promise  string
	watchers store.Watchers
	stop     context.CancelFunc
	running  sync.WaitGroup
	once     sync.Once
	closed   chan struct{}
}

var _ store.Store = (*Store)(nil)

// quieten keeps the client from writing every refused dial to standard error:
// each error is returned to a caller, who says it once.
var quieten sync.Once

type silent struct{}

func (silent) Printf(context.Context, string, ...any) {}

// Open connects and checks the server. It faults a URL it cannot read, a server
// that does not answer, an evicting memory policy and a cluster without an
// append-only file.
func Open(ctx context.Context, c Config) (*Store, error) {
	quieten.Do(func() { goredis.SetLogger(silent{}) })
	client, err := connect(c.URL)
	if err != nil {
		return nil, err
	}
	promise, err := inspect(ctx, client)
	if err != nil {
		_ = client.Close() // the fault says more
		return nil, err
	}
	s := &Store{client: client, now: c.Now, lives: c.Lives.OrDefault(), promise: promise, closed: make(chan struct{})}
	if s.now == nil {
		s.now = time.Now
	}
	s.listen()
	return s, nil
}

// connect chooses the client by the URL and sets what the defaults get wrong:
// deadlines of contexts are off, a dead master is not noticed for a minute, and
// a refused dial is tried five times.
func connect(raw string) (goredis.UniversalClient, error) {
	u, err := url.Parse(raw)
	if err != nil || u.Host == "" {
		return nil, fault.Invalid("redis", withoutSecret(raw), urlRule)
	}
	cluster := strings.HasSuffix(u.Scheme, "+cluster") || u.Query().Has("addr")
	plain := strings.Replace(raw, "+cluster://", "://", 1)
	switch {
	case u.Query().Has("master_name"):
		o, err := goredis.ParseFailoverURL(plain)
		if err != nil {
			return nil, unreadable(u, err)
		}
		o.ContextTimeoutEnabled, o.DialerRetries, o.DisableIdentity = true, 1, true
		o.DialTimeout, o.ReadTimeout, o.WriteTimeout, o.MaxRetries = dialTimeout, callTimeout, callTimeout, maxRetries
		return goredis.NewFailoverClient(o), nil
	case cluster:
		o, err := goredis.ParseClusterURL(plain)
		if err != nil {
			return nil, unreadable(u, err)
		}
		o.ContextTimeoutEnabled, o.DialerRetries, o.DisableIdentity = true, 1, true
		o.DialTimeout, o.ReadTimeout, o.WriteTimeout = dialTimeout, callTimeout, callTimeout
		o.ClusterStateReloadInterval = time.Second
		return goredis.NewClusterClient(o), nil
	}
	o, err := goredis.ParseURL(plain)
	if err != nil {
		return nil, unreadable(u, err)
	}
	o.ContextTimeoutEnabled, o.DialerRetries, o.DisableIdentity = true, 1, true
	o.DialTimeout, o.ReadTimeout, o.WriteTimeout, o.MaxRetries = dialTimeout, callTimeout, callTimeout, maxRetries
	return goredis.NewClient(o), nil
}

func unreadable(u *url.URL, cause error) error {
	f := fault.Invalid("redis", u.Redacted(), urlRule)
	f.Detail = cause.Error()
	return f
}

// withoutSecret cuts what may be a password from a URL that does not parse.
func withoutSecret(raw string) string {
	if i := strings.LastIndex(raw, "@"); i >= 0 {
		return "…" + raw[i:]
	}
	return raw
}

// Ready says whether the server answers.
func (s *Store) Ready(ctx context.Context) error { return s.judge(s.client.Ping(ctx).Err()) }

// Promise says what an acknowledged write survives.
func (s *Store) Promise() string { return s.promise }

// Close ends all watches and the connections. Closing again does nothing.
func (s *Store) Close() error {
	var err error
	s.once.Do(func() {
		close(s.closed)
		s.watchers.Close()
		s.stop()
		s.running.Wait()
		err = s.client.Close()
	})
	return err
}

// retryable are the first words of a server's errors that time may cure.
var retryable = []string{"LOADING", "READONLY", "CLUSTERDOWN", "MASTERDOWN", "TRYAGAIN", "BUSY", "MISCONF", "NOREPLICAS"}

// judge turns a client's error into a fault. An error is not "not applied":
// only the request id decides.
func (s *Store) judge(err error) error {
	if err == nil {
		return nil
	}
	select {
	case <-s.closed:
		return store.Closed()
	default:
	}
	return judged(err)
}
