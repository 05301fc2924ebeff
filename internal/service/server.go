package service

import (
	"context"
	"io/fs"
	"log/slog"
	"net"
	"time"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/fault"
	"daybreak/internal/service/access"
	"daybreak/internal/shop"
	"daybreak/internal/store"

	"github.com/fullstorydev/grpchan/inprocgrpc"
	"google.golang.org/grpc"
	"google.golang.org/grpc/health"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/grpc/keepalive"
	"google.golang.org/grpc/reflection"
)

// Config is what a server is made of. Books, Store and Keys are needed; the
// rest works as it stands.
type Config struct {
	Books *shop.Books // the tenant served, with every table it shares
	// BookFiles are the folders the books were read from. They are kept in the
	// store by content when a quote is issued; none keeps nothing.
	BookFiles []fs.FS
	Store     store.Store     // sessions and quotes
	Keys      *access.Keyring // ids and secrets
	Policy    access.Policy   // who is let in; the zero value lets nobody in
	Limits    Limits          // how much at once
	Log       *slog.Logger    // nil is silence
}

// Limits are how much is done at once. A zero field takes its default.
type Limits struct {
	Calls   int // 256
	Streams int // 2 000
}

func (l Limits) orDefault() Limits {
	if l.Calls <= 0 {
		l.Calls = 256
	}
	if l.Streams <= 0 {
		l.Streams = 2000
	}
	return l
}

// Server is the four services behind one guard, reached over gRPC and through
// an in-process channel alike.
type Server struct {
	grpc    *grpc.Server
	channel *inprocgrpc.Channel
	health  *health.Server
	store   store.Store
}

// New builds a server. It opens no port.
func New(c Config) (*Server, error) {
	if c.Books == nil || c.Store == nil || c.Keys == nil {
		return nil, fault.Invalid("service config", "a part that is missing", "books, a store and a keyring")
	}
	if c.Log == nil {
		c.Log = slog.New(slog.DiscardHandler)
	}
	c.Limits = c.Limits.orDefault()
	g, err := newGuard(c)
	if err != nil {
		return nil, err
	}
	h, err := newHandlers(c)
	if err != nil {
		return nil, err
	}
	s := &Server{
		grpc:    grpc.NewServer(transport(g)...),
		channel: (&inprocgrpc.Channel{}).WithServerUnaryInterceptor(g.unary).WithServerStreamInterceptor(g.stream),
		health:  health.NewServer(),
		store:   c.Store,
	}
	for _, one := range []struct {
		desc    *grpc.ServiceDesc
		handler any
	}{
		{&daybreakv1.IntakeService_ServiceDesc, &intakeHandler{handlers: h}},
		{&daybreakv1.QuoteService_ServiceDesc, &quoteHandler{handlers: h}},
		{&daybreakv1.DesignService_ServiceDesc, &designHandler{handlers: h}},
		{&daybreakv1.CatalogueService_ServiceDesc, &catalogueHandler{handlers: h}},
	} {
		s.grpc.RegisterService(one.desc, one.handler)
		s.channel.RegisterService(one.desc, one.handler)
	}
	healthpb.RegisterHealthServer(s.grpc, s.health)
	reflection.Register(s.grpc)
	return s, nil
}

// transport are the limits of the gRPC listener; the library's own are none or
// too large.
func transport(g *guard) []grpc.ServerOption {
	return []grpc.ServerOption{
		grpc.UnaryInterceptor(g.unary),
		grpc.StreamInterceptor(g.stream),
		grpc.MaxRecvMsgSize(MaxRequest),
		grpc.MaxHeaderListSize(16 << 10),
		grpc.MaxConcurrentStreams(128),
		grpc.KeepaliveEnforcementPolicy(keepalive.EnforcementPolicy{MinTime: 30 * time.Second, PermitWithoutStream: true}),
		grpc.KeepaliveParams(keepalive.ServerParameters{MaxConnectionIdle: 5 * time.Minute, MaxConnectionAge: 10 * time.Minute, MaxConnectionAgeGrace: 30 * time.Second}),
		grpc.ConnectionTimeout(5 * time.Second),
	}
}

// Channel is the way in for the web front: the same handlers behind the same
// guard, without a socket.
func (s *Server) Channel() grpc.ClientConnInterface { return s.channel }

// Serve answers gRPC on a listener until the server is stopped.
func (s *Server) Serve(l net.Listener) error {
	s.health.SetServingStatus("", healthpb.HealthCheckResponse_SERVING)
	return s.grpc.Serve(l)
}

// Ready says whether the server can do its work: nil, or what is away.
func (s *Server) Ready(ctx context.Context) error { return s.store.Ready(ctx) }

// Stop says not ready, lets calls at work end, and closes what is left after
// the time given.
func (s *Server) Stop(within time.Duration) {
	s.health.Shutdown()
	done := make(chan struct{})
	go func() { s.grpc.GracefulStop(); close(done) }()
	timer := time.NewTimer(within)
	defer timer.Stop()
	select {
	case <-done:
	case <-timer.C:
		s.grpc.Stop()
		<-done
	}
}
