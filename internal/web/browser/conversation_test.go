package browser_test

import (
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"
)

// A household as it often is: a house with a garage, 200 amps, a short run.
var typical = answers{
	"vehicle.model": "suv", "place.postal": "00010", "place.signs": "none", "driving.weekday": "40", "place.parking": "attached",
	"place.dwelling": "house", "place.tenure": "own", "outlet.reachable": "none", "place.built": "e4", "panel.where": "garage",
	"panel.kind": "breakers", "panel.main": "m200", "panel.spaces": "s2", "panel.heat": "fuel", "panel.kit": "dryer", "panel.cooling": "central",
	"panel.big": "none", "panel.backfeed": "none", "place.area": "1800", "route.feet": "20", "route.path": "surface", "route.wall": "open",
	"driving.home_by": "6 pm", "driving.leave_by": "7:30 am", "wishes.plug": "any", "wishes.second": "no",
}

func (b *tab) begin() {
	b.t.Helper()
	b.tabTo("Begin", `e.dataset.act === 'begin'`)
	b.press(kb.Enter)
	b.wait("the first question", `question() !== ''`)
	b.settled()
}

// seeQuote asks for the quote from wherever the conversation is.
func (b *tab) seeQuote() {
	b.t.Helper()
	if ask[bool](b, `!open().querySelector('.cards')`) {
		b.tabTo("See the quote", `e.matches('.price .go')`)
		b.press(kb.Enter)
	}
	b.wait("the quote", `open().querySelector('.result h2')`)
	require.Equal(b.t, "H2", ask[string](b, `focus()?.tagName`))
}

func TestATypicalHouseholdReachesAQuoteByKeyboardAlone(t *testing.T) {
	b := open(t, serve(t), look{width: 1280})
	b.begin()
	asked := b.until(typical)
	t.Logf("%d questions: %v", len(asked), asked)
	b.seeQuote()
	require.NotEmpty(t, ask[string](b, `open().querySelector('.headline')?.textContent`))
	require.GreaterOrEqual(t, ask[int](b, `open().querySelectorAll('.option').length`), 1)
	require.LessOrEqual(t, ask[int](b, `open().querySelectorAll('.option').length`), 3)
	require.NotEmpty(t, ask[string](b, `open().querySelector('output.reference')?.textContent`))

	// The licensed-electrician line stands beside every circuit.
	require.Equal(t, ask[int](b, `open().querySelectorAll('.circuit').length`), ask[int](b, `open().querySelectorAll('.circuit .licensed').length`))

	// Every price line opens, by keyboard, and says why it is there.
	b.tabTo("a price line", `e.matches('.bill summary')`)
	b.press(kb.Enter)
	require.True(t, ask[bool](b, `focus().closest('details').open && focus().closest('details').querySelector('.inside').textContent.length > 20`))

	// Each opens to a step: a sentence, its formula, and for the numbers of the design the section they rest on.
	require.Equal(t, 0, ask[int](b, `[...open().querySelectorAll('.bill > li')].filter(li => !li.querySelector('.steps .formula')).length`))
	require.True(t, ask[bool](b, `[...open().querySelectorAll('.bill .steps .small')].some(s => /NEC/.test(s.textContent) && /verified|memory|computed|judgement/.test(s.textContent))`))

	// The lines shown sum to the total shown, to the cent.
	require.True(t, ask[bool](b, `(() => {
		const cents = e => Math.round(Number(e.textContent.replace(/[^0-9.-]/g, '')) * 100);
		const all = [...open().querySelectorAll('.bill > li:not(.beside) .amount')].map(cents);
		return all.length > 3 && all.slice(0, -1).reduce((a, c) => a + c, 0) === all.at(-1);
	})()`), "the price lines do not sum to the total")

	// Choosing another option by arrow key shows its lines.
	if ask[int](b, `open().querySelectorAll('.option').length`) > 1 {
		b.tabTo("the options", `e.type === 'radio' && e.closest('.option')`)
		chosen := ask[string](b, `focus().value`)
		b.press(kb.ArrowDown)
		require.NotEqual(t, chosen, ask[string](b, `focus().value`))
		require.True(t, ask[bool](b, `open().querySelector('.option.chosen input').value === focus().value`))
	}
	b.quiet()
}

func TestADangerHaltsTheConversation(t *testing.T) {
	b := open(t, serve(t), look{width: 1280})
	b.begin()
	b.until(answers{"vehicle.model": "suv", "place.postal": "00010", "place.signs": "burnt"})
	b.wait("the halt", `open().querySelector('.halted')`)
	require.Equal(t, "H2", ask[string](b, `focus()?.tagName`))
	require.GreaterOrEqual(t, ask[int](b, `open().querySelectorAll('.caution.stop').length`), 1)
	require.Equal(t, 1, ask[int](b, `open().querySelectorAll('[role=alert]').length && 1`), "a stop speaks up")
	require.True(t, ask[bool](b, `root().querySelector('.price .go').hidden`), "no price stands beside a danger")
	b.tabTo("what it means for the quote", `e.dataset.act === 'see'`)
	b.press(kb.Enter)
	b.wait("the halted quote", `open().querySelector('.result .caution.stop')`)
	b.quiet()
}

