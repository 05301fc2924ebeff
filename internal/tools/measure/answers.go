package main

import (
	"context"
	"fmt"
	"time"

	daybreakv1 "daybreak/api/daybreak/v1"

	"github.com/google/uuid"
	goredis "github.com/redis/go-redis/v9"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/grpc/metadata"
)

// embeddedRates tells how many answers a second the file takes, each on disk
// before it is acknowledged.
func embeddedRates(ctx context.Context, p *program) ([]row, error) {
	conn, err := dial(p.addr)
	if err != nil {
		return nil, err
	}
	defer conn.Close()
	intake, health := daybreakv1.NewIntakeServiceClient(conn), healthpb.NewHealthClient(conn)
	sessions := make([]talk, inFlight)
	got, err := interleave(ctx, map[string]call{
		"health": func(ctx context.Context, _ int) error {
			_, err := health.Check(ctx, &healthpb.HealthCheckRequest{})
			return err
		},
		"answer": func(ctx context.Context, w int) error { return sessions[w].answer(ctx, intake) },
	})
	if err != nil {
		return nil, err
	}
	return []row{
		{what: "Answer over gRPC, embedded file", against: "empty health call, gRPC, 64 in flight", value: got["answer"] / got["health"], unit: ratio},
		{what: "Answer over gRPC, embedded file", against: "–", value: got["answer"], unit: perSecond},
	}, nil
}

// redisRates holds Answer on Redis against raw GET and SET of 1.5 KB.
func redisRates(ctx context.Context, bin, data string) ([]row, error) {
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
		"raw": func(ctx context.Context, w int) error {
			key := fmt.Sprintf("measure:%d", w)
			if err := raw.Set(ctx, key, body, time.Hour).Err(); err != nil {
				return err
			}
			return raw.Get(ctx, key).Err()
		},
		"answer": func(ctx context.Context, w int) error { return sessions[w].answer(ctx, intake) },
	})
	if err != nil {
		return nil, err
	}
	return []row{{what: "Answer over gRPC, Redis, 64 in flight", against: "raw SET then GET of 1.5 KB", value: got["answer"] / got["raw"], unit: ratio}}, nil
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
