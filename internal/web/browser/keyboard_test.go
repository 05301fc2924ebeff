package browser_test

import (
	"strings"

	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"
)

// answers is what a person says, by question: the id of a choice, ids joined
// by "+", or what is typed. A question that is not there gets "I don't know".
type answers map[string]string

// until answers question after question, by keyboard alone, until one of the
// named questions is open, the conversation halts, or the quote is there.
func (b *tab) until(said answers, stops ...string) (asked []string) {
	b.t.Helper()
	for range 80 {
		b.settled()
		open := ask[string](b, `question()`)
		if open == "" {
			return asked
		}
		for _, stop := range stops {
			if open == stop {
				return asked
			}
		}
		asked = append(asked, open)
		b.answer(open, said[open])
	}
	require.Fail(b.t, "the conversation does not end", strings.Join(asked, " "))
	return asked
}

// answer answers the open question and checks what every turn must hold: one
// new article, and the focus on the new heading.
func (b *tab) answer(question, said string) {
	b.t.Helper()
	require.Equal(b.t, 6, ask[int](b, `['unsure', 'find', 'why', 'change', 'skip', 'alarm'].filter(act => open().querySelector('[data-act="' + act + '"]')).length`), "%s lacks a help", question)
	const articles = `root().querySelectorAll('[role=log] article').length`
	before := ask[int](b, articles)
	b.give(question, said)
	b.wait("the answer to "+question, `(question() !== `+quote(question)+`)`)
	b.settled()
	if ask[bool](b, `!open().querySelector('.cards')`) {
		require.Equal(b.t, before+1, ask[int](b, articles), "one new turn in the log after %s", question)
	}
	require.Equal(b.t, "H2", ask[string](b, `focus()?.tagName`), "after an answer the focus is on the new heading")
	b.focusSeen()
}

// give says one answer by pressing keys, from wherever the focus is.
func (b *tab) give(question, said string) {
	b.t.Helper()
	control := ask[string](b, `open().querySelector('[role=combobox]') ? 'search' : open().querySelector('[type=checkbox]') ? 'ticks'
		: open().querySelector('[value=pm]') ? 'hour' : open().querySelector('.choices [data-choice], .pictures') ? 'buttons' : 'field'`)
	switch {
	case said == "":
		b.tabTo("I don't know", `e.dataset.act === 'unsure'`)
		b.press(kb.Enter)
	case control == "buttons":
		b.tabTo(said, `e.dataset.choice === `+quote(said))
		b.press(kb.Enter)
	case control == "ticks":
		for _, id := range strings.Split(said, "+") {
			b.tabTo(id, `e.type === 'checkbox' && e.value === `+quote(id))
			b.press(" ")
		}
		b.tabTo("Continue", `e.type === 'submit'`)
		b.press(kb.Enter)
	case control == "search":
		b.tabTo("the search field", `e.role === 'combobox' || e.getAttribute('role') === 'combobox'`)
		b.press(said)
		b.wait("the list", `root().querySelector('[role=option]')`)
		b.press(kb.ArrowDown, kb.Enter)
	case control == "hour":
		b.tabTo("the time", `e.matches('input[type=text]')`)
		b.press(said, kb.Enter)
	default:
		b.tabTo("the field", `e.matches('input[type=text]')`)
		b.press(said, kb.Enter)
	}
}

// settled waits until nothing is on its way.
func (b *tab) settled() {
	b.t.Helper()
	b.wait("the page at rest", `open()?.querySelector('h2') && root().querySelector('.page[aria-busy=false]')`)
}

func quote(s string) string { return "'" + strings.ReplaceAll(s, "'", `\'`) + "'" }
