package service_test

import (
	"context"
	"strings"
	"sync"
	"testing"
	"time"

	daybreakv1 "daybreak/api/daybreak/v1"

	"github.com/google/uuid"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/codes"
	"google.golang.org/protobuf/proto"
)

func TestAConversationEndsInAQuote(t *testing.T) {
	conn := dialled(t, demoServer(t, kept(t)))
	s := arrives(t, conn)
	require.Equal(t, "vehicle.model", s.last.GetTurn().GetQuestion().GetId())
	s.says(text("vehicle.model", "mid-sedan-long"))
	s.says(text("place.postal", "00010"))
	require.Equal(t, "place.signs", s.last.GetTurn().GetQuestion().GetId(), "danger signs come third")
	s.says(several("place.signs"))
	s.says(number("driving.weekday", 60, "km"))
	for turns := 0; s.last.GetTurn() != nil; turns++ {
		require.Less(t, turns, 80)
		s.says(unsure(s.last.GetTurn().GetQuestion().GetId()))
	}
	require.InDelta(t, 37.28, s.last.GetFacts().GetDriving().GetWeekdayMiles(), 0.01)

	chips := map[string]string{}
	for _, c := range s.last.GetChips() {
		chips[c.GetPath()] = c.GetValue()
	}
	require.Equal(t, "efficient midsize sedan, large pack", chips["vehicle.model"], "an id reads as what it names")
	require.Equal(t, "none of these", chips["place.danger_signs"])
	require.Equal(t, "City of Alder Bay", chips["place.jurisdiction"])

	issued, err := s.quotes.CreateQuote(s.ctx, &daybreakv1.CreateQuoteRequest{Session: s.name, AsOfDate: "2026-11-25", View: daybreakv1.QuoteView_QUOTE_VIEW_FULL})
	require.NoError(t, err)
	q := issued.GetQuote()
	require.Regexp(t, "^quotes/[a-z0-9]+$", q.GetName())
	require.Equal(t, daybreakv1.Standing_STANDING_BALLPARK, q.GetStanding())
	require.NotNil(t, q.GetIssueTime())
	require.NotEmpty(t, q.GetAssumptions())
	require.NotNil(t, q.GetBand(), "with open facts there is never one price")

	got, err := s.quotes.GetQuote(s.ctx, &daybreakv1.GetQuoteRequest{Name: q.GetName(), View: daybreakv1.QuoteView_QUOTE_VIEW_FULL})
	require.NoError(t, err)
	require.True(t, proto.Equal(q, got.GetQuote()), "an issued quote never changes")
	summary, err := s.quotes.GetQuote(s.ctx, &daybreakv1.GetQuoteRequest{Name: q.GetName()})
	require.NoError(t, err)
	require.Equal(t, q.GetFingerprint(), summary.GetQuote().GetFingerprint())
	require.Nil(t, summary.GetQuote().GetOptions()[0].GetBill())
	requireSameComposed(t, s, q)
}

// requireSameComposed holds the issued quote against one composed of the same
// facts without a session, byte for byte.
func requireSameComposed(t *testing.T, s *shopper, q *daybreakv1.Quote) {
	got, err := s.quotes.GetQuote(s.ctx, &daybreakv1.GetQuoteRequest{Name: q.GetName(), View: daybreakv1.QuoteView_QUOTE_VIEW_CANONICAL})
	require.NoError(t, err)
	require.Nil(t, got.GetQuote())
	composed, err := s.quotes.ComposeQuote(s.ctx, &daybreakv1.ComposeQuoteRequest{
		Facts: saidAlone(s.last.GetFacts()), AsOfDate: "2026-11-25", View: daybreakv1.QuoteView_QUOTE_VIEW_CANONICAL,
	})
	require.NoError(t, err)
	require.Equal(t, string(got.GetCanonicalBody()), string(composed.GetCanonicalBody()))
}

