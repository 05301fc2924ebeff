package web_test

import (
	"bufio"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"testing"
	"time"

	"daybreak/api"
	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/service"
	"daybreak/internal/service/access"

	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/metadata"
	"google.golang.org/protobuf/encoding/protojson"
)

// route is one path and method of the contract, with a name put in where it
// has one.
type route struct{ method, path string }

func routes(t testing.TB) []route {
	t.Helper()
	var doc struct {
		Paths map[string]map[string]struct {
			Parameters []struct{ Name, In, Pattern string }
		}
	}
	require.NoError(t, json.Unmarshal(api.OpenAPI, &doc))
	var out []route
	for path, methods := range doc.Paths {
		for method, operation := range methods {
			full := path
			for _, p := range operation.Parameters {
				if p.In == "path" {
					collection, _, _ := strings.Cut(p.Pattern, "/")
					full = strings.Replace(full, "{"+p.Name+"}", collection+"/00000000000000000000000000", 1)
				}
			}
			require.NotContains(t, full, "{")
			out = append(out, route{strings.ToUpper(method), full})
		}
	}
	require.GreaterOrEqual(t, len(out), 18)
	return out
}

// Every route of the contract refuses a body or query that does not fit, and a
// caller it does not know.
func TestEveryRouteRefuses(t *testing.T) {
	f := open(t)
	for _, r := range routes(t) {
		t.Run(r.method+" "+r.path, func(t *testing.T) {
			body, path := "", r.path
			if r.method == "POST" {
				body = `{"nonsense": 1}`
			} else {
				path += "?nonsense=1"
			}
			status, _, got := f.call(r.method, path, body)
			require.Equal(t, http.StatusBadRequest, status, "%s", got)
			_, field, says := refused(t, got)
			require.Equal(t, "nonsense", field)
			require.Contains(t, says, "not known")

			if r.method == "POST" {
				body = "{}"
			}
			status, _, got = f.call(r.method, r.path, body, access.KeyHeader, "secret-canary")
			require.Equal(t, http.StatusUnauthorized, status, "%s", got)
			reason, _, _ := refused(t, got)
			require.Equal(t, "CREDENTIAL_UNKNOWN", reason)
			require.NotContains(t, string(got), "canary")

			elsewhere := httptest.NewRequest(r.method, "http://localhost"+r.path, strings.NewReader(body))
			elsewhere.Header.Set("Content-Type", "application/json")
			elsewhere.Header.Set(access.PeerHeader, "127.0.0.1:1") // what a caller says of itself does not count
			elsewhere.RemoteAddr = "192.0.2.1:4711"
			w := httptest.NewRecorder()
			f.handler.ServeHTTP(w, elsewhere)
			require.Equal(t, http.StatusUnauthorized, w.Code, "%s", w.Body)
			reason, _, _ = refused(t, w.Body.Bytes())
			require.Equal(t, "CREDENTIAL_MISSING", reason)
		})
	}
}

