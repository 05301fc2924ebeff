package service

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/band"
	"daybreak/internal/facts"
	"daybreak/internal/fault"
	"daybreak/internal/intake"
	"daybreak/internal/intake/tree"
	"daybreak/internal/quote"
	"daybreak/internal/quote/caution"
	"daybreak/internal/service/access"
	"daybreak/internal/service/wire"
	"daybreak/internal/store"
	"daybreak/internal/unit"
)

// talk is a stored session and what its log says: entries of several records,
// numbered through.
type talk struct {
	stored store.Session
	header header
	log    intake.Log
	ends   []int // by record: how many entries there are after it
}

// read reads a session that the caller's secret opens.
func (h *handlers) read(ctx context.Context, name string) (*talk, error) {
	p := access.From(ctx)
	id := strings.TrimPrefix(name, "sessions/")
	if err := h.keys.Owns(id, p.Secret); err != nil {
		return nil, err
	}
	stored, err := h.store.Session(ctx, store.Key{Shop: p.Shop, ID: id})
	if err != nil {
		return nil, named("name", name, err)
	}
	return open(stored)
}

// named says of what is absent which field of the request named it.
func named(field, name string, err error) error {
	if f, ok := fault.As(err); ok && f.Kind == fault.KindNotFound {
		return fault.NotFound(field, name)
	}
	return err
}

func open(stored store.Session) (*talk, error) {
	t := &talk{stored: stored}
	var err error
	if t.header, err = decodeHeader(stored.Header); err != nil {
		return nil, err
	}
	var entries [][]byte
	for _, record := range stored.Log {
		several, err := unpack(record.Record)
		if err != nil {
			return nil, err
		}
		entries = append(entries, several...)
		t.ends = append(t.ends, len(entries))
	}
	if t.log, err = intake.Read(entries); err != nil {
		// A damaged record is ours to mend, not the caller's to change.
		return nil, fmt.Errorf("session %s: %w", stored.Key.ID, errors.New(err.Error()))
	}
	return t, nil
}

// at is the talk as it stood at the record that made a revision.
func (t *talk) at(revision store.Revision) *talk {
	for i, e := range t.stored.Log {
		if e.Revision == revision {
			then := *t
			then.stored.Head, then.stored.Log = revision, t.stored.Log[:i+1]
			then.ends, then.log = t.ends[:i+1], t.log.At(t.ends[i])
			return &then
		}
	}
	return t
}

// base is the number of the last entry a writer had seen. No revision is the
// head; one this log never had is stale.
func (t *talk) base(revision string) (int, error) {
	if revision == "" {
		return intake.Head, nil
	}
	r, err := store.ParseRevision(revision)
	if err != nil {
		return 0, fault.Invalid("base_revision", revision, "a revision as returned, such as 3-9f86d081")
	}
	switch {
	case r == t.stored.Head:
		return t.log.Len(), nil
	case r.Number == 0:
		return 0, nil
	case r.Number <= len(t.stored.Log) && t.stored.Log[r.Number-1].Revision == r:
		return t.ends[r.Number-1], nil
	}
	return 0, t.staleOn(revision)
}

func (t *talk) staleOn(revision string) error {
	return &fault.Fault{
		Kind: fault.KindConflict, Reason: "STALE_REVISION", Field: "base_revision", Got: revision,
		Accepted: "a revision this session has had, or nothing for its head", Current: t.stored.Head.String(),
	}
}

// world is what the questions are filled from besides the answers. It stands
// at the day the session began, so that a repeated request folds alike.
func (h *handlers) world(t *talk) (*tree.World, error) {
	began, err := h.asOf("create_time", t.stored.Created.In(h.zoneOf("")).Format(time.DateOnly), time.UTC)
	if err != nil {
		return nil, err
	}
	return h.books.World(began), nil
}

// conversation is a talk as it reads.
func (h *handlers) conversation(t *talk, state intake.State) *wire.Conversation {
	c := &wire.Conversation{
		Name: "sessions/" + t.stored.Key.ID, Revision: t.stored.Head.String(), Created: t.stored.Created, Expires: t.stored.Expires,
		Log: t.log, State: state, Tree: h.books.Tree, Findings: h.books.Cautions.Findings(&state.Facts), Names: h.nameOf,
	}
	halted := caution.Halted(c.Findings)
	c.Open = state.Next(func(q *tree.Question) bool { return halted && !asksWhileHalted(q) })
	return c
}

// nameOf is what people call the thing that an id of a leaf names.
func (h *handlers) nameOf(l *facts.Leaf, id string) string {
	_, leaf, _ := strings.Cut(l.Path, ".")
	switch leaf {
	case "model":
		if v, err := h.vehicle(id); err == nil {
			return v.Label
		}
	case "climate_station":
		if c, err := h.books.Charging.Climates.Station(id); err == nil {
			return c.Location
		}
	case "jurisdiction":
		for _, postal := range h.books.Jurisdictions.PostalCodes() {
			if l, ok := h.books.Jurisdictions.At(postal, unit.Date{}); ok && l.Jurisdiction == id {
				return l.Name
			}
		}
	}
	return ""
}

// asksWhileHalted tells the questions that still change what can be done once
// a danger was found from those about the thing that is dangerous.
func asksWhileHalted(q *tree.Question) bool {
	for _, group := range []string{"outlet.", "panel.", "route."} {
		if strings.HasPrefix(q.ID, group) {
			return false
		}
	}
	return true
}

// session is the reply to every act on a session.
func (h *handlers) session(t *talk, state intake.State, view daybreakv1.SessionView) (*daybreakv1.Session, error) {
	words := h.wordsFor(t.header.locale)
	out := words.Session(h.conversation(t, state))
	if view != daybreakv1.SessionView_SESSION_VIEW_BAND {
		return out, nil
	}
	asOf, err := h.asOf("as_of_date", "", h.zoneOfHome(&state.Facts))
	if err != nil {
		return nil, err
	}
	out.Band, err = h.band(words, t, state, asOf)
	return out, err
}

// band is the range of a session's price. A home that no way can be weighed
// for yet has none.
func (h *handlers) band(words *wire.Words, t *talk, state intake.State, asOf unit.Date) (*daybreakv1.Band, error) {
	q, err := h.memo.quote(&state.Told, asOf, func() (quote.Quote, error) { return band.Quote(h.books, state.Told, asOf) })
	if err != nil {
		return nil, err
	}
	return words.Band(t.stored.Head.String(), q), nil
}
