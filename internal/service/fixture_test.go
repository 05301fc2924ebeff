package service_test

import (
	"context"
	"io/fs"
	"net"
	"strings"
	"sync"
	"testing"
	"time"

	"daybreak/internal/service"
	"daybreak/internal/service/access"
	"daybreak/internal/shop"
	"daybreak/internal/shop/alderbay"
	"daybreak/internal/store"

	"github.com/stretchr/testify/require"
	"go.uber.org/goleak"
	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// opened reads the books of the demo shop once for all tests; they do not change.
var opened = sync.OnceValues(func() (*shop.Books, error) {
	return shop.Open(alderbay.Files())
})

func demoBooks(t testing.TB) *shop.Books {
	t.Helper()
	books, err := opened()
	require.NoError(t, err)
	return books
}

func demoKeys(t testing.TB) *access.Keyring {
	t.Helper()
	keys, err := access.NewKeyring([]byte(strings.Repeat("k", access.KeySize)))
	require.NoError(t, err)
	return keys
}

// demoServer is the demo shop, open to this machine.
func demoServer(t testing.TB, s store.Store) *service.Server {
	t.Helper()
	srv, err := service.New(service.Config{
		Books: demoBooks(t), BookFiles: []fs.FS{alderbay.Files()}, Store: s, Keys: demoKeys(t), Policy: access.Policy{OpenShop: "fernhill"},
	})
	require.NoError(t, err)
	return srv
}

// dialled serves gRPC on loopback and connects to it.
func dialled(t testing.TB, srv *service.Server) *grpc.ClientConn {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	done := make(chan error, 1)
	go func() { done <- srv.Serve(l) }()
	conn, err := grpc.NewClient(l.Addr().String(), grpc.WithTransportCredentials(insecure.NewCredentials()))
	require.NoError(t, err)
	t.Cleanup(func() {
		require.NoError(t, conn.Close())
		srv.Stop(time.Second)
		require.NoError(t, <-done)
	})
	return conn
}

// nowhere is a store for calls that need none: every method is away.
type nowhere struct{ store.Store }

func (nowhere) Ready(context.Context) error { return nil }
