package service

import (
	"context"
	"errors"
	"log/slog"
	"time"

	"daybreak/internal/fault"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/protoadapt"
	"google.golang.org/protobuf/types/known/durationpb"
)

// domain names the service in every ErrorInfo.
const domain = "daybreak"

// retryAfter is when trying again may do, for what is away or exhausted.
const retryAfter = time.Second

// Status is what a caller is told of an error: the one place where a kind of
// fault becomes a code, details and so a reply over REST. An error that is no
// fault is internal: it is logged whole and shown to nobody.
func Status(ctx context.Context, log *slog.Logger, err error) error {
	if err == nil {
		return nil
	}
	faults := fault.All(err)
	if len(faults) == 0 || faults[0].File != "" { // a broken file is ours to mend
		return unfaulted(ctx, log, err)
	}
	first := faults[0]
	info := &errdetails.ErrorInfo{Reason: first.Reason, Domain: domain, Metadata: map[string]string{"request_id": requestID(ctx)}}
	if first.Current != "" {
		info.Metadata["current_revision"] = first.Current
	}
	text := message(faults)
	details := []protoadapt.MessageV1{
		protoadapt.MessageV1Of(info),
		protoadapt.MessageV1Of(&errdetails.LocalizedMessage{Locale: "en-US", Message: text}),
	}
	if bad := badRequest(faults); len(bad.GetFieldViolations()) > 0 {
		details = append(details, protoadapt.MessageV1Of(bad))
	}
	if first.Kind == fault.KindNotFound {
		details = append(details, protoadapt.MessageV1Of(&errdetails.ResourceInfo{ResourceName: first.Got, Description: first.Accepted}))
	}
	if first.Kind == fault.KindExhausted || first.Kind == fault.KindUnavailable {
		details = append(details, protoadapt.MessageV1Of(&errdetails.RetryInfo{RetryDelay: durationpb.New(retryAfter)}))
	}
	return withDetails(code(first), text, details)
}

// unfaulted is an error from below that is no fault: a deadline, a call given
// up, a status made by the transport, or one of ours that must not be seen.
func unfaulted(ctx context.Context, log *slog.Logger, err error) error {
	switch {
	case errors.Is(err, context.DeadlineExceeded):
		return withDetails(codes.DeadlineExceeded, "the deadline passed before the answer was ready", reasonOnly(ctx, "DEADLINE_PASSED"))
	case errors.Is(err, context.Canceled):
		return withDetails(codes.Canceled, "the call was given up", reasonOnly(ctx, "CALL_GIVEN_UP"))
	}
	if s, ok := status.FromError(err); ok && s.Code() != codes.Unknown && s.Code() != codes.Internal {
		return s.Err()
	}
	log.LogAttrs(ctx, slog.LevelError, "internal error", slog.String("request_id", requestID(ctx)), slog.String("error", err.Error()))
	return withDetails(codes.Internal, "internal error, request "+requestID(ctx), reasonOnly(ctx, "INTERNAL"))
}

func reasonOnly(ctx context.Context, reason string) []protoadapt.MessageV1 {
	return []protoadapt.MessageV1{protoadapt.MessageV1Of(&errdetails.ErrorInfo{
		Reason: reason, Domain: domain, Metadata: map[string]string{"request_id": requestID(ctx)},
	})}
}

func withDetails(c codes.Code, text string, details []protoadapt.MessageV1) error {
	s, err := status.New(c, text).WithDetails(details...)
	if err != nil { // only an OK status cannot carry details, and c is none
		return status.Error(c, text)
	}
	return s.Err()
}

// code is the canonical code of a fault.
func code(f *fault.Fault) codes.Code {
	switch f.Kind {
	case fault.KindInvalid:
		return codes.InvalidArgument
	case fault.KindNotFound:
		return codes.NotFound
	case fault.KindConflict:
		if f.Reason == "STALE_REVISION" {
			return codes.Aborted
		}
		return codes.AlreadyExists
	case fault.KindDenied:
		return codes.Unauthenticated
	case fault.KindPrecondition:
		return codes.FailedPrecondition
	case fault.KindExhausted:
		return codes.ResourceExhausted
	case fault.KindUnavailable:
		return codes.Unavailable
	}
	return codes.Internal
}

// message is the first fault in words, and how many more there are.
func message(faults []*fault.Fault) string {
	text := faults[0].Error()
	switch n := len(faults) - 1; {
	case n == 1:
		text += " (and one more)"
	case n > 1:
		text += " (and more: see the details)"
	}
	return text
}

// badRequest names every field of the request that a fault names.
func badRequest(faults []*fault.Fault) *errdetails.BadRequest {
	bad := &errdetails.BadRequest{}
	for _, f := range faults {
		if f.Field == "" || f.File != "" {
			continue
		}
		bad.FieldViolations = append(bad.FieldViolations, &errdetails.BadRequest_FieldViolation{
			Field: f.Field, Description: f.Error(), Reason: f.Reason,
		})
	}
	return bad
}
