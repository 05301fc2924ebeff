package browser_test

import (
	"testing"

	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"
)

// Tab goes in the order of reading: log, answers, I don't know, the four helps,
// danger, then what is known, the price, and no further than the page.
func TestTheFocusGoesInTheOrderOfReading(t *testing.T) {
	b := open(t, serve(t), look{width: 1280})
	b.begin()
	b.until(typical, "place.tenure")
	require.Equal(t, "question", ask[string](b, `focus().id`))
	var order []string
	for range 60 {
		b.press(kb.Tab)
		b.focusSeen()
		at := ask[string](b, `(e => e.dataset.choice ?? e.dataset.act ?? (e.closest('.chips') ? 'chip' : e.matches('summary') ? 'more' : e.matches('.price .go') ? 'price' : e.tagName))(focus())`)
		if n := len(order); n == 0 || order[n-1] != at {
			order = append(order, at)
		}
		if at == "price" {
			break
		}
	}
	require.Equal(t, []string{"own", "rent", "assoc", "unsure", "find", "why", "change", "skip", "alarm", "chip", "more", "price"}, order)

	// Backwards from the heading stands the log, which can be scrolled and has a name.
	b.tabBack("the log", `e.getAttribute('role') === 'log'`)
	require.Equal(t, "Conversation so far", ask[string](b, `root().getElementById(focus().getAttribute('aria-labelledby')).textContent`))
}

func (b *tab) tabBack(what, fits string) {
	b.t.Helper()
	for range 80 {
		if ask[bool](b, `(e => Boolean(e && (`+fits+`)))(focus())`) {
			return
		}
		b.shiftTab()
	}
	require.Fail(b.t, "not reached backwards", what)
}

// "None of these" clears the rest, and any of the rest clears it.
func TestNoneOfTheseClearsTheRest(t *testing.T) {
	b := open(t, serve(t), look{width: 768})
	b.begin()
	b.until(typical, "place.signs")
	ticked := `[...open().querySelectorAll('[type=checkbox]')].filter(c => c.checked).map(c => c.value).join(' ')`
	for _, step := range []struct{ press, after string }{{"loose", "loose"}, {"trips", "loose trips"}, {"none", "none"}, {"cracked", "cracked"}} {
		if step.press == "cracked" {
			b.tabBack(step.press, `e.value === '`+step.press+`'`)
		} else {
			b.tabTo(step.press, `e.value === '`+step.press+`'`)
		}
		b.press(" ")
		require.Equal(t, step.after, ask[string](b, ticked))
	}
}

// "Another number" opens a box in its place, and the number typed is the answer.
func TestAnotherNumberOpensABox(t *testing.T) {
	b := open(t, serve(t), look{width: 768})
	said := answers{}
	for question, answer := range typical {
		said[question] = answer
	}
	said["outlet.reachable"], said["outlet.charging_now"], said["outlet.face"], said["outlet.look"] = "big", "no", "n14_50", "clean"
	b.begin()
	b.until(said, "place.built")
	b.axe("a choice or a number")
	b.until(said, "outlet.breaker")
	b.tabTo("Another number", `e.dataset.choice === 'other'`)
	b.press(kb.Enter)
	b.wait("the box", `focus()?.matches('input[type=text]')`)
	b.axe("another number")
	b.press("45", kb.Enter)
	b.wait("the next question", `question() !== 'outlet.breaker'`)
	require.Contains(t, ask[string](b, `root().querySelector('article[data-question="outlet.breaker"]').textContent`), "45")
	b.quiet()
}

// Two facts that do not fit together are said at once, and each can be changed.
func TestWhatDoesNotFitIsSaidAtOnce(t *testing.T) {
	b := open(t, serve(t), look{width: 1280})
	said := answers{}
	for question, answer := range typical {
		said[question] = answer
	}
	said["outlet.reachable"], said["outlet.charging_now"], said["outlet.face"], said["outlet.look"] = "big", "no", "n10_30", "clean"
	said["outlet.breaker"] = "b50"
	b.begin()
	b.until(said, "panel.heat")
	b.wait("what does not fit", `root().querySelector('[data-contradiction="C-02"]')`)
	require.Contains(t, ask[string](b, `root().querySelector('[data-contradiction="C-02"]').textContent`), "Stop")
	b.axe("contradiction")
	b.picture("1280-light-contradiction")
	b.tabBack("the outlet's breaker", `e.closest('[data-contradiction="C-02"]') && e.textContent.includes('breaker')`)
	b.press(kb.Enter)
	b.wait("its question", `question() === 'outlet.breaker'`)
	b.give("outlet.breaker", "b30")
	b.wait("peace", `question() === 'panel.heat' && !root().querySelector('[data-contradiction="C-02"]')`)
	b.quiet()
}

// A guess is one turn, kept as a range, and a better answer takes its place.
func TestAGuessIsOneTurn(t *testing.T) {
	b := open(t, serve(t), look{width: 768})
	said := answers{}
	for question, answer := range typical {
		said[question] = answer
	}
	said["driving.weekday"] = "about 40"
	b.begin()
	b.until(said, "place.dwelling")
	const turn = `[...root().querySelectorAll('article[data-question="driving.weekday"]')].map(a => a.textContent).join('|')`
	require.Contains(t, ask[string](b, turn), "34")
	require.Contains(t, ask[string](b, turn), "46")
	b.change("driving.weekday")
	b.give("driving.weekday", "15 to 20")
	b.wait("the range", `question() === 'place.dwelling' && `+turn+`.includes('15')`)
	b.change("driving.weekday")
	b.give("driving.weekday", "25")
	b.wait("the number", `question() === 'place.dwelling' && `+turn+`.includes('25')`)
	require.NotContains(t, ask[string](b, turn), "|", "one turn, not two")
	b.quiet()
}

// A question asked again shows the answer that stands.
func TestAChangedQuestionShowsWhatStandsNow(t *testing.T) {
	b := open(t, serve(t), look{width: 1280})
	b.begin()
	b.until(typical, "place.dwelling")
	b.change("place.parking")
	require.Equal(t, "attached", ask[string](b, `open().querySelector('[aria-current=true]').dataset.choice`))
	require.Contains(t, ask[string](b, `open().querySelector('[aria-current=true]').textContent`), "Now")
	b.tabTo("Keep my answer", `e.dataset.act === 'keep'`)
	b.press(kb.Enter)
	b.wait("the open question", `question() === 'place.dwelling'`)
	b.change("driving.weekday")
	require.Contains(t, ask[string](b, `open().querySelector('.stepper input').value`), "40")
	// Up and down move by a step, page up and down by ten.
	b.tabTo("the field", `e.matches('.stepper input')`)
	b.press(kb.ArrowUp)
	require.Equal(t, "45", ask[string](b, `focus().value`))
	b.press(kb.PageUp, kb.ArrowDown)
	require.Equal(t, "90", ask[string](b, `focus().value`))
	b.press(kb.Enter)
	b.wait("the open question", `question() === 'place.dwelling'`)
	require.Contains(t, ask[string](b, `root().querySelector('article[data-question="driving.weekday"]').textContent`), "90")
	b.quiet()
}
