package main

import (
	"encoding/base64"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	daybreakv1 "daybreak/api/daybreak/v1"

	"github.com/google/uuid"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/metadata"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"
)

// factsOf is a check household's facts as JSON, or what is given as such.
func factsOf(t testing.TB, household string) string {
	t.Helper()
	if strings.HasPrefix(household, "{") {
		return household
	}
	raw, err := os.ReadFile(filepath.Join("..", "..", "testdata", "households", household+".json"))
	require.NoError(t, err)
	var whole struct{ Facts json.RawMessage }
	require.NoError(t, json.Unmarshal(raw, &whole))
	return string(whole.Facts)
}

// TestOneHouseholdFourFrontsOneQuote: the terminal, gRPC and REST give the same
// canonical body, byte for byte, and the same fingerprint. The page's own test
// adds the page.
func TestOneHouseholdFourFrontsOneQuote(t *testing.T) {
	s := servingIn(t, t.TempDir())
	conn := s.dial(t)
	for name, told := range map[string]string{
		"V01": "V01", "V04": "V04", "V06": "V06", "V09": "V09", "V15": "V15",
		"two facts": `{"driving": {"weekday_miles": 40}, "panel": {"service_amps": 200}}`,
		"nothing":   `{}`,
	} {
		t.Run(name, func(t *testing.T) {
			json := factsOf(t, told)
			body := daybreak(t, json, "quote", "-", "-o", "canonical", "--as-of", day)
			require.NoError(t, body.err)
			shown := daybreak(t, json, "quote", "-", "-o", "json", "--as-of", day)
			require.NoError(t, shown.err)
			want := &daybreakv1.Quote{}
			require.NoError(t, protojson.Unmarshal([]byte(shown.out), want))
			require.NotEmpty(t, body.out)

			facts := &daybreakv1.Facts{}
			require.NoError(t, protojson.Unmarshal([]byte(json), facts))
			require.Equal(t, body.out, composed(t, conn, facts, daybreakv1.QuoteView_QUOTE_VIEW_CANONICAL).canonical)
			require.Equal(t, want.Fingerprint, composed(t, conn, facts, daybreakv1.QuoteView_QUOTE_VIEW_SUMMARY).fingerprint)

			require.Equal(t, body.out, rest(t, s, json, "QUOTE_VIEW_CANONICAL").canonical)
			full := rest(t, s, json, "QUOTE_VIEW_FULL")
			require.Equal(t, want.Fingerprint, full.fingerprint)
			require.True(t, proto.Equal(want, full.quote), "the terminal's JSON is REST's")
		})
	}
}

// a quote as a front gave it, in the parts it gave.
type given struct {
	canonical, fingerprint string
	quote                  *daybreakv1.Quote
}

func composed(t testing.TB, conn *grpc.ClientConn, facts *daybreakv1.Facts, view daybreakv1.QuoteView) given {
	t.Helper()
	r, err := daybreakv1.NewQuoteServiceClient(conn).ComposeQuote(t.Context(), &daybreakv1.ComposeQuoteRequest{Facts: facts, AsOfDate: day, View: view})
	require.NoError(t, err)
	return given{string(r.CanonicalBody), r.GetQuote().GetFingerprint(), r.Quote}
}

func rest(t testing.TB, s *served, facts, view string) given {
	t.Helper()
	code, raw := fetch(t, "POST", s.http+"/v1/quotes:compose", fmt.Sprintf(`{"facts": %s, "as_of_date": %q, "view": %q}`, facts, day, view), "Content-Type", "application/json")
	require.Equal(t, 200, code, raw)
	return read(t, raw)
}

func read(t testing.TB, raw string) given {
	t.Helper()
	var r struct {
		Quote         json.RawMessage `json:"quote"`
		CanonicalBody string          `json:"canonical_body"`
	}
	require.NoError(t, json.Unmarshal([]byte(raw), &r))
	canonical, err := base64.StdEncoding.DecodeString(r.CanonicalBody)
	require.NoError(t, err)
	q := &daybreakv1.Quote{}
	if len(r.Quote) > 0 {
		require.NoError(t, protojson.Unmarshal(r.Quote, q))
	}
	return given{string(canonical), q.Fingerprint, q}
}