// saidAlone is what was said alone: derived leaves are taken out.
func saidAlone(f *daybreakv1.Facts) *daybreakv1.Facts {
	out := proto.CloneOf(f)
	for _, d := range out.GetDerived() {
		m := out.ProtoReflect()
		path := strings.Split(d.GetPath(), ".")
		for _, name := range path[:len(path)-1] {
			m = m.Mutable(m.Descriptor().Fields().ByTextName(name)).Message()
		}
		m.Clear(m.Descriptor().Fields().ByTextName(path[len(path)-1]))
	}
	out.Derived = nil
	return out
}

func TestADangerHaltsInTheSameReply(t *testing.T) {
	s := arrives(t, dialled(t, demoServer(t, kept(t))))
	s.says(several("place.signs", "burnt"))
	require.True(t, s.last.GetHalted())
	require.NotEmpty(t, s.last.GetCautions()[0].GetDoNow())
	require.Equal(t, daybreakv1.CautionGravity_CAUTION_GRAVITY_HALTS, s.last.GetCautions()[0].GetGravity())
	q, err := s.quotes.CreateQuote(s.ctx, &daybreakv1.CreateQuoteRequest{Session: s.name, AsOfDate: "2026-11-25"})
	require.NoError(t, err, "a halted quote is a quote")
	require.Equal(t, daybreakv1.Standing_STANDING_HALTED, q.GetQuote().GetStanding())
}

func TestChangeRevivesASetAsideBranch(t *testing.T) {
	s := arrives(t, dialled(t, demoServer(t, kept(t))))
	s.says(one("outlet.reachable", "big"), one("outlet.face", "n14_50"))
	state := func(question string) daybreakv1.EntryState {
		for _, e := range s.last.GetEntries() {
			if e.GetQuestion() == question && e.GetState() != daybreakv1.EntryState_ENTRY_STATE_CHANGED {
				return e.GetState()
			}
		}
		return 0
	}
	require.Equal(t, daybreakv1.EntryState_ENTRY_STATE_TOLD, state("outlet.face"))
	s.says(one("outlet.reachable", "none"))
	require.Equal(t, daybreakv1.EntryState_ENTRY_STATE_SET_ASIDE, state("outlet.face"))
	s.says(one("outlet.reachable", "big"))
	require.Equal(t, daybreakv1.EntryState_ENTRY_STATE_TOLD, state("outlet.face"))
}

func TestUndoTakesBackAndBringsBack(t *testing.T) {
	s := arrives(t, dialled(t, demoServer(t, kept(t))))
	s.says(number("driving.weekday", 40, "mi"))
	r, err := s.intake.Undo(s.ctx, &daybreakv1.UndoRequest{Name: s.name})
	require.NoError(t, err)
	require.Nil(t, r.GetSession().GetFacts().GetDriving())
	require.Equal(t, daybreakv1.EntryState_ENTRY_STATE_UNDONE, r.GetSession().GetEntries()[0].GetState())
	_, err = s.intake.Undo(s.ctx, &daybreakv1.UndoRequest{Name: s.name})
	code, reason, _ := told(t, err)
	require.Equal(t, codes.FailedPrecondition, code)
	require.Equal(t, "NOTHING_TO_UNDO", reason)
}

func TestRoughNumbersNarrow(t *testing.T) {
	s := arrives(t, dialled(t, demoServer(t, kept(t))))
	s.says(&daybreakv1.Answer{Question: "driving.weekday", Given: &daybreakv1.Answer_Number{Number: &daybreakv1.NumberAnswer{Value: 40, About: true}}})
	n := s.last.GetFacts().GetNarrowed()
	require.Len(t, n, 1)
	require.Equal(t, "driving.weekday_miles", n[0].GetPath())
	require.InDeltaSlice(t, []float64{34, 46}, n[0].GetNumbers(), 1e-9)
	require.NotEqual(t, "driving.weekday", s.last.GetTurn().GetQuestion().GetId(), "it is not asked again")
}

