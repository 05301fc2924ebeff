package service

import (
	"context"
	"fmt"
	"strconv"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/fault"
	"daybreak/internal/intake"
	"daybreak/internal/intake/tree"
	"daybreak/internal/service/access"
	"daybreak/internal/service/wire"
	"daybreak/internal/store"
)

// intakeHandler holds the conversation.
type intakeHandler struct {
	daybreakv1.UnsafeIntakeServiceServer
	*handlers
}

func (h *intakeHandler) CreateSession(ctx context.Context, req *daybreakv1.CreateSessionRequest) (*daybreakv1.CreateSessionResponse, error) {
	shop := access.From(ctx).Shop
	id := h.keys.SessionID(shop, req.GetRequestId())
	stored, err := h.store.CreateSession(ctx, store.NewSession{
		Key:     store.Key{Shop: shop, ID: id},
		Request: store.Request{Method: "CreateSession", ID: req.GetRequestId(), Body: bodyOf(req)},
		Header:  header{locale: req.GetLocale(), tree: h.books.Tree.Revision()}.encode(),
	})
	if err != nil {
		return nil, err
	}
	t, err := open(stored)
	if err != nil {
		return nil, err
	}
	s, err := h.folded(t, daybreakv1.SessionView_SESSION_VIEW_BASIC)
	if err != nil {
		return nil, err
	}
	return &daybreakv1.CreateSessionResponse{Session: s, Secret: h.keys.Secret(id)}, nil
}

// folded is a talk's session as its log stands.
func (h *handlers) folded(t *talk, view daybreakv1.SessionView) (*daybreakv1.Session, error) {
	world, err := h.world(t)
	if err != nil {
		return nil, err
	}
	return h.session(t, intake.Fold(t.log, h.books.Tree, world), view)
}

func (h *intakeHandler) GetSession(ctx context.Context, req *daybreakv1.GetSessionRequest) (*daybreakv1.GetSessionResponse, error) {
	t, err := h.read(ctx, req.GetName())
	if err != nil {
		return nil, err
	}
	s, err := h.folded(t, req.GetView())
	if err != nil {
		return nil, err
	}
	return &daybreakv1.GetSessionResponse{Session: s}, nil
}

func (h *intakeHandler) Answer(ctx context.Context, req *daybreakv1.AnswerRequest) (*daybreakv1.AnswerResponse, error) {
	s, err := h.append(ctx, writing{"Answer", req.GetName(), req.GetRequestId(), req.GetBaseRevision(), req}, func(t *talk, w *tree.World, m intake.Meta) ([]intake.Entry, error) {
		return h.answers(t.log, w, req.GetAnswers(), m)
	})
	if err != nil {
		return nil, err
	}
	return &daybreakv1.AnswerResponse{Session: s}, nil
}

func (h *intakeHandler) Undo(ctx context.Context, req *daybreakv1.UndoRequest) (*daybreakv1.UndoResponse, error) {
	number := 0
	if req.GetEntry() != "" {
		var err error
		if number, err = strconv.Atoi(req.GetEntry()); err != nil || number < 1 {
			return nil, fault.Invalid("entry", req.GetEntry(), "the id of an entry of the log")
		}
	}
	s, err := h.append(ctx, writing{"Undo", req.GetName(), req.GetRequestId(), req.GetBaseRevision(), req}, func(t *talk, w *tree.World, m intake.Meta) ([]intake.Entry, error) {
		r, err := intake.Undo(t.log, h.books.Tree, w, number, m)
		return []intake.Entry{r.Entry}, err
	})
	if err != nil {
		return nil, err
	}
	return &daybreakv1.UndoResponse{Session: s}, nil
}

// answers are the entries of several answers, each judged with those before it
// in place.
func (h *handlers) answers(log intake.Log, w *tree.World, given []*daybreakv1.Answer, m intake.Meta) ([]intake.Entry, error) {
	var entries []intake.Entry
	for i, one := range given {
		field := fmt.Sprintf("answers[%d]", i)
		g, err := wire.GivenTo(field, one, h.books.Tree)
		if err != nil {
			return nil, err
		}
		said, err := h.say(log, w, g, m)
		if err != nil {
			return nil, inAnswer(field, err)
		}
		for _, e := range said {
			log, entries = log.With(e), append(entries, e)
		}
	}
	return entries, nil
}

func (h *handlers) say(log intake.Log, w *tree.World, g wire.Given, m intake.Meta) ([]intake.Entry, error) {
	var r intake.Reply
	var err error
	switch g.Kind {
	case intake.Unsure:
		r, err = intake.DontKnow(log, h.books.Tree, w, g.Question, m)
	case intake.Skipped:
		r, err = intake.Skip(log, h.books.Tree, w, g.Question, m)
	default:
		r, err = intake.Answer(log, h.books.Tree, w, g.Question, g.Answer, m)
	}
	if err != nil || g.Rough == nil {
		return []intake.Entry{r.Entry}, err
	}
	rough, err := intake.Tell(log.With(r.Entry), h.books.Tree, w, []intake.Fact{*g.Rough}, m)
	return []intake.Entry{r.Entry, rough.Entry}, err
}

// inAnswer names the answer of the request that a fault is about.
func inAnswer(field string, err error) error {
	f, ok := fault.As(err)
	if !ok {
		return err
	}
	moved := *f
	switch {
	case len(f.Field) > len("answer.") && f.Field[:len("answer.")] == "answer.":
		moved.Field = field + f.Field[len("answer"):]
	case f.Field == "question":
		moved.Field = field + ".question"
	}
	return &moved
}

func (h *intakeHandler) WatchSession(req *daybreakv1.WatchSessionRequest, stream daybreakv1.IntakeService_WatchSessionServer) error {
	ctx := stream.Context()
	t, err := h.read(ctx, req.GetName())
	if err != nil {
		return err
	}
	moved, err := h.store.Watch(ctx, t.stored.Key)
	if err != nil {
		return named("name", req.GetName(), err)
	}
	for range moved {
		if t, err = h.read(ctx, req.GetName()); err != nil {
			return err
		}
		s, err := h.folded(t, req.GetView())
		if err != nil {
			return err
		}
		if err := stream.Send(&daybreakv1.WatchSessionResponse{Session: s}); err != nil {
			return err
		}
	}
	if ctx.Err() != nil {
		return ctx.Err()
	}
	_, err = h.read(ctx, req.GetName()) // the session is gone, or the store is closing
	return err
}

func (h *intakeHandler) DeleteSession(ctx context.Context, req *daybreakv1.DeleteSessionRequest) (*daybreakv1.DeleteSessionResponse, error) {
	p := access.From(ctx)
	id := req.GetName()[len("sessions/"):]
	if err := h.keys.Owns(id, p.Secret); err != nil {
		return nil, err
	}
	if err := h.store.DeleteSession(ctx, store.Key{Shop: p.Shop, ID: id}); err != nil {
		return nil, named("name", req.GetName(), err)
	}
	return &daybreakv1.DeleteSessionResponse{}, nil
}

func (h *intakeHandler) GetQuestionTree(_ context.Context, req *daybreakv1.GetQuestionTreeRequest) (*daybreakv1.GetQuestionTreeResponse, error) {
	return &daybreakv1.GetQuestionTreeResponse{Tree: h.wordsFor(req.GetLocale()).Tree(h.books.Tree)}, nil
}
