package service_test

import (
	"context"
	"testing"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/service/access"
	"daybreak/internal/store"
	"daybreak/internal/store/embedded"

	"github.com/google/uuid"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/metadata"
)

func kept(t testing.TB) store.Store {
	t.Helper()
	s, err := embedded.Open(embedded.Config{Dir: t.TempDir()})
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, s.Close()) })
	return s
}

// shopper is one person in one conversation.
type shopper struct {
	t      testing.TB
	intake daybreakv1.IntakeServiceClient
	quotes daybreakv1.QuoteServiceClient
	ctx    context.Context
	name   string
	last   *daybreakv1.Session
}

func arrives(t testing.TB, conn grpc.ClientConnInterface) *shopper {
	t.Helper()
	s := &shopper{t: t, intake: daybreakv1.NewIntakeServiceClient(conn), quotes: daybreakv1.NewQuoteServiceClient(conn)}
	ctx := metadata.AppendToOutgoingContext(context.Background(), access.PeerHeader, "127.0.0.1:1")
	r, err := s.intake.CreateSession(ctx, &daybreakv1.CreateSessionRequest{RequestId: uuid.NewString(), Locale: "en-US"})
	require.NoError(t, err)
	s.ctx = metadata.AppendToOutgoingContext(ctx, access.SessionHeader, r.GetSecret())
	s.name, s.last = r.GetSession().GetName(), r.GetSession()
	return s
}

// says answers and expects it to be taken.
func (s *shopper) says(answers ...*daybreakv1.Answer) *daybreakv1.Session {
	s.t.Helper()
	r, err := s.intake.Answer(s.ctx, &daybreakv1.AnswerRequest{Name: s.name, Answers: answers})
	require.NoError(s.t, err)
	s.last = r.GetSession()
	return s.last
}

func one(question, choice string) *daybreakv1.Answer {
	return &daybreakv1.Answer{Question: question, Given: &daybreakv1.Answer_Choice{Choice: choice}}
}

func several(question string, ids ...string) *daybreakv1.Answer {
	return &daybreakv1.Answer{Question: question, Given: &daybreakv1.Answer_Choices{Choices: &daybreakv1.ChoiceSet{Ids: ids}}}
}

func number(question string, value float64, unit string) *daybreakv1.Answer {
	return &daybreakv1.Answer{Question: question, Given: &daybreakv1.Answer_Number{Number: &daybreakv1.NumberAnswer{Value: value, Unit: unit}}}
}

func text(question, text string) *daybreakv1.Answer {
	return &daybreakv1.Answer{Question: question, Given: &daybreakv1.Answer_Text{Text: text}}
}

func unsure(question string) *daybreakv1.Answer {
	return &daybreakv1.Answer{Question: question, Given: &daybreakv1.Answer_Unsure{Unsure: &daybreakv1.Unsure{}}}
}