func TestARepeatedRequestIsAnsweredOnce(t *testing.T) {
	conn := dialled(t, demoServer(t, kept(t)))
	s := arrives(t, conn)
	req := &daybreakv1.AnswerRequest{Name: s.name, Answers: []*daybreakv1.Answer{number("driving.weekday", 40, "mi")}, RequestId: uuid.NewString()}
	first, err := s.intake.Answer(s.ctx, req)
	require.NoError(t, err)
	s.says(number("driving.weekend", 10, "mi"))
	again, err := s.intake.Answer(s.ctx, req)
	require.NoError(t, err)
	require.Equal(t, first.GetSession().GetRevision(), again.GetSession().GetRevision())
	require.Len(t, again.GetSession().GetEntries(), 1, "the reply is the one of then")

	req.Answers = []*daybreakv1.Answer{number("driving.weekday", 50, "mi")}
	_, err = s.intake.Answer(s.ctx, req)
	code, reason, fields := told(t, err)
	require.Equal(t, codes.AlreadyExists, code)
	require.Equal(t, "REQUEST_ID_REUSED", reason)
	require.Equal(t, "request_id", fields[0].field)

	create := &daybreakv1.CreateSessionRequest{RequestId: uuid.NewString()}
	one, err := s.intake.CreateSession(context.Background(), create)
	require.NoError(t, err)
	two, err := s.intake.CreateSession(context.Background(), create)
	require.NoError(t, err)
	require.Equal(t, one.GetSession().GetName(), two.GetSession().GetName())
	require.Equal(t, one.GetSecret(), two.GetSecret())
	create.Locale = "en-GB"
	_, err = s.intake.CreateSession(context.Background(), create)
	_, reason, _ = told(t, err)
	require.Equal(t, "REQUEST_ID_REUSED", reason)

	issue := &daybreakv1.CreateQuoteRequest{Session: s.name, AsOfDate: "2026-11-25", RequestId: uuid.NewString()}
	q1, err := s.quotes.CreateQuote(s.ctx, issue)
	require.NoError(t, err)
	s.says(number("driving.weekday", 80, "mi"))
	q2, err := s.quotes.CreateQuote(s.ctx, issue)
	require.NoError(t, err)
	require.True(t, proto.Equal(q1, q2), "the quote of then")
	issue.AsOfDate = "2026-11-26"
	_, err = s.quotes.CreateQuote(s.ctx, issue)
	_, reason, _ = told(t, err)
	require.Equal(t, "REQUEST_ID_REUSED", reason)
}

func TestASessionIsForItsSecretAlone(t *testing.T) {
	conn := dialled(t, demoServer(t, kept(t)))
	mine, other := arrives(t, conn), arrives(t, conn)
	q, err := mine.quotes.CreateQuote(mine.ctx, &daybreakv1.CreateQuoteRequest{Session: mine.name, AsOfDate: "2026-11-25"})
	require.NoError(t, err)
	quoteName := q.GetQuote().GetName()
	for _, c := range []struct {
		name   string
		call   func(ctx context.Context, name string) error
		reason string
	}{
		{"get", func(ctx context.Context, name string) error {
			_, err := mine.intake.GetSession(ctx, &daybreakv1.GetSessionRequest{Name: name})
			return err
		}, "SESSION_SECRET_WRONG"},
		{"answer", func(ctx context.Context, name string) error {
			_, err := mine.intake.Answer(ctx, &daybreakv1.AnswerRequest{Name: name, Answers: []*daybreakv1.Answer{unsure("driving.weekday")}})
			return err
		}, "SESSION_SECRET_WRONG"},
		{"undo", func(ctx context.Context, name string) error {
			_, err := mine.intake.Undo(ctx, &daybreakv1.UndoRequest{Name: name})
			return err
		}, "SESSION_SECRET_WRONG"},
		{"delete", func(ctx context.Context, name string) error {
			_, err := mine.intake.DeleteSession(ctx, &daybreakv1.DeleteSessionRequest{Name: name})
			return err
		}, "SESSION_SECRET_WRONG"},
		{"watch", func(ctx context.Context, name string) error {
			stream, err := mine.intake.WatchSession(ctx, &daybreakv1.WatchSessionRequest{Name: name})
			if err == nil {
				_, err = stream.Recv()
			}
			return err
		}, "SESSION_SECRET_WRONG"},
		{"create quote", func(ctx context.Context, name string) error {
			_, err := mine.quotes.CreateQuote(ctx, &daybreakv1.CreateQuoteRequest{Session: name})
			return err
		}, "SESSION_SECRET_WRONG"},
		{"get quote", func(ctx context.Context, _ string) error {
			_, err := mine.quotes.GetQuote(ctx, &daybreakv1.GetQuoteRequest{Name: quoteName})
			return err
		}, "NOT_FOUND"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, reason, _ := told(t, c.call(other.ctx, mine.name))
			require.Equal(t, c.reason, reason)
			code, reason, _ := told(t, c.call(context.Background(), mine.name))
			require.Equal(t, codes.Unauthenticated, code)
			require.Equal(t, "SESSION_SECRET_MISSING", reason)
			if c.name != "get quote" {
				foreign := c.call(other.ctx, mine.name)
				absent := c.call(other.ctx, "sessions/"+strings.Repeat("0", 26))
				require.Equal(t, foreign.Error(), absent.Error(), "a foreign session reads like one that is not there")
			}
		})
	}
	r, err := mine.intake.GetSession(mine.ctx, &daybreakv1.GetSessionRequest{Name: mine.name})
	require.NoError(t, err)
	require.Empty(t, r.GetSession().GetEntries(), "nothing was applied")
}

