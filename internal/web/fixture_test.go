package web_test

import (
	"bytes"
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"daybreak/internal/service"
	"daybreak/internal/service/access"
	"daybreak/internal/shop"
	"daybreak/internal/shop/alderbay"
	"daybreak/internal/store/embedded"
	"daybreak/internal/web"

	"github.com/google/uuid"
	"github.com/stretchr/testify/require"
	"go.uber.org/goleak"
	"google.golang.org/grpc"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// front is the demo shop over HTTP.
type front struct {
	t       testing.TB
	server  *httptest.Server
	secret  string
	channel grpc.ClientConnInterface
	handler http.Handler
}

func open(t testing.TB) *front {
	t.Helper()
	books, err := shop.Open(alderbay.Files())
	require.NoError(t, err)
	kept, err := embedded.Open(embedded.Config{Dir: t.TempDir()})
	require.NoError(t, err)
	keys, err := access.NewKeyring(bytes.Repeat([]byte("k"), access.KeySize))
	require.NoError(t, err)
	srv, err := service.New(service.Config{Books: books, Store: kept, Keys: keys, Policy: access.Policy{OpenShop: books.ID}})
	require.NoError(t, err)
	h, err := web.New(web.Config{Channel: srv.Channel(), Ready: srv.Ready, LocalHostsOnly: true, Heartbeat: 50 * time.Millisecond})
	require.NoError(t, err)
	f := &front{t: t, server: httptest.NewUnstartedServer(h), channel: srv.Channel(), handler: h}
	f.server.Config = web.NewServer(h)
	f.server.Config.ReadTimeout = 200 * time.Millisecond // an event stream outlives it
	f.server.Start()
	t.Cleanup(func() {
		f.server.Close()
		srv.Stop(time.Second)
		require.NoError(t, kept.Close())
		http.DefaultClient.CloseIdleConnections()
	})
	return f
}

// call sends a request and returns status, header and body.
func (f *front) call(method, path, body string, headers ...string) (int, http.Header, []byte) {
	f.t.Helper()
	req, err := http.NewRequest(method, f.server.URL+path, strings.NewReader(body))
	require.NoError(f.t, err)
	if body != "" {
		req.Header.Set("Content-Type", "application/json")
	}
	if f.secret != "" {
		req.Header.Set(access.SessionHeader, f.secret)
	}
	for i := 0; i+1 < len(headers); i += 2 {
		if headers[i] == "Host" {
			req.Host = headers[i+1]
			continue
		}
		req.Header.Set(headers[i], headers[i+1])
	}
	resp, err := http.DefaultClient.Do(req)
	require.NoError(f.t, err)
	defer resp.Body.Close()
	got, err := io.ReadAll(resp.Body)
	require.NoError(f.t, err)
	return resp.StatusCode, resp.Header, got
}

// refusal is an error as REST tells it.
type refusal struct {
	Code    int
	Message string
	Details []struct {
		Type            string `json:"@type"`
		Reason, Domain  string
		FieldViolations []struct{ Field, Description string } `json:"field_violations"`
		Metadata        map[string]string
	}
}

func refused(t testing.TB, body []byte) (reason, field, says string) {
	t.Helper()
	var r refusal
	require.NoError(t, json.Unmarshal(body, &r), "%s", body)
	require.NotEmpty(t, r.Message)
	for _, d := range r.Details {
		if d.Reason != "" {
			require.Equal(t, "daybreak", d.Domain)
			require.NotEmpty(t, d.Metadata["request_id"])
			reason = d.Reason
		}
		if len(d.FieldViolations) > 0 {
			field, says = d.FieldViolations[0].Field, d.FieldViolations[0].Description
		}
	}
	require.NotEmpty(t, reason, "%s", body)
	return reason, field, says
}

func (f *front) begin() string {
	f.t.Helper()
	status, _, body := f.call("POST", "/v1/sessions", `{"locale": "en-US"}`, "Idempotency-Key", uuid.NewString())
	require.Equal(f.t, http.StatusOK, status, "%s", body)
	var reply struct {
		Secret  string
		Session struct{ Name string }
	}
	require.NoError(f.t, json.Unmarshal(body, &reply))
	f.secret = reply.Secret
	return reply.Session.Name
}
