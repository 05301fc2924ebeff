package web

import (
	"context"
	"net/http"

	"daybreak/internal/service"

	"github.com/grpc-ecosystem/grpc-gateway/v2/runtime"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
)

// refuse answers with a fault found before the service was asked.
func (f *front) refuse(w http.ResponseWriter, r *http.Request, err error) {
	f.write(w, status.Convert(service.Status(service.WithRequestID(r.Context(), r.Header.Get(service.RequestIDHeader)), f.Log, err)))
}

// failed answers with what the gateway or the service found wrong. The gateway
// tells of a body or query it could not read in text alone; the field is then
// found again and named by its path.
func (f *front) failed(ctx context.Context, _ *runtime.ServeMux, _ runtime.Marshaler, w http.ResponseWriter, r *http.Request, err error) {
	s := status.Convert(err)
	if reply, ok := runtime.ServerMetadataFromContext(ctx); ok {
		for _, id := range reply.HeaderMD.Get(service.RequestIDHeader) {
			w.Header().Set(service.RequestIDHeader, id)
		}
	}
	if len(s.Details()) == 0 {
		f.refuse(w, r, unread(ctx, r, s))
		return
	}
	f.write(w, s)
}

func (f *front) write(w http.ResponseWriter, s *status.Status) {
	body, err := marshaler.Marshal(s.Proto())
	if err != nil { // details are ours and always known
		body = []byte(`{"code":13,"message":"internal error"}`)
	}
	w.Header().Set("Content-Type", "application/json")
	info := infoOf(s)
	if s.Code() == codes.ResourceExhausted || s.Code() == codes.Unavailable {
		w.Header().Set("Retry-After", "1")
	}
	if id := info.GetMetadata()["request_id"]; id != "" && w.Header().Get(service.RequestIDHeader) == "" {
		w.Header().Set(service.RequestIDHeader, id)
	}
	w.WriteHeader(httpStatus(s.Code(), info.GetReason()))
	_, _ = w.Write(body) // whoever asked has gone; there is nobody to tell
}

func infoOf(s *status.Status) *errdetails.ErrorInfo {
	for _, d := range s.Details() {
		if info, ok := d.(*errdetails.ErrorInfo); ok {
			return info
		}
	}
	return nil
}

// httpStatus is the HTTP status of a code; a few reasons have one of their own.
func httpStatus(c codes.Code, reason string) int {
	switch reason {
	case "REQUEST_TOO_LARGE":
		return http.StatusRequestEntityTooLarge
	case "METHOD_NOT_ALLOWED":
		return http.StatusMethodNotAllowed
	case "OTHER_HOST", "OTHER_SITE":
		return http.StatusForbidden
	}
	return runtime.HTTPStatusFromCode(c)
}
