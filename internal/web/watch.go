package web

import (
	"fmt"
	"io"
	"net/http"
	"strings"
	"time"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/service"
	"daybreak/internal/service/access"

	"google.golang.org/grpc/metadata"
	"google.golang.org/grpc/status"
)

// writeTime bounds one write to a reader of an event stream.
const writeTime = 10 * time.Second

// watching takes the route of WatchSession out of the gateway's hands, which
// would send lines of JSON: it answers with server-sent events.
func (f *front) watching(gateway http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		id, isSession := strings.CutPrefix(r.URL.Path, "/v1/sessions/")
		id, isWatch := strings.CutSuffix(id, ":watch")
		if !isSession || !isWatch || r.Method != http.MethodGet || strings.Contains(id, "/") {
			gateway.ServeHTTP(w, r)
			return
		}
		f.watch(w, r, "sessions/"+id)
	})
}

// watch sends one event for every state of the session that is read, the
// newest first, and a comment while nothing happens.
func (f *front) watch(w http.ResponseWriter, r *http.Request, name string) {
	if err := unknownQuery((&daybreakv1.WatchSessionRequest{}).ProtoReflect().Descriptor(), r.URL.Query()); err != nil {
		f.refuse(w, r, err)
		return
	}
	view, ok := daybreakv1.SessionView_value[r.URL.Query().Get("view")]
	req := &daybreakv1.WatchSessionRequest{Name: name, View: daybreakv1.SessionView(view)}
	if given := r.URL.Query().Get("view"); given != "" && !ok {
		req.View = -1 // refused behind the channel, with what is accepted
	}
	stream, err := daybreakv1.NewIntakeServiceClient(f.Channel).WatchSession(metadata.NewOutgoingContext(r.Context(), headersOf(r)), req)
	if err != nil {
		f.write(w, status.Convert(err))
		return
	}
	first, err := stream.Recv()
	if err != nil {
		f.write(w, status.Convert(err))
		return
	}
	w.Header().Set("Content-Type", "text/event-stream")
	w.Header().Set("X-Accel-Buffering", "no")
	events := make(chan *daybreakv1.WatchSessionResponse)
	ended := make(chan error, 1)
	go receive(stream, events, ended)
	out := eventStream{w: w, rc: http.NewResponseController(w)}
	// The request was read whole; the server's limit on that must not end the reply.
	if out.rc.SetReadDeadline(time.Time{}) != nil || out.session(first) != nil {
		return
	}
	beat := time.NewTicker(f.Heartbeat)
	defer beat.Stop()
	for err == nil {
		select {
		case e := <-events:
			err = out.session(e)
		case <-beat.C:
			err = out.write(": still here\n\n")
		case err = <-ended:
			if s := status.Convert(err); err != io.EOF && r.Context().Err() == nil {
				_ = out.failed(s) // the stream ends either way
			}
		}
	}
}

// receive hands events on until the stream ends or nobody takes them.
func receive(stream daybreakv1.IntakeService_WatchSessionClient, events chan<- *daybreakv1.WatchSessionResponse, ended chan<- error) {
	for {
		e, err := stream.Recv()
		if err != nil {
			ended <- err
			return
		}
		select {
		case events <- e:
		case <-stream.Context().Done():
			ended <- stream.Context().Err()
			return
		}
	}
}

// eventStream writes server-sent events, each within its time.
type eventStream struct {
	w  http.ResponseWriter
	rc *http.ResponseController
}

func (o eventStream) session(e *daybreakv1.WatchSessionResponse) error {
	data, err := marshaler.Marshal(e)
	if err != nil {
		return err
	}
	return o.write(fmt.Sprintf("id: %s\nevent: session\ndata: %s\n\n", e.GetSession().GetRevision(), data))
}

func (o eventStream) failed(s *status.Status) error {
	data, err := marshaler.Marshal(s.Proto())
	if err != nil {
		return err
	}
	return o.write(fmt.Sprintf("event: error\ndata: %s\n\n", data))
}

func (o eventStream) write(text string) error {
	if err := o.rc.SetWriteDeadline(time.Now().Add(writeTime)); err != nil {
		return err
	}
	if _, err := io.WriteString(o.w, text); err != nil {
		return err
	}
	return o.rc.Flush()
}

// headersOf are the request's credentials as the service reads them.
func headersOf(r *http.Request) metadata.MD {
	md := peerOf(r.Context(), r)
	for _, name := range []string{access.SessionHeader, access.KeyHeader, access.BearerHeader, service.RequestIDHeader} {
		if v := r.Header.Get(name); v != "" {
			md.Set(name, v)
		}
	}
	return md
}
