package web

import (
	"context"
	"fmt"
	"net/http"
	"net/textproto"
	"net/url"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/service"
	"daybreak/internal/service/access"

	"github.com/grpc-ecosystem/grpc-gateway/v2/runtime"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/metadata"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"
)

// marshaler writes the contract's own field names, as errors, conditions and
// the question tree spell them, and refuses fields it does not know.
var marshaler = &runtime.JSONPb{
	MarshalOptions:   protojson.MarshalOptions{UseProtoNames: true},
	UnmarshalOptions: protojson.UnmarshalOptions{DiscardUnknown: false},
}

// gateway is the REST side of every service, over the channel.
func (f *front) gateway() (http.Handler, error) {
	mux := runtime.NewServeMux(
		runtime.WithMarshalerOption(runtime.MIMEWildcard, marshaler),
		runtime.WithIncomingHeaderMatcher(incoming),
		runtime.WithOutgoingHeaderMatcher(outgoing),
		runtime.WithMetadata(peerOf),
		runtime.WithErrorHandler(f.failed),
		runtime.WithDisablePathLengthFallback(),
	)
	ctx, channel := context.Background(), strict{f.Channel}
	for name, register := range map[string]func() error{
		"intake": func() error {
			return daybreakv1.RegisterIntakeServiceHandlerClient(ctx, mux, daybreakv1.NewIntakeServiceClient(channel))
		},
		"quote": func() error {
			return daybreakv1.RegisterQuoteServiceHandlerClient(ctx, mux, daybreakv1.NewQuoteServiceClient(channel))
		},
		"design": func() error {
			return daybreakv1.RegisterDesignServiceHandlerClient(ctx, mux, daybreakv1.NewDesignServiceClient(channel))
		},
		"catalogue": func() error {
			return daybreakv1.RegisterCatalogueServiceHandlerClient(ctx, mux, daybreakv1.NewCatalogueServiceClient(channel))
		},
	} {
		if err := register(); err != nil {
			return nil, fmt.Errorf("the routes of the %s service: %w", name, err)
		}
	}
	return mux, nil
}

// incoming names the headers that reach the service. Authorization goes there
// by itself.
func incoming(header string) (string, bool) {
	switch textproto.CanonicalMIMEHeaderKey(header) {
	case "Daybreak-Session":
		return access.SessionHeader, true
	case "Daybreak-Key":
		return access.KeyHeader, true
	case "Daybreak-Request-Id":
		return service.RequestIDHeader, true
	case "Idempotency-Key":
		return service.IdempotencyHeader, true
	}
	return "", false
}

// outgoing names the reply's metadata that become headers.
func outgoing(name string) (string, bool) {
	return name, name == service.RequestIDHeader
}

// peerOf tells the service where a request came from.
func peerOf(_ context.Context, r *http.Request) metadata.MD {
	return metadata.Pairs(access.PeerHeader, r.RemoteAddr)
}

// strict refuses query parameters that are no fields of the request, which the
// gateway passes over. It stands where the request's message is known.
type strict struct{ grpc.ClientConnInterface }

type queryKey struct{}

func (s strict) Invoke(ctx context.Context, method string, args, reply any, opts ...grpc.CallOption) error {
	query, _ := ctx.Value(queryKey{}).(url.Values)
	if m, ok := args.(proto.Message); ok && len(query) > 0 {
		if err := unknownQuery(m.ProtoReflect().Descriptor(), query); err != nil {
			return status.Error(codes.InvalidArgument, err.Error()) // named again with its details by failed
		}
	}
	return s.ClientConnInterface.Invoke(ctx, method, args, reply, opts...)
}
