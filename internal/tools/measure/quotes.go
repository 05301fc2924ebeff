package main

import (
	"context"
	"fmt"
	"io"
	"net/http"
	"strings"
	"sync/atomic"

	daybreakv1 "daybreak/api/daybreak/v1"

	healthpb "google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"
)

// asOf is the date of every quote measured.
const asOf = "2026-11-25"

// variety makes each household another one than all before, so that nothing is
// answered from memory: the length of the way differs by a thousandth of a foot.
func variety(m *daybreakv1.Facts, n *atomic.Int64) *daybreakv1.Facts {
	f := proto.CloneOf(m)
	f.Route.OpenFeet = proto.Float64(10 + float64(n.Add(1)%140_000)/1000)
	return f
}

// quoteRates holds ComposeQuote against an empty health call, and REST against
// gRPC.
func quoteRates(ctx context.Context, p *program) ([]row, error) {
	conn, err := dial(p.addr)
	if err != nil {
		return nil, err
	}
	defer conn.Close()
	m, err := householdMessage("V01")
	if err != nil {
		return nil, err
	}
	quotes, health := daybreakv1.NewQuoteServiceClient(conn), healthpb.NewHealthClient(conn)
	var asked, summary, full, overREST atomic.Int64
	compose := func(view daybreakv1.QuoteView, size *atomic.Int64) call {
		return func(ctx context.Context, _ int) error {
			r, err := quotes.ComposeQuote(ctx, &daybreakv1.ComposeQuoteRequest{Facts: variety(m, &asked), AsOfDate: asOf, View: view})
			size.Store(int64(proto.Size(r)))
			return err
		}
	}
	web := &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: inFlight}}
	defer web.CloseIdleConnections()
	got, err := interleave(ctx, map[string]call{
		"health": func(ctx context.Context, _ int) error {
			_, err := health.Check(ctx, &healthpb.HealthCheckRequest{})
			return err
		},
		"summary": compose(daybreakv1.QuoteView_QUOTE_VIEW_SUMMARY, &summary),
		"full":    compose(daybreakv1.QuoteView_QUOTE_VIEW_FULL, &full),
		"rest":    func(ctx context.Context, _ int) error { return post(ctx, web, p.web, variety(m, &asked), &overREST) },
	})
	if err != nil {
		return nil, err
	}
	const empty, rpc = "empty health call, gRPC, 64 in flight", "the same over gRPC"
	return []row{
		{what: fmt.Sprintf("ComposeQuote summary, %d bytes", summary.Load()), against: empty, value: got["summary"] / got["health"], unit: ratio},
		{what: fmt.Sprintf("ComposeQuote full, %d bytes", full.Load()), against: empty, value: got["full"] / got["health"], unit: ratio},
		{what: fmt.Sprintf("ComposeQuote summary over REST, %d bytes", overREST.Load()), against: rpc, value: got["rest"] / got["summary"], unit: ratio},
		{what: "ComposeQuote summary", against: "–", value: got["summary"], unit: perSecond},
	}, nil
}

// post composes a quote over REST.
func post(ctx context.Context, web *http.Client, base string, m *daybreakv1.Facts, size *atomic.Int64) error {
	facts, err := protojson.Marshal(m)
	if err != nil {
		return err
	}
	body := fmt.Sprintf(`{"facts": %s, "as_of_date": %q, "view": "QUOTE_VIEW_SUMMARY"}`, facts, asOf)
	req, err := http.NewRequestWithContext(ctx, http.MethodPost, base+"/v1/quotes:compose", strings.NewReader(body))
	if err != nil {
		return err
	}
	req.Header.Set("Content-Type", "application/json")
	res, err := web.Do(req)
	if err != nil {
		return err
	}
	defer res.Body.Close()
	n, err := io.Copy(io.Discard, res.Body)
	size.Store(n)
	if err == nil && res.StatusCode != http.StatusOK {
		return fmt.Errorf("REST answered %s", res.Status)
	}
	return err
}
