package browser_test

import (
	"bytes"
	"net/http"
	"net/http/httptest"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"daybreak/internal/service"
	"daybreak/internal/service/access"
	"daybreak/internal/shop"
	"daybreak/internal/shop/alderbay"
	"daybreak/internal/store/embedded"
	"daybreak/internal/web"
)

// serve runs the real service for the demo shop, with a store of its own, and
// gives its address.
func serve(t *testing.T) string {
	t.Helper()
	books, err := shop.Open(alderbay.Files())
	require.NoError(t, err)
	kept, err := embedded.Open(embedded.Config{Dir: t.TempDir()})
	require.NoError(t, err)
	keys, err := access.NewKeyring(bytes.Repeat([]byte("k"), access.KeySize))
	require.NoError(t, err)
	srv, err := service.New(service.Config{Books: books, Store: kept, Keys: keys, Policy: access.Policy{OpenShop: books.ID}})
	require.NoError(t, err)
	front, err := web.New(web.Config{Channel: srv.Channel(), Ready: srv.Ready, LocalHostsOnly: true})
	require.NoError(t, err)
	listening := httptest.NewServer(http.HandlerFunc(front.ServeHTTP))
	t.Cleanup(func() {
		listening.CloseClientConnections()
		listening.Close()
		srv.Stop(time.Second)
		require.NoError(t, kept.Close())
	})
	return listening.URL
}