// conversation is a household told answer by answer.
var conversation = []string{
	`{"question": "vehicle.model", "text": "mid-sedan-long"}`,
	`{"question": "place.postal", "text": "00010"}`,
	`{"question": "place.signs", "choices": {"ids": ["none"]}}`,
	`{"question": "driving.weekday", "number": {"value": 35}}`,
	`{"question": "place.parking", "choice": "attached"}`,
	`{"question": "place.dwelling", "choice": "house"}`,
	`{"question": "place.tenure", "choice": "own"}`,
	`{"question": "panel.main", "unsure": {}}`,
}

// TestASessionGivesTheQuoteOfItsFacts: answers by REST and gRPC in turn; the
// quote that is kept is the one the terminal composes from the same facts.
func TestASessionGivesTheQuoteOfItsFacts(t *testing.T) {
	s := servingIn(t, t.TempDir())
	conn := s.dial(t)
	intake, quotes := daybreakv1.NewIntakeServiceClient(conn), daybreakv1.NewQuoteServiceClient(conn)
	made, err := intake.CreateSession(t.Context(), &daybreakv1.CreateSessionRequest{RequestId: uuid.NewString()})
	require.NoError(t, err)
	ctx := metadata.AppendToOutgoingContext(t.Context(), "daybreak-session", made.Secret)
	header := []string{"Daybreak-Session", made.Secret, "Content-Type", "application/json"}
	for i, said := range conversation {
		if i%2 == 0 {
			a := &daybreakv1.Answer{}
			require.NoError(t, protojson.Unmarshal([]byte(said), a))
			_, err := intake.Answer(ctx, &daybreakv1.AnswerRequest{Name: made.Session.Name, Answers: []*daybreakv1.Answer{a}})
			require.NoError(t, err, said)
			continue
		}
		code, raw := fetch(t, "POST", s.http+"/v1/"+made.Session.Name+":answer", `{"answers": [`+said+`]}`, header...)
		require.Equal(t, 200, code, "%s: %s", said, raw)
	}
	read1, err := intake.GetSession(ctx, &daybreakv1.GetSessionRequest{Name: made.Session.Name})
	require.NoError(t, err)
	facts, err := protojson.Marshal(onlyTold(read1.Session.Facts))
	require.NoError(t, err)
	want := daybreak(t, string(facts), "quote", "-", "-o", "canonical", "--as-of", day)
	require.NoError(t, want.err, want.errs)

	created, err := quotes.CreateQuote(ctx, &daybreakv1.CreateQuoteRequest{
		Session: made.Session.Name, AsOfDate: day, RequestId: uuid.NewString(), View: daybreakv1.QuoteView_QUOTE_VIEW_FULL,
	})
	require.NoError(t, err)
	kept, err := quotes.GetQuote(ctx, &daybreakv1.GetQuoteRequest{Name: created.Quote.Name, View: daybreakv1.QuoteView_QUOTE_VIEW_CANONICAL})
	require.NoError(t, err)
	require.Equal(t, want.out, string(kept.CanonicalBody))
	code, raw := fetch(t, "GET", s.http+"/v1/"+created.Quote.Name+"?view=QUOTE_VIEW_CANONICAL", "", header...)
	require.Equal(t, 200, code, raw)
	require.Equal(t, want.out, read(t, raw).canonical)
	code, raw = fetch(t, "POST", s.http+"/v1/quotes", fmt.Sprintf(`{"session": %q, "as_of_date": %q, "view": "QUOTE_VIEW_CANONICAL"}`, made.Session.Name, day), header...)
	require.Equal(t, 200, code, raw)
	require.Equal(t, want.out, read(t, raw).canonical)
	require.Equal(t, created.Quote.Fingerprint, composed(t, conn, onlyTold(read1.Session.Facts), daybreakv1.QuoteView_QUOTE_VIEW_SUMMARY).fingerprint)
}