func TestRefusedBodiesNameTheField(t *testing.T) {
	f := open(t)
	name := f.begin()
	for _, c := range []struct {
		name, method, path, body string
		status                   int
		reason, field, says      string
	}{
		{"unknown field, deep", "POST", "/v1/quotes:compose", `{"facts": {"panel": {"servis_amps": 200}}}`, 400, "INVALID_FIELD", "facts.panel.servis_amps", "service_amps"},
		{"unknown enum", "POST", "/v1/quotes:compose", `{"facts": {"place": {"parking": "PARKING_MOON"}}}`, 400, "INVALID_FIELD", "facts.place.parking", "PARKING_ATTACHED"},
		{"number of no enum", "POST", "/v1/quotes:compose", `{"facts": {"place": {"parking": 99}}}`, 400, "INVALID_FIELD", "facts.place.parking", "attached"},
		{"text for a number", "POST", "/v1/quotes:compose", `{"facts": {"panel": {"service_amps": "many"}}}`, 400, "INVALID_FIELD", "facts.panel.service_amps", "a number"},
		{"NaN", "POST", "/v1/quotes:compose", `{"facts": {"panel": {"service_amps": "NaN"}}}`, 400, "INVALID_FIELD", "facts.panel.service_amps", "finite"},
		{"negative feet", "POST", "/v1/quotes:compose", `{"facts": {"route": {"panel_to_charger_feet": -5}}}`, 400, "INVALID_FIELD", "facts.route.panel_to_charger_feet", "1 to 400 ft"},
		{"10⁹ miles", "POST", "/v1/quotes:compose", `{"facts": {"driving": {"annual_miles": 1e9}}}`, 400, "INVALID_FIELD", "facts.driving.annual_miles", "0 to 150000 mi"},
		{"derived", "POST", "/v1/quotes:compose", `{"facts": {"derived": [{"path": "place.time_zone"}]}}`, 400, "INVALID_FIELD", "facts.derived", "replies only"},
		{"a list where an object belongs", "POST", "/v1/quotes:compose", `{"facts": []}`, 400, "INVALID_FIELD", "facts", "object"},
		{"the same field twice", "POST", "/v1/quotes:compose", `{"facts": {}, "facts": {}}`, 400, "INVALID_FIELD", "body", "each field once"},
		{"malformed", "POST", "/v1/quotes:compose", "{\"facts\":\n {]}", 400, "INVALID_FIELD", "body", "line 2, column 3"},
		{"two objects", "POST", "/v1/quotes:compose", `{} {}`, 400, "INVALID_FIELD", "body", "one JSON object"},
		{"nested too deep", "POST", "/v1/quotes:compose", strings.Repeat("[", 100) + strings.Repeat("]", 100), 400, "INVALID_FIELD", "body", "at most 64 deep"},
		{"two answers in one", "POST", "/v1/" + name + ":answer", `{"answers": [{"question": "driving.weekday", "hour": 3, "skip": {}}]}`, 400, "INVALID_FIELD", "answers[0].skip", "only one of"},
		{"3 KB of text", "POST", "/v1/" + name + ":answer", `{"answers": [{"question": "place.postal", "text": "` + strings.Repeat("0", 3<<10) + `"}]}`, 400, "INVALID_FIELD", "answers[0].text", "1 to 64 characters"},
		{"no request id", "POST", "/v1/sessions", `{}`, 400, "INVALID_FIELD", "request_id", "a UUID"},
		{"answer that does not apply", "POST", "/v1/" + name + ":answer", `{"answers": [{"question": "outlet.reachable", "choice": "none"}, {"question": "outlet.face", "choice": "n14_50"}]}`, 400, "DOES_NOT_APPLY", "answers[1].question", "that applies"},
		{"stale revision", "POST", "/v1/" + name + ":answer", `{"base_revision": "7-00000000", "answers": [{"question": "driving.weekday", "unsure": {}}]}`, 409, "STALE_REVISION", "base_revision", "a revision"},
		{"a battery of nothing", "POST", "/v1/design:assessReadiness", `{"case": {"car": {"usable_kwh": 0}, "miles": {"average_miles": 30}, "climate": {"station": "Burlington"}, "options": [{"wall_kw": 1.44}]}}`, 400, "INVALID_FIELD", "case.car.usable_kwh", "5 to 250 kWh"},
		{"NaN for a month", "POST", "/v1/design:compareTariffs", `{"case": {"car": {"archetype": "ARCHETYPE_VAN"}, "miles": {"average_miles": 30}, "climate": {"monthly_mean_f": ["NaN"]}, "options": [{"wall_kw": 1.44}]}}`, 400, "INVALID_FIELD", "case.climate.monthly_mean_f[0]", "finite"},
		{"half a pair", "POST", "/v1/design:checkCompatibility", `{"case": {"inlet": "INLET_J3400"}}`, 400, "INVALID_FIELD", "case.connector", "inlet is told"},
		{"no such path", "GET", "/v1/nowhere", "", 404, "NOT_FOUND", "path", "nowhere"},
		{"another method", "PUT", "/v1/sessions", `{}`, 405, "METHOD_NOT_ALLOWED", "method", "openapi.json"},
		{"bad view", "GET", "/v1/" + name + "?view=ALL", "", 400, "INVALID_FIELD", "query", "openapi.json"},
	} {
		t.Run(c.name, func(t *testing.T) {
			status, header, got := f.call(c.method, c.path, c.body)
			require.Equal(t, c.status, status, "%s", got)
			reason, field, says := refused(t, got)
			require.Equal(t, c.reason, reason)
			require.Equal(t, c.field, field)
			require.Contains(t, says, c.says)
			require.NotEmpty(t, header.Get(service.RequestIDHeader))
		})
	}
	status, _, got := f.call("GET", "/v1/"+name, "")
	require.Equal(t, http.StatusOK, status)
	require.NotContains(t, string(got), `"entries"`, "nothing was applied")
}

