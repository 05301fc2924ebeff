package storetest

import (
	"fmt"
	"testing"
	"time"

	"daybreak/internal/fault"
	"daybreak/internal/store"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// plain is the model: what a session is, without any store.
type plain struct {
	log     []store.Revision
	done    map[string]store.Revision // request id → revision
	bodies  map[string]string
	expires time.Time
	gone    time.Time // end of its tombstone
}

// walk does random things to three sessions and to a plain model of them, and
// compares every answer.
func walk(t *testing.T, b *bench) {
	round := 0
	rapid.Check(t, func(t *rapid.T) {
		round++
		model := map[string]*plain{}
		for range rapid.IntRange(1, 25).Draw(t, "steps") {
			id := fmt.Sprintf("w%d-%d", round, rapid.IntRange(0, 2).Draw(t, "session"))
			m := model[id]
			if m != nil && m.log != nil && !m.expires.After(b.now()) {
				m.log = nil
			}
			switch rapid.IntRange(0, 9).Draw(t, "what") {
			case 0, 1:
				walkCreate(t, b, model, id)
			case 2:
				walkDelete(t, b, m, id)
			case 3:
				b.pass(time.Duration(rapid.IntRange(0, 100).Draw(t, "hours")) * time.Hour)
			default:
				walkAppend(t, b, m, id)
			}
		}
	})
}

func walkCreate(t *rapid.T, b *bench, model map[string]*plain, id string) {
	got, err := b.Store.CreateSession(b.ctx, fresh(id))
	m := model[id]
	switch {
	case m != nil && m.log != nil:
		require.NoError(t, err)
		require.True(t, got.Repeated)
		require.Equal(t, m.log[len(m.log)-1], got.Head)
	case m != nil && m.gone.After(b.now()):
		absent(t, err)
	default:
		require.NoError(t, err)
		require.False(t, got.Repeated)
		model[id] = &plain{log: []store.Revision{got.Head}, done: map[string]store.Revision{}, bodies: map[string]string{}, expires: b.now().Add(14 * day)}
	}
}

func walkDelete(t *rapid.T, b *bench, m *plain, id string) {
	err := b.Store.DeleteSession(b.ctx, store.Key{Shop: "alder", ID: id})
	switch {
	case m != nil && m.log != nil:
		require.NoError(t, err)
		m.log, m.gone = nil, b.now().Add(day)
	case m != nil && m.gone.After(b.now()):
		require.NoError(t, err)
	default:
		absent(t, err)
	}
}

func walkAppend(t *rapid.T, b *bench, m *plain, id string) {
	rid := fmt.Sprint("r", rapid.IntRange(0, 5).Draw(t, "request"))
	body := rapid.SampledFrom([]string{"a", "b"}).Draw(t, "body")
	var base store.Revision
	if m != nil && m.log != nil {
		base = m.log[rapid.IntRange(max(0, len(m.log)-2), len(m.log)-1).Draw(t, "base")]
	}
	got, err := b.Store.Append(b.ctx, store.Append{Key: store.Key{Shop: "alder", ID: id}, Base: base,
		Request: request("Answer", rid, body), Record: []byte(body)})
	if m == nil || m.log == nil {
		absent(t, err)
		return
	}
	head := m.log[len(m.log)-1]
	known, done := m.done[rid]
	switch {
	case done && m.bodies[rid] != body:
		kind(t, err, fault.KindConflict, "REQUEST_ID_REUSED")
		return
	case done:
		require.NoError(t, err)
		require.True(t, got.Repeated)
		require.Equal(t, known, got.Revision)
	case base != head:
		require.Equal(t, head.String(), kind(t, err, fault.KindConflict, "STALE_REVISION").Current)
		return
	default:
		require.NoError(t, err)
		require.False(t, got.Repeated)
		require.Equal(t, head.Number+1, got.Revision.Number)
		m.log = append(m.log, got.Revision)
		m.done[rid], m.bodies[rid] = got.Revision, body
	}
	m.expires = b.now().Add(14 * day)
}
