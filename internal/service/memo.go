package service

import (
	"sync"

	"daybreak/internal/facts"
	"daybreak/internal/quote"
	"daybreak/internal/unit"
)

// remembered is how many ranges are kept ready.
const remembered = 512

// memo keeps the quotes behind the ranges of sessions, so that a watcher or a
// reload costs a look-up. What a household comes to follows from its facts and
// the date alone, since the books do not change while the service runs.
type memo struct {
	mutex  sync.Mutex
	quotes map[memoKey]*quote.Quote
	order  []memoKey // oldest first
}

type memoKey struct {
	household facts.Fingerprint
	asOf      unit.Date
}

// quote is the quote of a household, made once. Two who ask at once may both
// make it; the result is the same.
func (m *memo) quote(told *facts.Facts, asOf unit.Date, compose func() (quote.Quote, error)) (*quote.Quote, error) {
	key := memoKey{told.Fingerprint(), asOf}
	m.mutex.Lock()
	q, ok := m.quotes[key]
	m.mutex.Unlock()
	if ok {
		return q, nil
	}
	made, err := compose()
	if err != nil {
		return nil, err
	}
	m.mutex.Lock()
	defer m.mutex.Unlock()
	if m.quotes == nil {
		m.quotes = map[memoKey]*quote.Quote{}
	}
	if _, twice := m.quotes[key]; !twice {
		m.quotes[key], m.order = &made, append(m.order, key)
	}
	if len(m.order) > remembered {
		delete(m.quotes, m.order[0])
		m.order = append([]memoKey{}, m.order[1:]...)
	}
	return &made, nil
}
