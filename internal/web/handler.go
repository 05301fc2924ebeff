package web

import (
	"context"
	"fmt"
	"log/slog"
	"net/http"
	"time"

	"daybreak/api"
	"daybreak/internal/web/page"

	"google.golang.org/grpc"
)

// Config is what the web front is made of. Channel is needed.
type Config struct {
	// Channel leads to the service, such as service.Server.Channel.
	Channel grpc.ClientConnInterface
	// Ready says whether the service can do its work; nil is always.
	Ready func(context.Context) error
	// LocalHostsOnly refuses requests whose Host is no loopback name, so that a
	// page of another site cannot reach a service that asks for no credential.
	LocalHostsOnly bool
	// Heartbeat is how often a quiet event stream says that it lives; 0 is 15 s.
	Heartbeat time.Duration
	Log       *slog.Logger // nil is silence
}

// front is the web front at work.
type front struct {
	Config
}

// New makes the handler of every path.
func New(c Config) (http.Handler, error) {
	if c.Log == nil {
		c.Log = slog.New(slog.DiscardHandler)
	}
	if c.Heartbeat <= 0 {
		c.Heartbeat = 15 * time.Second
	}
	f := &front{Config: c}
	gateway, err := f.gateway()
	if err != nil {
		return nil, err
	}
	chat, err := page.Handler()
	if err != nil {
		return nil, fmt.Errorf("the chat page: %w", err)
	}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /healthz/live", live)
	mux.HandleFunc("GET /healthz/ready", f.ready)
	mux.HandleFunc("GET /openapi.json", openAPI)
	mux.Handle("/v1/", f.rest(f.watching(gateway)))
	mux.Handle("/", chat)
	return f.outer(mux), nil
}

// NewServer is an HTTP server with the time limits of a public one. Event
// streams set their own write deadlines.
func NewServer(h http.Handler) *http.Server {
	return &http.Server{
		Handler:           h,
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       10 * time.Second,
		IdleTimeout:       time.Minute,
		MaxHeaderBytes:    16 << 10,
	}
}

func live(w http.ResponseWriter, _ *http.Request) { say(w, http.StatusOK, "live") }

func (f *front) ready(w http.ResponseWriter, r *http.Request) {
	if f.Ready != nil {
		if err := f.Ready(r.Context()); err != nil {
			f.Log.LogAttrs(r.Context(), slog.LevelWarn, "not ready", slog.String("error", err.Error()))
			say(w, http.StatusServiceUnavailable, "not ready")
			return
		}
	}
	say(w, http.StatusOK, "ready")
}

func say(w http.ResponseWriter, status int, word string) {
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	_, _ = w.Write([]byte(word + "\n")) // whoever asked has gone; there is nobody to tell
}

func openAPI(w http.ResponseWriter, _ *http.Request) {
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Cache-Control", "no-cache")
	_, _ = w.Write(api.OpenAPI) // whoever asked has gone; there is nobody to tell
}
