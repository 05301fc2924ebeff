package access

import (
	"context"
	"net"
	"net/netip"

	"daybreak/internal/fault"

	"google.golang.org/grpc/metadata"
	"google.golang.org/grpc/peer"
)

// Names of the credentials in metadata and HTTP headers.
const (
	SessionHeader = "daybreak-session" // a session's secret
	KeyHeader     = "daybreak-key"     // a shop's key
	BearerHeader  = "authorization"    // an agent's token
)

// PeerHeader tells the in-process channel which address a web request came
// from. The web front alone sets it; over a network it is ignored.
const PeerHeader = "daybreak-peer"

// Principal is who calls, and for which shop.
type Principal struct {
	Shop   string
	Secret string // of a session, as given; see [Keyring.Owns]
}

// Policy says whom to let in. The zero value lets nobody in.
type Policy struct {
	// OpenShop is served without a credential to callers of the same machine;
	// "" for none.
	OpenShop string
}

// Enter finds who calls. A key or token that is not known is a fault even
// where none was needed, so that a mistyped one does not pass unnoticed.
func (p Policy) Enter(ctx context.Context) (Principal, error) {
	md, _ := metadata.FromIncomingContext(ctx)
	for _, name := range []string{KeyHeader, BearerHeader} {
		if first(md, name) != "" {
			return Principal{}, &fault.Fault{
				Kind: fault.KindDenied, Reason: "CREDENTIAL_UNKNOWN", Field: name,
				Accepted: "a credential of a shop served here, or none on the machine itself",
			}
		}
	}
	if p.OpenShop == "" || !local(caller(ctx, md)) {
		return Principal{}, &fault.Fault{
			Kind: fault.KindDenied, Reason: "CREDENTIAL_MISSING", Field: KeyHeader,
			Accepted: "a key of a shop; only callers of the same machine need none",
		}
	}
	return Principal{Shop: p.OpenShop, Secret: first(md, SessionHeader)}, nil
}

func first(md metadata.MD, name string) string {
	if v := md.Get(name); len(v) > 0 {
		return v[0]
	}
	return ""
}

// caller is the address a call came from.
func caller(ctx context.Context, md metadata.MD) string {
	p, ok := peer.FromContext(ctx)
	if !ok || p.Addr == nil {
		return ""
	}
	if p.Addr.Network() == "inproc" {
		return first(md, PeerHeader)
	}
	return p.Addr.String()
}

// local reports whether an address is this machine's own loopback.
func local(address string) bool {
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		host = address
	}
	ip, err := netip.ParseAddr(host)
	return err == nil && ip.Unmap().IsLoopback()
}

type principalKey struct{}

// With keeps a principal in a context.
func With(ctx context.Context, p Principal) context.Context {
	return context.WithValue(ctx, principalKey{}, p)
}

// From is the principal of a context; zero when nobody was let in.
func From(ctx context.Context) Principal {
	p, _ := ctx.Value(principalKey{}).(Principal)
	return p
}