// The control for danger stands on every turn, and the same reply halts.
func TestHeatCanBeToldAtAnyTurn(t *testing.T) {
	b := open(t, serve(t), look{width: 768})
	b.begin()
	b.until(typical, "place.dwelling")
	b.tabTo("Heat, smell, marks or buzzing?", `e.dataset.act === 'alarm'`)
	b.press(kb.Enter)
	b.wait("the sheet", `root().querySelector('dialog[open]')`)
	b.tabTo("Brown marks", `e.dataset.choice === 'burnt'`)
	b.press(kb.Enter)
	b.wait("the halt", `open().querySelector('.halted')`)
	b.quiet()
}

func TestReloadAndBackKeepTheConversation(t *testing.T) {
	origin := serve(t)
	b := open(t, origin, look{width: 320, height: 640})
	b.begin()
	b.until(typical, "place.parking")
	const log = `[...root().querySelectorAll('[role=log] article')].map(a => a.textContent).join('|')`
	before := ask[string](b, log)

	require.NoError(t, chromedp.Do(b.ctx, chromedp.Reload()))
	b.wait("the same question", `question() === 'place.parking'`)
	require.Equal(t, before, ask[string](b, log), "a reload lost an answer")

	// Away and back again.
	b.visit(origin + "/drawings/14-50.svg")
	b.history(-1)
	b.wait("the same question", `question() === 'place.parking'`)
	require.Equal(t, before, ask[string](b, log), "leaving the page lost an answer")

	// The back button within the page goes to the question before, its answer kept.
	previous := ask[string](b, `[...root().querySelectorAll('[role=log] article')].at(-1).dataset.question`)
	b.history(-1)
	b.wait("the question before", `question() === `+quote(previous))
	require.Equal(t, before, ask[string](b, log))
	b.history(1)
	b.wait("the open question", `question() === 'place.parking'`)

	require.Equal(t, "", ask[string](b, `location.search + location.hash`), "nothing of a session stands in an address")
	require.NotContains(t, ask[string](b, `JSON.stringify(history.state)`), "session")

	// A quote survives a reload too.
	b.seeQuote()
	reference := ask[string](b, `open().querySelector('output.reference').textContent`)
	require.NoError(t, chromedp.Do(b.ctx, chromedp.Reload()))
	b.wait("the quote", `open()?.querySelector('.result h2')`)
	require.Equal(t, reference, ask[string](b, `open().querySelector('output.reference').textContent`))
	b.history(-1)
	b.wait("the question left for the quote", `question() === 'place.parking'`)
	b.quiet()
}

// Answers on a branch that no longer applies are kept, shown as set aside, and
// come back when the branch does.
func TestChangeRevivesASetAsideBranch(t *testing.T) {
	b := open(t, serve(t), look{width: 1280})
	said := answers{}
	for question, answer := range typical {
		said[question] = answer
	}
	said["outlet.reachable"], said["outlet.charging_now"], said["outlet.face"], said["outlet.look"] = "big", "no", "n14_50", "clean"
	b.begin()
	b.until(said, "outlet.reach")
	const aside = `root().querySelector('article[data-question="outlet.face"]').classList.contains('aside')`
	require.False(t, ask[bool](b, aside))
	b.change("outlet.reachable")
	b.give("outlet.reachable", "none")
	b.wait("the outlet set aside", aside)
	require.Contains(t, ask[string](b, `root().querySelector('article[data-question="outlet.face"]').textContent`), "kept")
	b.settled()
	b.change("outlet.reachable")
	b.give("outlet.reachable", "big")
	b.wait("the outlet back", `!(`+aside+`)`)
	b.settled()
	require.Equal(t, "outlet.reach", ask[string](b, `question()`), "what was told is not asked again")
	b.quiet()
}

// One tap marks a whole walk unsure, and how to find out stays open for later.
func TestGuessForNowAnswersAWholeWalk(t *testing.T) {
	b := open(t, serve(t), look{width: 1280})
	b.begin()
	b.until(typical, "panel.kind")
	require.NotEmpty(t, ask[string](b, `open().querySelector('.lead-in').textContent`))
	b.tabTo("Guess for now", `e.dataset.act === 'guess'`)
	b.press(kb.Enter)
	b.wait("the end of the walk", `!question().startsWith('panel.kind') && root().querySelector('article[data-question="panel.main"]')`)
	b.settled()
	for _, question := range []string{"panel.kind", "panel.main", "panel.spaces"} {
		require.Contains(t, ask[string](b, `root().querySelector('article[data-question="`+question+`"]').textContent`), "know", question)
	}
	require.Equal(t, "H2", ask[string](b, `focus()?.tagName`))
	b.change("panel.main")
	b.quiet()
}

// change goes to an answer by its Change button.
func (b *tab) change(question string) {
	b.t.Helper()
	if ask[bool](b, `!root().querySelector('.earlier').hidden`) {
		b.tabTo("earlier answers", `e.matches('.earlier')`)
		b.press(kb.Enter)
	}
	b.tabTo("Change "+question, `e.matches('article[data-question="`+question+`"] button')`)
	b.press(kb.Enter)
	b.wait("the question again", `question() === `+quote(question))
	require.Equal(b.t, "H2", ask[string](b, `focus()?.tagName`), "after Change the focus is on that question")
}