func TestStaleAndMisplacedAnswersAreRefusedWhole(t *testing.T) {
	s := arrives(t, dialled(t, demoServer(t, kept(t))))
	base := s.last.GetRevision()
	s.says(number("driving.weekday", 40, "mi"))
	for _, c := range []struct {
		name   string
		req    *daybreakv1.AnswerRequest
		code   codes.Code
		reason string
		field  string
	}{
		{"stale", &daybreakv1.AnswerRequest{BaseRevision: base, Answers: []*daybreakv1.Answer{number("driving.weekday", 50, "mi")}}, codes.Aborted, "STALE_REVISION", "driving.weekday_miles"},
		{"no such revision", &daybreakv1.AnswerRequest{BaseRevision: "9-00000000", Answers: []*daybreakv1.Answer{unsure("driving.weekday")}}, codes.Aborted, "STALE_REVISION", "base_revision"},
		{"no revision at all", &daybreakv1.AnswerRequest{BaseRevision: "head", Answers: []*daybreakv1.Answer{unsure("driving.weekday")}}, codes.InvalidArgument, "INVALID_FIELD", "base_revision"},
		{"does not apply", &daybreakv1.AnswerRequest{Answers: []*daybreakv1.Answer{one("outlet.reachable", "none"), one("outlet.face", "n14_50")}}, codes.FailedPrecondition, "DOES_NOT_APPLY", "answers[1].question"},
		{"no such question", &daybreakv1.AnswerRequest{Answers: []*daybreakv1.Answer{unsure("driving.weekdai")}}, codes.InvalidArgument, "INVALID_FIELD", "answers[0].question"},
		{"no such choice", &daybreakv1.AnswerRequest{Answers: []*daybreakv1.Answer{one("place.tenure", "castle")}}, codes.InvalidArgument, "INVALID_FIELD", "answers[0].choices"},
		{"beyond the limits", &daybreakv1.AnswerRequest{Answers: []*daybreakv1.Answer{number("driving.weekday", 1e5, "mi")}}, codes.InvalidArgument, "INVALID_FIELD", "answers[0].number"},
		{"no such unit", &daybreakv1.AnswerRequest{Answers: []*daybreakv1.Answer{number("driving.weekday", 10, "furlong")}}, codes.InvalidArgument, "INVALID_FIELD", "answers[0].number.unit"},
		{"3 KB of text", &daybreakv1.AnswerRequest{Answers: []*daybreakv1.Answer{text("place.postal", strings.Repeat("0", 3<<10))}}, codes.InvalidArgument, "INVALID_FIELD", "answers[0].text"},
		{"nothing given", &daybreakv1.AnswerRequest{Answers: []*daybreakv1.Answer{{Question: "driving.weekday"}}}, codes.InvalidArgument, "INVALID_FIELD", "answers[0].given"},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.req.Name = s.name
			_, err := s.intake.Answer(s.ctx, c.req)
			code, reason, fields := told(t, err)
			require.Equal(t, c.code, code, "%v", err)
			require.Equal(t, c.reason, reason)
			require.Equal(t, c.field, fields[0].field)
		})
	}
	r, err := s.intake.GetSession(s.ctx, &daybreakv1.GetSessionRequest{Name: s.name, View: daybreakv1.SessionView_SESSION_VIEW_BAND})
	require.NoError(t, err)
	require.Equal(t, s.last.GetRevision(), r.GetSession().GetRevision(), "nothing was applied")
	require.Equal(t, r.GetSession().GetRevision(), r.GetSession().GetBand().GetRevision())
	require.NotEmpty(t, r.GetSession().GetBand().GetSentence().GetText())
}

