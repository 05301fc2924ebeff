package service_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	daybreakv1 "daybreak/api/daybreak/v1"

	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/encoding/protojson"
)

// scenario is one file of testdata/households: facts in the wire form, and
// what an expert would expect of them.
type scenario struct {
	ID     string          `json:"id"`
	Title  string          `json:"title"`
	Tests  string          `json:"tests"`
	AsOf   string          `json:"as_of"`
	Facts  json.RawMessage `json:"facts"`
	Expect []expectation   `json:"expect"`
}

func readScenario(t *testing.T, name string) scenario {
	t.Helper()
	f, err := os.Open(name)
	require.NoError(t, err)
	defer f.Close()
	dec := json.NewDecoder(f)
	dec.DisallowUnknownFields()
	var h scenario
	require.NoError(t, dec.Decode(&h), name)
	require.Equal(t, strings.TrimSuffix(filepath.Base(name), ".json"), h.ID)
	return h
}

// Sixteen households through the real service, facts in, what an expert would
// expect out. An expectation that is pending is judged all the same, and fails
// the test when it holds, so that its reason is dropped.
func TestHouseholdsComeToWhatAnExpertExpects(t *testing.T) {
	files, err := filepath.Glob("../../testdata/households/*.json")
	require.NoError(t, err)
	require.Len(t, files, 16)
	quotes := daybreakv1.NewQuoteServiceClient(dialled(t, demoServer(t, nowhere{})))
	asserted, all := 0, 0
	for _, name := range files {
		h := readScenario(t, name)
		t.Run(h.ID, func(t *testing.T) {
			p := composed(t, quotes, &h)
			held := 0
			for _, e := range h.Expect {
				wrong := e.judge(p)
				switch {
				case e.Pending == "" && wrong != "":
					t.Errorf("%s: %s", e.What, wrong)
				case e.Pending != "" && wrong == "":
					t.Errorf("%s holds now: drop its pending reason (%s)", e.What, e.Pending)
				case e.Pending == "":
					held++
				}
			}
			t.Logf("asserted %d of %d", held, len(h.Expect))
			asserted, all = asserted+held, all+len(h.Expect)
		})
	}
	t.Logf("sixteen households: asserted %d of %d", asserted, all)
}

// composed asks the service for a quote in its canonical form and in full, and
// sees that both say the same.
func composed(t *testing.T, quotes daybreakv1.QuoteServiceClient, h *scenario) probe {
	t.Helper()
	var told daybreakv1.Facts
	require.NoError(t, protojson.Unmarshal(h.Facts, &told))
	ask := func(v daybreakv1.QuoteView) *daybreakv1.ComposeQuoteResponse {
		r, err := quotes.ComposeQuote(t.Context(), &daybreakv1.ComposeQuoteRequest{Facts: &told, AsOfDate: h.AsOf, View: v})
		require.NoError(t, err)
		return r
	}
	p := probeOf(ask(daybreakv1.QuoteView_QUOTE_VIEW_CANONICAL).GetCanonicalBody())
	requireSame(t, p, ask(daybreakv1.QuoteView_QUOTE_VIEW_FULL).GetQuote())
	return p
}

// requireSame: what a client reads in the full view is what the canonical body
// holds.
func requireSame(t *testing.T, p probe, q *daybreakv1.Quote) {
	t.Helper()
	require.Equal(t, p["reference"], q.GetReference())
	require.Equal(t, p["fingerprint"], q.GetFingerprint())
	require.Equal(t, "STANDING_"+strings.ToUpper(p["standing"].(string)), q.GetStanding().String())
	for _, o := range q.GetOptions() {
		for _, r := range o.GetRoles() {
			role := strings.ToLower(strings.TrimPrefix(r.String(), "OPTION_ROLE_"))
			require.Equal(t, p[role+".id"], o.GetId())
			require.Equal(t, p[role+".setting_amps"], o.GetSettingAmps(), role)
			require.Equal(t, p[role+".breaker_amps"], o.GetBreakerAmps(), role)
			require.Equal(t, p[role+".level"], float64(o.GetLevel()), role)
			require.Equal(t, p[role+".managed"], o.GetManaged(), role)
			require.Equal(t, p[role+".price_total"], float64(o.GetPrice().GetLikely().GetMinorUnits()), role)
			if verdict, there := p[role+".verdict"]; there {
				require.Equal(t, "VERDICT_"+strings.ToUpper(verdict.(string)), o.GetVerdict().String(), role)
			}
		}
	}
	requireApart(t, p, q)
	require.Len(t, q.GetCautions(), len(p["cautions"].([]string))-len(p["contradictions"].([]string)))
}

// requireApart: a bill of its own reaches the client line by line, and both
// totals add to the cent.
func requireApart(t *testing.T, p probe, q *daybreakv1.Quote) {
	t.Helper()
	for _, lost := range q.GetLost() {
		for _, a := range lost.GetApart() {
			require.NotEmpty(t, a.GetBill().GetLines())
			require.NotEmpty(t, a.GetWhat().GetText())
			total := a.GetBill().GetTotal().GetLikely().GetMinorUnits()
			require.Equal(t, lost.GetPrice().GetLikely().GetMinorUnits()+total, a.GetTogether().GetMinorUnits())
			before := total - a.GetBill().GetTax().GetAmount().GetMinorUnits()
			require.Equal(t, p["service_upgrade.price"], float64(before))
			require.Len(t, a.GetBill().GetUtility().GetWeeks(), 3)
		}
	}
	for _, o := range q.GetOptions() {
		if amps, there := p["feeder.amps"]; there && slices.Contains(o.GetRoles(), daybreakv1.OptionRole_OPTION_ROLE_BEST_FIT) {
			require.Equal(t, amps, o.GetFeeder().GetBreakerAmps())
			require.NotEmpty(t, o.GetIncludes())
		}
	}
}
