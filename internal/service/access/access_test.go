package access_test

import (
	"context"
	"net"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"daybreak/internal/fault"
	"daybreak/internal/service/access"

	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/metadata"
	"google.golang.org/grpc/peer"
)

func keyring(t *testing.T, fill byte) *access.Keyring {
	t.Helper()
	k, err := access.NewKeyring([]byte(strings.Repeat(string(rune(fill)), access.KeySize)))
	require.NoError(t, err)
	return k
}

func TestNamesFollowFromKeyShopAndRequest(t *testing.T) {
	k := keyring(t, 'a')
	id := k.SessionID("demo", "r1")
	require.Regexp(t, "^[a-z0-9]{26}$", id)
	require.Equal(t, id, k.SessionID("demo", "r1"))
	require.NotEqual(t, id, k.SessionID("demo", "r2"))
	require.NotEqual(t, id, k.SessionID("other", "r1"))
	require.NotEqual(t, k.SessionID("ab", "c"), k.SessionID("a", "bc"), "parts keep their borders")
	require.NotEqual(t, id, keyring(t, 'b').SessionID("demo", "r1"))
	require.Regexp(t, "^[a-z0-9]{8,64}$", k.QuoteID(id, "r1"))
}

func TestOnlyTheSecretOwnsASession(t *testing.T) {
	k := keyring(t, 'a')
	require.NoError(t, k.Owns("s1", k.Secret("s1")))
	for secret, reason := range map[string]string{
		"":                              "SESSION_SECRET_MISSING",
		"x":                             "SESSION_SECRET_WRONG",
		k.Secret("s2"):                  "SESSION_SECRET_WRONG",
		keyring(t, 'b').Secret("s1"):    "SESSION_SECRET_WRONG",
		k.Secret("s1") + "=":            "SESSION_SECRET_WRONG",
		strings.ToUpper(k.Secret("s1")): "SESSION_SECRET_WRONG",
	} {
		require.ErrorIs(t, k.Owns("s1", secret), &fault.Fault{Kind: fault.KindDenied, Reason: reason})
	}
}

func TestPageTokensBelongToShopAndFilter(t *testing.T) {
	k := keyring(t, 'a')
	token := k.PageToken("demo", "vehicles", "50")
	next, err := k.OpenPageToken("demo", "vehicles", token)
	require.NoError(t, err)
	require.Equal(t, "50", next)
	for _, bad := range [][3]string{{"other", "vehicles", token}, {"demo", "quotes", token}, {"demo", "vehicles", "AAAA"}, {"demo", "vehicles", "?"}, {"demo", "vehicles", token + "A"}} {
		_, err := k.OpenPageToken(bad[0], bad[1], bad[2])
		require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindInvalid})
	}
}

func from(network, address string, pairs ...string) context.Context {
	ctx := peer.NewContext(context.Background(), &peer.Peer{Addr: addr{network, address}})
	return metadata.NewIncomingContext(ctx, metadata.Pairs(pairs...))
}

type addr struct{ network, address string }

func (a addr) Network() string { return a.network }
func (a addr) String() string  { return a.address }

var _ net.Addr = addr{}

func TestTheOpenShopIsForTheSameMachine(t *testing.T) {
	open := access.Policy{OpenShop: "demo"}
	for _, c := range []struct {
		name   string
		policy access.Policy
		ctx    context.Context
		reason string
	}{
		{"loopback", open, from("tcp", "127.0.0.1:5000"), ""},
		{"loopback, version six", open, from("tcp", "[::1]:5000"), ""},
		{"loopback, mapped", open, from("tcp", "[::ffff:127.0.0.1]:5000"), ""},
		{"web on loopback", open, from("inproc", "0", access.PeerHeader, "127.0.0.1:80"), ""},
		{"another machine", open, from("tcp", "192.0.2.1:5000"), "CREDENTIAL_MISSING"},
		{"another machine that says it is near", open, from("tcp", "192.0.2.1:5000", access.PeerHeader, "127.0.0.1:1"), "CREDENTIAL_MISSING"},
		{"web from another machine", open, from("inproc", "0", access.PeerHeader, "192.0.2.1:80"), "CREDENTIAL_MISSING"},
		{"web that does not say", open, from("inproc", "0"), "CREDENTIAL_MISSING"},
		{"no address", open, context.Background(), "CREDENTIAL_MISSING"},
		{"no open shop", access.Policy{}, from("tcp", "127.0.0.1:5000"), "CREDENTIAL_MISSING"},
		{"unknown key", open, from("tcp", "127.0.0.1:5000", access.KeyHeader, "k"), "CREDENTIAL_UNKNOWN"},
		{"unknown token", open, from("tcp", "127.0.0.1:5000", access.BearerHeader, "Bearer t"), "CREDENTIAL_UNKNOWN"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := c.policy.Enter(c.ctx)
			if c.reason == "" {
				require.NoError(t, err)
				require.Equal(t, "demo", p.Shop)
				return
			}
			require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindDenied, Reason: c.reason})
		})
	}
}

func TestTheKeyFileIsMadeOnceAndKept(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "data")
	var wait sync.WaitGroup
	secrets := make([]string, 8)
	for i := range secrets {
		wait.Go(func() {
			k, err := access.OpenKeyFile(dir)
			if err == nil {
				secrets[i] = k.Secret("s")
			}
		})
	}
	wait.Wait()
	for _, s := range secrets {
		require.Equal(t, secrets[0], s)
		require.NotEmpty(t, s)
	}
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, left, 1, "nothing temporary is left")
	info, err := os.Stat(filepath.Join(dir, "service.key"))
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o600), info.Mode().Perm())
}

func TestABrokenKeyFileIsNamedAndNotRepeated(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "service.key"), []byte("deadbeef"), 0o600))
	_, err := access.OpenKeyFile(dir)
	require.ErrorContains(t, err, "service.key:1")
	require.ErrorContains(t, err, "64 hexadecimal digits")
	require.NotContains(t, err.Error(), "deadbeef")
}