func TestWatchersSeeEveryChange(t *testing.T) {
	s := arrives(t, dialled(t, demoServer(t, kept(t))))
	ctx, stop := context.WithTimeout(s.ctx, 5*time.Second)
	defer stop()
	stream, err := s.intake.WatchSession(ctx, &daybreakv1.WatchSessionRequest{Name: s.name})
	require.NoError(t, err)
	seen, err := stream.Recv()
	require.NoError(t, err)
	require.Equal(t, s.last.GetRevision(), seen.GetSession().GetRevision())
	s.says(number("driving.weekday", 40, "mi"))
	for seen.GetSession().GetRevision() != s.last.GetRevision() {
		seen, err = stream.Recv()
		require.NoError(t, err)
	}
	_, err = s.intake.DeleteSession(s.ctx, &daybreakv1.DeleteSessionRequest{Name: s.name})
	require.NoError(t, err)
	for err == nil {
		_, err = stream.Recv()
	}
	_, err = s.intake.GetSession(s.ctx, &daybreakv1.GetSessionRequest{Name: s.name})
	code, _, _ := told(t, err)
	require.Equal(t, codes.NotFound, code)
}

// Eight people on one session at once: each is answered, and what was
// acknowledged is in the log, once.
func TestWritersAtOnceLoseNothing(t *testing.T) {
	s := arrives(t, dialled(t, demoServer(t, kept(t))))
	questions := []string{"driving.weekday", "driving.weekend", "driving.home_by", "driving.leave_by", "place.area", "place.built", "place.tenure", "place.dwelling"}
	taken := make([]bool, len(questions))
	var wait sync.WaitGroup
	for i, q := range questions {
		wait.Go(func() {
			_, err := s.intake.Answer(s.ctx, &daybreakv1.AnswerRequest{Name: s.name, Answers: []*daybreakv1.Answer{unsure(q)}})
			if err != nil {
				code, reason, _ := told(t, err)
				assert.Equal(t, codes.Aborted, code)
				assert.Equal(t, "STALE_REVISION", reason)
			}
			taken[i] = err == nil
		})
	}
	wait.Wait()
	r, err := s.intake.GetSession(s.ctx, &daybreakv1.GetSessionRequest{Name: s.name})
	require.NoError(t, err)
	var said, acknowledged []string
	for _, e := range r.GetSession().GetEntries() {
		said = append(said, e.GetQuestion())
	}
	for i, ok := range taken {
		if ok {
			acknowledged = append(acknowledged, questions[i])
		}
	}
	require.ElementsMatch(t, acknowledged, said)
	require.NotEmpty(t, said)
}

func TestTheTreeIsWhole(t *testing.T) {
	conn := dialled(t, demoServer(t, nowhere{}))
	r, err := daybreakv1.NewIntakeServiceClient(conn).GetQuestionTree(context.Background(), &daybreakv1.GetQuestionTreeRequest{})
	require.NoError(t, err)
	require.NotEmpty(t, r.GetTree().GetRevision())
	for _, q := range r.GetTree().GetQuestions() {
		require.NotZero(t, q.GetKind(), q.GetId())
		require.NotEmpty(t, q.GetText(), q.GetId())
		require.NotEmpty(t, q.GetWhy(), q.GetId())
		require.NotEmpty(t, q.GetSets(), q.GetId())
		for _, l := range q.GetLimits() {
			require.Less(t, l.GetLow(), l.GetHigh(), q.GetId())
		}
		for _, c := range q.GetChoices() {
			require.NotEmpty(t, c.GetText(), q.GetId())
		}
	}
}