// The engines of a year answer over REST as over gRPC.
func TestYearsAndFitsOverREST(t *testing.T) {
	f := open(t)
	household := `"miles": {"average_miles": 35}, "climate": {"station": "Burlington"}, "options": [{"wall_kw": 1.44}, {"wall_kw": 7.68}]`
	for _, c := range []struct {
		name, method, path, body string
		has                      []string
	}{
		{"short days", "POST", "/v1/design:assessReadiness", `{"case": {"car": {"vehicle": "vehicles/mid-sedan-long"}, ` + household + `}}`, []string{`"caused_days"`, `"uncurable_days"`, `"worst_month"`, `"public_kwh"`}},
		{"fuel", "POST", "/v1/design:assessReadiness", `{"case": {"car": {"archetype": "ARCHETYPE_PHEV_SEDAN"}, ` + household + `}}`, []string{`"fuel_miles"`}},
		{"what fits", "POST", "/v1/design:checkCompatibility", `{"case": {"inlet": "INLET_J3400", "connector": "CONNECTOR_J1772", "setting_amps": 40}}`, []string{`"JOINT_WITH_ADAPTER"`, `"adapter_amps"`, `"never"`}},
		{"a year of tariffs", "POST", "/v1/design:compareTariffs", `{"as_of_date": "2026-11-25", "case": {"car": {"vehicle": "vehicles/mid-sedan-long"}, ` + household + `}}`, []string{`"tariffs/aml-evening"`, `"scheduled"`, `"saves"`, `"revision"`}},
		{"the list of tariffs", "GET", "/v1/catalogue/tariffs", "", []string{`"tariffs/aml-overnight-car"`, `"charging_only"`, `"invented for the demo"`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			status, _, body := f.call(c.method, c.path, c.body)
			require.Equal(t, http.StatusOK, status, "%s", body)
			for _, has := range c.has {
				require.Contains(t, string(body), has)
			}
		})
	}
}

func TestALargeBodyIsRefusedUnread(t *testing.T) {
	f := open(t)
	for _, chunked := range []bool{false, true} {
		var body io.Reader = strings.NewReader(strings.Repeat("x", 10<<20))
		if chunked {
			body = io.MultiReader(body) // no length to be read from the header
		}
		req, err := http.NewRequest("POST", f.server.URL+"/v1/quotes:compose", body)
		require.NoError(t, err)
		req.Header.Set("Content-Type", "application/json")
		resp, err := http.DefaultClient.Do(req)
		if err != nil {
			continue // the server had answered and hung up before all was sent
		}
		got, err := io.ReadAll(resp.Body)
		require.NoError(t, err)
		require.NoError(t, resp.Body.Close())
		require.Equal(t, http.StatusRequestEntityTooLarge, resp.StatusCode)
		reason, field, says := refused(t, got)
		require.Equal(t, "REQUEST_TOO_LARGE", reason)
		require.Equal(t, "request", field)
		require.Contains(t, says, "65536 bytes (64 KiB)")
	}
}

func TestOtherSitesAndHostsAreRefused(t *testing.T) {
	f := open(t)
	for _, c := range []struct {
		name    string
		headers []string
		status  int
		reason  string
	}{
		{"another host", []string{"Host", "shop.example"}, 403, "OTHER_HOST"},
		{"another site", []string{"Origin", "https://shop.example"}, 403, "OTHER_SITE"},
		{"a form of another kind", []string{"Content-Type", "text/plain"}, 400, "INVALID_FIELD"},
	} {
		t.Run(c.name, func(t *testing.T) {
			status, header, got := f.call("POST", "/v1/quotes:compose", `{"facts": {}}`, c.headers...)
			require.Equal(t, c.status, status, "%s", got)
			reason, _, _ := refused(t, got)
			require.Equal(t, c.reason, reason)
			require.Empty(t, header.Get("Access-Control-Allow-Origin"))
		})
	}
}

func TestWrongSecretsAreRefused(t *testing.T) {
	f := open(t)
	name := f.begin()
	mine := f.secret
	for secret, reason := range map[string]string{"": "SESSION_SECRET_MISSING", "guess": "SESSION_SECRET_WRONG", mine + "x": "SESSION_SECRET_WRONG"} {
		f.secret = secret
		for _, path := range []string{"/v1/" + name, "/v1/" + name + ":watch"} {
			status, _, got := f.call("GET", path, "")
			require.Equal(t, http.StatusUnauthorized, status)
			got_, field, _ := refused(t, got)
			require.Equal(t, reason, got_)
			require.Equal(t, access.SessionHeader, field)
		}
	}
}

