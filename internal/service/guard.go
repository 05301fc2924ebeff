package service

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"runtime/debug"
	"time"

	"daybreak/internal/fault"
	"daybreak/internal/service/access"

	"buf.build/go/protovalidate"
	"github.com/google/uuid"
	"google.golang.org/grpc"
	"google.golang.org/grpc/metadata"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// RequestIDHeader names a call in every reply and in the log.
const RequestIDHeader = "daybreak-request-id"

// IdempotencyHeader does what the field request_id does, where a caller sets
// headers more easily than fields.
const IdempotencyHeader = "idempotency-key"

// unaryTime bounds a call whose caller set no deadline.
const unaryTime = 20 * time.Second

// guard is the one way in. Every call of every front passes its steps in this
// order: request id, limits, access, validation, handler, status.
type guard struct {
	policy   access.Policy
	validate protovalidate.Validator
	log      *slog.Logger
	seats    chan struct{} // calls at work at once
	streams  chan struct{} // streams open at once
}

func newGuard(c Config) (*guard, error) {
	v, err := protovalidate.New()
	if err != nil {
		return nil, fmt.Errorf("reading the declared validation: %w", err)
	}
	return &guard{
		policy: c.Policy, validate: v, log: c.Log,
		seats: make(chan struct{}, c.Limits.Calls), streams: make(chan struct{}, c.Limits.Streams),
	}, nil
}

func (g *guard) unary(ctx context.Context, req any, info *grpc.UnaryServerInfo, handler grpc.UnaryHandler) (reply any, err error) {
	ctx = withRequestID(ctx)
	_ = grpc.SetHeader(ctx, metadata.Pairs(RequestIDHeader, requestID(ctx))) // a reply without it is still the reply
	defer func() { err = g.told(ctx, info.FullMethod, recover(), err) }()
	leave, err := take(g.seats)
	if err != nil {
		return nil, err
	}
	defer leave()
	ctx, cancel := bounded(ctx)
	defer cancel()
	if public(info.FullMethod) {
		return handler(ctx, req)
	}
	ctx, err = g.admit(ctx)
	if err != nil {
		return nil, err
	}
	if err := g.sound(ctx, req); err != nil {
		return nil, err
	}
	return handler(ctx, req)
}

func (g *guard) stream(srv any, s grpc.ServerStream, info *grpc.StreamServerInfo, handler grpc.StreamHandler) (err error) {
	ctx := withRequestID(s.Context())
	_ = s.SetHeader(metadata.Pairs(RequestIDHeader, requestID(ctx))) // a reply without it is still the reply
	defer func() { err = g.told(ctx, info.FullMethod, recover(), err) }()
	leave, err := take(g.streams)
	if err != nil {
		return err
	}
	defer leave()
	if public(info.FullMethod) {
		return handler(srv, s)
	}
	if ctx, err = g.admit(ctx); err != nil {
		return err
	}
	return handler(srv, &guardedStream{ServerStream: s, ctx: ctx, guard: g})
}

// guardedStream judges every message a stream receives.
type guardedStream struct {
	grpc.ServerStream
	ctx   context.Context
	guard *guard
}

func (s *guardedStream) Context() context.Context { return s.ctx }

func (s *guardedStream) RecvMsg(m any) error {
	if err := s.ServerStream.RecvMsg(m); err != nil {
		return err
	}
	return s.guard.sound(s.ctx, m)
}

// told turns what a handler left behind, a panic too, into a status.
func (g *guard) told(ctx context.Context, method string, panicked any, err error) error {
	if panicked != nil {
		g.log.LogAttrs(ctx, slog.LevelError, "panic", slog.String("method", method),
			slog.String("request_id", requestID(ctx)), slog.Any("panic", panicked), slog.String("stack", string(debug.Stack())))
		err = errors.New("panic in " + method)
	}
	return Status(ctx, g.log, err)
}

// take takes a seat, or says that all are taken.
func take(seats chan struct{}) (leave func(), err error) {
	select {
	case seats <- struct{}{}:
		return func() { <-seats }, nil
	default:
		return nil, &fault.Fault{
			Kind: fault.KindExhausted, Reason: "TOO_MANY_CALLS",
			Detail: fmt.Sprintf("%d calls are at work, which is the limit; try again in a second", cap(seats)),
		}
	}
}

func bounded(ctx context.Context) (context.Context, context.CancelFunc) {
	if _, has := ctx.Deadline(); has {
		return context.WithCancel(ctx)
	}
	return context.WithTimeout(ctx, unaryTime)
}

func (g *guard) admit(ctx context.Context) (context.Context, error) {
	p, err := g.policy.Enter(ctx)
	if err != nil {
		return ctx, err
	}
	return access.With(ctx, p), nil
}

// sound judges a request: what no rule can name first, then what the contract
// declares.
func (g *guard) sound(ctx context.Context, req any) error {
	m, ok := req.(proto.Message)
	if !ok {
		return fmt.Errorf("a request of type %T is no message", req)
	}
	if err := adoptKey(ctx, m.ProtoReflect()); err != nil {
		return err
	}
	if err := strict(m.ProtoReflect()); err != nil {
		return err
	}
	if err := g.validate.Validate(m); err != nil {
		return violations(m.ProtoReflect().Descriptor(), err)
	}
	return nil
}

// adoptKey fills the field request_id from the header Idempotency-Key.
func adoptKey(ctx context.Context, m protoreflect.Message) error {
	f := m.Descriptor().Fields().ByName("request_id")
	md, _ := metadata.FromIncomingContext(ctx)
	given := md.Get(IdempotencyHeader)
	if f == nil || len(given) == 0 || given[0] == "" {
		return nil
	}
	if in := m.Get(f).String(); in != "" && in != given[0] {
		return fault.Invalid("request_id", in, "the same as the header Idempotency-Key, or one of the two")
	}
	m.Set(f, protoreflect.ValueOfString(given[0]))
	return nil
}

// public are the methods anybody may call: health and reflection.
func public(method string) bool {
	for _, p := range []string{"/grpc.health.v1.Health/", "/grpc.reflection."} {
		if len(method) > len(p) && method[:len(p)] == p {
			return true
		}
	}
	return false
}

type requestIDKey struct{}

// withRequestID names the call: by the caller's own name when it is a UUID,
// else by a new one.
func withRequestID(ctx context.Context) context.Context {
	md, _ := metadata.FromIncomingContext(ctx)
	for _, given := range md.Get(RequestIDHeader) {
		if id, err := uuid.Parse(given); err == nil {
			return context.WithValue(ctx, requestIDKey{}, id.String())
		}
	}
	return context.WithValue(ctx, requestIDKey{}, uuid.NewString())
}

func requestID(ctx context.Context) string {
	id, _ := ctx.Value(requestIDKey{}).(string)
	return id
}

// WithRequestID names a call that is answered before it reaches the guard.
func WithRequestID(ctx context.Context, given string) context.Context {
	return withRequestID(metadata.NewIncomingContext(ctx, metadata.Pairs(RequestIDHeader, given)))
}
