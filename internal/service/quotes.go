package service

import (
	"context"
	"strings"
	"time"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/band"
	"daybreak/internal/facts"
	"daybreak/internal/fault"
	"daybreak/internal/intake"
	"daybreak/internal/quote"
	"daybreak/internal/service/access"
	"daybreak/internal/service/wire"
	"daybreak/internal/store"
	"daybreak/internal/unit"

	"github.com/google/uuid"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/types/known/timestamppb"
)

// quoteHandler composes and keeps quotes.
type quoteHandler struct {
	daybreakv1.UnsafeQuoteServiceServer
	*handlers
}

func (h *quoteHandler) ComposeQuote(_ context.Context, req *daybreakv1.ComposeQuoteRequest) (*daybreakv1.ComposeQuoteResponse, error) {
	told, err := wire.Facts("facts", req.GetFacts())
	if err != nil {
		return nil, err
	}
	asOf, err := h.asOf("as_of_date", req.GetAsOfDate(), h.zoneOfHome(&told))
	if err != nil {
		return nil, err
	}
	q, err := band.Quote(h.books, told, asOf)
	if err != nil {
		return nil, err
	}
	view := wire.ViewOf(req.GetView())
	if view == wire.Canonical {
		return &daybreakv1.ComposeQuoteResponse{CanonicalBody: quote.Canonical(&q)}, nil
	}
	return &daybreakv1.ComposeQuoteResponse{Quote: h.wordsFor(req.GetLocale()).Quote(&q, h.completed(told, asOf), view)}, nil
}

// completed is a household with what its tables say, for the words that name
// its values.
func (h *handlers) completed(told facts.Facts, asOf unit.Date) *facts.Facts {
	h.books.Complete(&told, asOf)
	return &told
}

func (h *quoteHandler) CreateQuote(ctx context.Context, req *daybreakv1.CreateQuoteRequest) (*daybreakv1.CreateQuoteResponse, error) {
	t, err := h.read(ctx, req.GetSession())
	if err != nil {
		return nil, named("session", req.GetSession(), err)
	}
	request := store.Request{Method: "CreateQuote", ID: req.GetRequestId(), Body: bodyOf(req)}
	if request.ID == "" {
		request.ID = uuid.NewString()
	}
	key := store.Key{Shop: t.stored.Key.Shop, ID: h.keys.QuoteID(t.stored.Key.ID, request.ID)}
	kept, err := h.store.Quote(ctx, key)
	switch {
	case err == nil && kept.Request.Body != request.Body:
		return nil, reused(request.ID)
	case err != nil && !absent(err):
		return nil, err
	case err != nil:
		if kept, err = h.issue(ctx, t, key, request, req); err != nil {
			return nil, err
		}
	}
	q, body, err := h.shown(kept, wire.ViewOf(req.GetView()))
	if err != nil {
		return nil, err
	}
	return &daybreakv1.CreateQuoteResponse{Quote: q, CanonicalBody: body}, nil
}

func absent(err error) bool {
	f, ok := fault.As(err)
	return ok && f.Kind == fault.KindNotFound
}

// issue composes the quote of a session as it stands and keeps it for good.
func (h *quoteHandler) issue(ctx context.Context, t *talk, key store.Key, request store.Request, req *daybreakv1.CreateQuoteRequest) (store.Quote, error) {
	base, err := t.base(req.GetBaseRevision())
	if err != nil {
		return store.Quote{}, err
	}
	if base != intake.Head && base != t.log.Len() {
		return store.Quote{}, t.staleOn(req.GetBaseRevision())
	}
	world, err := h.world(t)
	if err != nil {
		return store.Quote{}, err
	}
	state := intake.Fold(t.log, h.books.Tree, world)
	asOf, err := h.asOf("as_of_date", req.GetAsOfDate(), h.zoneOfHome(&state.Facts))
	if err != nil {
		return store.Quote{}, err
	}
	q, err := band.Quote(h.books, state.Told, asOf)
	if err != nil {
		return store.Quote{}, err
	}
	words := h.wordsFor(t.header.locale)
	message := words.Quote(&q, h.completed(state.Told, asOf), wire.Full)
	message.Name = "quotes/" + key.ID
	raw, err := proto.Marshal(message)
	if err != nil {
		return store.Quote{}, err
	}
	books, err := h.kept.keep(ctx, h.handlers, key.Shop)
	if err != nil {
		return store.Quote{}, err
	}
	record := issued{books: books, asOf: asOf.String(), canonical: quote.Canonical(&q), facts: state.Told.AppendCanonical(nil), message: raw}
	return h.store.PutQuote(ctx, store.Quote{
		Key: key, Session: t.stored.Key.ID, Request: request, Revision: t.stored.Head, Issued: time.Now().UTC().Truncate(time.Millisecond), Record: record.encode(),
	})
}

func (h *quoteHandler) GetQuote(ctx context.Context, req *daybreakv1.GetQuoteRequest) (*daybreakv1.GetQuoteResponse, error) {
	p := access.From(ctx)
	if p.Secret == "" {
		return nil, h.keys.Owns("", "")
	}
	kept, err := h.store.Quote(ctx, store.Key{Shop: p.Shop, ID: strings.TrimPrefix(req.GetName(), "quotes/")})
	if err != nil {
		return nil, named("name", req.GetName(), err)
	}
	if h.keys.Owns(kept.Session, p.Secret) != nil {
		return nil, fault.NotFound("name", req.GetName()) // another's reads like one that is not there
	}
	q, body, err := h.shown(kept, wire.ViewOf(req.GetView()))
	if err != nil {
		return nil, err
	}
	return &daybreakv1.GetQuoteResponse{Quote: q, CanonicalBody: body}, nil
}

// shown is an issued quote in a view, as it was issued.
func (h *quoteHandler) shown(kept store.Quote, view wire.View) (*daybreakv1.Quote, []byte, error) {
	record, err := decodeIssued(kept.Record)
	if err != nil {
		return nil, nil, err
	}
	if view == wire.Canonical {
		return nil, record.canonical, nil
	}
	q := &daybreakv1.Quote{}
	if err := proto.Unmarshal(record.message, q); err != nil {
		return nil, nil, err
	}
	q.IssueTime = timestamppb.New(kept.Issued)
	if view == wire.Summary {
		q = wire.Summarise(q)
	}
	return q, nil, nil
}