func TestHealthPageAndDescription(t *testing.T) {
	f := open(t)
	for path, kind := range map[string]string{"/healthz/live": "text/plain", "/healthz/ready": "text/plain", "/openapi.json": "application/json", "/": "text/html"} {
		status, header, body := f.call("GET", path, "")
		require.Equal(t, http.StatusOK, status, path)
		require.Contains(t, header.Get("Content-Type"), kind)
		require.NotEmpty(t, body)
		require.Equal(t, "nosniff", header.Get("X-Content-Type-Options"))
		require.Equal(t, "no-referrer", header.Get("Referrer-Policy"))
		require.Contains(t, header.Get("Content-Security-Policy"), "default-src 'none'")
		require.NotContains(t, header.Get("Content-Security-Policy"), "unsafe")
	}
}

func TestTheSameQuestionByRESTNeedsNoDefaults(t *testing.T) {
	f := open(t)
	status, header, body := f.call("POST", "/v1/quotes:compose", `{"facts": {"vehicle": {"model": "mid-sedan-long"}, "driving": {"weekdayMiles": 35}}, "as_of_date": "2026-11-25"}`)
	require.Equal(t, http.StatusOK, status, "%s", body)
	require.Equal(t, "no-store", header.Get("Cache-Control"))
	var reply struct {
		Quote struct {
			Standing string
			Headline struct{ Text string }
			Options  []struct {
				SettingAmps float64 `json:"setting_amps"`
			}
		}
	}
	require.NoError(t, json.Unmarshal(body, &reply))
	require.Equal(t, "STANDING_BALLPARK", reply.Quote.Standing)
	require.NotEmpty(t, reply.Quote.Headline.Text)
	require.NotEmpty(t, reply.Quote.Options)
}

// The same household by REST and by gRPC is the same quote, byte for byte.
func TestBothFrontsGiveTheSameBody(t *testing.T) {
	f := open(t)
	for _, id := range []string{"V01", "V05", "V15"} {
		raw, err := os.ReadFile("../../testdata/households/" + id + ".json")
		require.NoError(t, err)
		var doc struct{ Facts json.RawMessage }
		require.NoError(t, json.Unmarshal(raw, &doc))
		status, _, body := f.call("POST", "/v1/quotes:compose", `{"as_of_date": "2026-11-25", "view": "QUOTE_VIEW_CANONICAL", "facts": `+string(doc.Facts)+`}`)
		require.Equal(t, http.StatusOK, status, "%s", body)
		var reply struct {
			Body []byte `json:"canonical_body"`
		}
		require.NoError(t, json.Unmarshal(body, &reply))

		facts := &daybreakv1.Facts{}
		require.NoError(t, protojson.Unmarshal(doc.Facts, facts))
		ctx := metadata.AppendToOutgoingContext(context.Background(), access.PeerHeader, "127.0.0.1:1")
		direct, err := daybreakv1.NewQuoteServiceClient(f.channel).ComposeQuote(ctx, &daybreakv1.ComposeQuoteRequest{
			Facts: facts, AsOfDate: "2026-11-25", View: daybreakv1.QuoteView_QUOTE_VIEW_CANONICAL,
		})
		require.NoError(t, err)
		require.NotEmpty(t, reply.Body)
		require.Equal(t, string(direct.GetCanonicalBody()), string(reply.Body))
	}
}

func TestWatchIsServerSentEvents(t *testing.T) {
	f := open(t)
	name := f.begin()
	ctx, stop := context.WithTimeout(context.Background(), 10*time.Second)
	defer stop()
	req, err := http.NewRequestWithContext(ctx, "GET", f.server.URL+"/v1/"+name+":watch", nil)
	require.NoError(t, err)
	req.Header.Set(access.SessionHeader, f.secret)
	resp, err := http.DefaultClient.Do(req)
	require.NoError(t, err)
	defer resp.Body.Close()
	require.Equal(t, "text/event-stream", resp.Header.Get("Content-Type"))
	lines := bufio.NewScanner(resp.Body)
	lines.Buffer(nil, 1<<20)
	next := func(prefix string) string {
		for lines.Scan() {
			if strings.HasPrefix(lines.Text(), prefix) {
				return lines.Text()
			}
		}
		require.Fail(t, "the stream ended", lines.Err())
		return ""
	}
	first := next("id: ")
	require.Contains(t, next("data: "), name)
	for range 8 {
		require.Equal(t, ": still here", next(":"), "a quiet stream says that it lives")
	}
	status, _, body := f.call("POST", "/v1/"+name+":answer", `{"answers": [{"question": "driving.weekday", "number": {"value": 40}}]}`)
	require.Equal(t, http.StatusOK, status, "%s", body)
	require.NotEqual(t, first, next("id: "))
	status, _, _ = f.call("DELETE", "/v1/"+name, "")
	require.Equal(t, http.StatusOK, status)
	require.Equal(t, "event: error", next("event: error"))
	require.Contains(t, next("data: "), "NOT_FOUND")
}
