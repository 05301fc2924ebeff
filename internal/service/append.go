package service

import (
	"context"
	"errors"
	"time"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/fault"
	"daybreak/internal/intake"
	"daybreak/internal/intake/tree"
	"daybreak/internal/store"

	"github.com/google/uuid"
	"google.golang.org/protobuf/proto"
)

// writing is a request that appends to a session's log.
type writing struct {
	method, name, requestID, base string
	body                          proto.Message
}

// tries is how often an append is judged anew when the head moved under it.
const tries = 3

// append says something in a session: a request that was committed before gets
// its reply again; else the entries are judged at the head and appended there,
// all or none. A head that moves in between is met by judging again.
func (h *handlers) append(ctx context.Context, req writing, say func(*talk, *tree.World, intake.Meta) ([]intake.Entry, error)) (*daybreakv1.Session, error) {
	request := store.Request{Method: req.method, ID: req.requestID, Body: bodyOf(req.body)}
	if request.ID == "" {
		request.ID = uuid.NewString()
	}
	for attempt := 1; ; attempt++ {
		t, err := h.read(ctx, req.name)
		if err != nil {
			return nil, err
		}
		if before, known, err := t.committed(request); known || err != nil {
			if err != nil {
				return nil, err
			}
			return h.folded(before, daybreakv1.SessionView_SESSION_VIEW_BASIC)
		}
		s, err := h.commit(ctx, t, request, req.base, say)
		if moved := errors.Is(err, errMoved); !moved || attempt == tries {
			if moved {
				return nil, t.staleOn(t.stored.Head.String())
			}
			return s, err
		}
	}
}

// errMoved says that the head moved between reading and appending.
var errMoved = errors.New("the head moved")

func (h *handlers) commit(ctx context.Context, t *talk, request store.Request, base string, say func(*talk, *tree.World, intake.Meta) ([]intake.Entry, error)) (*daybreakv1.Session, error) {
	world, err := h.world(t)
	if err != nil {
		return nil, err
	}
	m := intake.Meta{Channel: "shopper", At: time.Now().UnixMilli()}
	if m.Base, err = t.base(base); err != nil {
		return nil, err
	}
	entries, err := say(t, world, m)
	if err != nil {
		return nil, t.current(err)
	}
	records := make([][]byte, len(entries))
	for i, e := range entries {
		records[i] = e.Encode()
	}
	a := store.Append{Key: t.stored.Key, Base: t.stored.Head, Request: request, Record: pack(records)}
	done, err := h.store.Append(ctx, a)
	if f, ok := fault.As(err); ok && f.Reason == "STALE_REVISION" {
		return nil, errMoved
	}
	if err != nil {
		return nil, named("name", "sessions/"+t.stored.Key.ID, err)
	}
	if done.Repeated { // the same request came twice at once; the other was first
		if t, err = h.read(ctx, "sessions/"+t.stored.Key.ID); err != nil {
			return nil, err
		}
		return h.folded(t.at(done.Revision), daybreakv1.SessionView_SESSION_VIEW_BASIC)
	}
	t.grow(done, a, entries)
	return h.session(t, intake.Fold(t.log, h.books.Tree, world), daybreakv1.SessionView_SESSION_VIEW_BASIC)
}

// grow is the talk with what was just appended, so that it need not be read
// again.
func (t *talk) grow(done store.Appended, a store.Append, entries []intake.Entry) {
	for _, e := range entries {
		t.log = t.log.With(e)
	}
	t.stored.Log = append(t.stored.Log, store.Entry{Revision: done.Revision, Request: a.Request, At: time.Now(), Record: a.Record})
	t.stored.Head, t.stored.Expires = done.Revision, done.Expires
	t.ends = append(t.ends, t.log.Len())
}

// committed finds a request among those of the log, and the talk as it stood
// when it was done. Another body under its id is a conflict.
func (t *talk) committed(r store.Request) (*talk, bool, error) {
	for _, e := range t.stored.Log {
		if e.Request.Method != r.Method || e.Request.ID != r.ID {
			continue
		}
		if e.Request.Body != r.Body {
			return nil, true, reused(r.ID)
		}
		return t.at(e.Revision), true, nil
	}
	return nil, false, nil
}

func reused(id string) error {
	return &fault.Fault{
		Kind: fault.KindConflict, Reason: "REQUEST_ID_REUSED", Field: "request_id", Got: id, Accepted: "a new UUID for another request",
	}
}

// current puts the head's revision into a conflict, so that the caller can
// look and answer again.
func (t *talk) current(err error) error {
	f, ok := fault.As(err)
	if !ok || f.Reason != "STALE_REVISION" {
		return err
	}
	stale := *f
	stale.Current = t.stored.Head.String()
	return &stale
}
