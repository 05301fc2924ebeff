package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	daybreakv1 "daybreak/api/daybreak/v1"

	"github.com/google/uuid"
	goredis "github.com/redis/go-redis/v9"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/grpc/metadata"
	"google.golang.org/protobuf/proto"
)

const (
	inFlight = 64
	rounds   = 5
	round    = 500 * time.Millisecond
)

// call does one piece of work for worker w; i counts its calls.
type call func(ctx context.Context, w, i int) error

// rates measures the service in a process of its own.
func rates(ctx context.Context) ([]row, error) {
	dir, err := os.MkdirTemp("", "daybreak-measure-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	bin, err := build(ctx, dir)
	if err != nil {
		return nil, err
	}
	quotes, err := quoteRates(ctx, bin, filepath.Join(dir, "embedded"))
	if err != nil {
		return nil, err
	}
	answers, err := answerRates(ctx, bin, filepath.Join(dir, "redis"))
	return append(quotes, answers...), err
}

// quoteRates holds ComposeQuote against an empty health call.
func quoteRates(ctx context.Context, bin, data string) ([]row, error) {
	p, err := serve(bin, data)
	if err != nil {
		return nil, err
	}
	defer p.stop()
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
	var size [4]atomic.Int64
	compose := func(view daybreakv1.QuoteView) call {
		return func(ctx context.Context, w, i int) error {
			f := proto.CloneOf(m) // households are distinct, so that nothing is answered from memory
			f.Route.OpenFeet = proto.Float64(float64(10 + (w*997+i)%150))
			r, err := quotes.ComposeQuote(ctx, &daybreakv1.ComposeQuoteRequest{Facts: f, AsOfDate: "2026-11-25", View: view})
			size[view].Store(int64(proto.Size(r)))
			return err
		}
	}
	got, err := interleave(ctx, map[string]call{
		"health": func(ctx context.Context, _, _ int) error {
			_, err := health.Check(ctx, &healthpb.HealthCheckRequest{})
			return err
		},
		"summary": compose(daybreakv1.QuoteView_QUOTE_VIEW_SUMMARY),
		"full":    compose(daybreakv1.QuoteView_QUOTE_VIEW_FULL),
	})
	if err != nil {
		return nil, err
	}
	against := "empty health call, gRPC, 64 in flight"
	return []row{
		{what: fmt.Sprintf("ComposeQuote summary, %d bytes", size[daybreakv1.QuoteView_QUOTE_VIEW_SUMMARY].Load()), against: against, value: got["summary"] / got["health"], unit: "ratio"},
		{what: fmt.Sprintf("ComposeQuote full, %d bytes", size[daybreakv1.QuoteView_QUOTE_VIEW_FULL].Load()), against: against, value: got["full"] / got["health"], unit: "ratio"},
	}, nil
}

// answerRates holds Answer on Redis against raw GET and SET of 1.5 KB.
func answerRates(ctx context.Context, bin, data string) ([]row, error) {
	r, err := redisServer()
	if err != nil {
		return nil, err
	}
	defer r.stop()
	p, err := serve(bin, data, "--redis", "redis://"+r.addr)
	if err != nil {
		return nil, err
	}
	defer p.stop()
	conn, err := dial(p.addr)
	if err != nil {
		return nil, err
	}
	defer conn.Close()
	raw := goredis.NewClient(&goredis.Options{Addr: r.addr, PoolSize: inFlight})
	defer raw.Close()
	intake := daybreakv1.NewIntakeServiceClient(conn)
	body := make([]byte, 1500)
	sessions := make([]talk, inFlight)
	got, err := interleave(ctx, map[string]call{
		"raw": func(ctx context.Context, w, _ int) error {
			key := fmt.Sprintf("measure:%d", w)
			if err := raw.Set(ctx, key, body, time.Hour).Err(); err != nil {
				return err
			}
			return raw.Get(ctx, key).Err()
		},
		"answer": func(ctx context.Context, w, _ int) error { return sessions[w].answer(ctx, intake) },
	})
	if err != nil {
		return nil, err
	}
	return []row{{what: "Answer over gRPC, Redis, 64 in flight", against: "raw SET then GET of 1.5 KB", value: got["answer"] / got["raw"], unit: "ratio"}}, nil
}

// talk is one conversation kept short: a new session after forty answers.
type talk struct {
	session *daybreakv1.Session
	secret  string
	said    int
}

func (t *talk) answer(ctx context.Context, intake daybreakv1.IntakeServiceClient) error {
	if t.session == nil || t.said >= 40 {
		made, err := intake.CreateSession(ctx, &daybreakv1.CreateSessionRequest{RequestId: uuid.NewString()})
		if err != nil {
			return err
		}
		t.session, t.secret, t.said = made.Session, made.Secret, 0
	}
	t.said++
	ctx = metadata.AppendToOutgoingContext(ctx, "daybreak-session", t.secret)
	_, err := intake.Answer(ctx, &daybreakv1.AnswerRequest{
		Name: t.session.Name, RequestId: uuid.NewString(),
		Answers: []*daybreakv1.Answer{{Question: "driving.weekday", Given: &daybreakv1.Answer_Number{Number: &daybreakv1.NumberAnswer{Value: float64(20 + t.said)}}}},
	})
	return err
}

// interleave gives the median rate of each piece of work, in calls a second,
// its rounds taken in turn with the others'.
func interleave(ctx context.Context, work map[string]call) (map[string]float64, error) {
	names := make([]string, 0, len(work))
	for name := range work {
		names = append(names, name)
	}
	slices.Sort(names)
	all := map[string][]float64{}
	for n := range rounds + 1 {
		for _, name := range names {
			rate, err := rateOf(ctx, work[name])
			if err != nil {
				return nil, fmt.Errorf("%s: %w", name, err)
			}
			if n > 0 { // the first round warms up
				all[name] = append(all[name], rate)
			}
		}
	}
	median := map[string]float64{}
	for name, rates := range all {
		slices.Sort(rates)
		median[name] = rates[len(rates)/2]
	}
	return median, nil
}

func rateOf(ctx context.Context, do call) (float64, error) {
	ctx, cancel := context.WithTimeout(ctx, 30*time.Second)
	defer cancel()
	var count atomic.Int64
	var failed atomic.Value
	var wg sync.WaitGroup
	start := time.Now()
	for w := range inFlight {
		wg.Go(func() {
			for i := 0; time.Since(start) < round; i++ {
				if err := do(ctx, w, i); err != nil {
					failed.Store(err)
					return
				}
				count.Add(1)
			}
		})
	}
	wg.Wait()
	if err, ok := failed.Load().(error); ok {
		return 0, err
	}
	return float64(count.Load()) / time.Since(start).Seconds(), nil
}
