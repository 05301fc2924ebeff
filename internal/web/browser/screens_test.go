package browser_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"
)

// walk goes to every kind of screen and lets each be looked at.
func (b *tab) walk(seen func(screen string)) {
	b.t.Helper()
	said := answers{}
	for question, answer := range typical {
		said[question] = answer
	}
	said["vehicle.model"] = "" // so that the size is asked, by picture
	said["outlet.reachable"], said["outlet.charging_now"], said["outlet.face"], said["outlet.look"] = "big", "no", "n14_50", "loose"
	said["outlet.reach"], said["outlet.shared"], said["outlet.breaker"] = "12", "nothing", "b50"

	seen("start")
	b.begin()
	seen("question-vehicle")
	b.tabTo("the search field", `e.getAttribute('role') === 'combobox'`)
	b.press("suv")
	b.wait("the list", `root().querySelector('[role=option]')`)
	b.press(kb.ArrowDown)
	seen("question-vehicle-list")
	b.press(kb.Escape, kb.Escape)
	for _, stop := range []struct{ question, screen string }{
		{"place.postal", "question-postal"}, {"place.signs", "question-several"}, {"driving.weekday", "question-number"},
		{"place.parking", "question-one"}, {"outlet.face", "question-outlets"}, {"panel.kind", "question-block"}, {"driving.home_by", "question-hour"},
	} {
		b.until(said, stop.question)
		b.wait("the drawings", `[...open().querySelectorAll('.drawing')].every(d => d.firstChild)`)
		seen(stop.screen)
		if stop.question == "place.parking" {
			b.help(seen)
		}
		if stop.question == "outlet.face" {
			b.tabTo("Compare two", `e.textContent === 'Compare two'`)
			b.press(kb.Enter)
			b.wait("both drawings", `root().querySelectorAll('dialog .drawing svg').length === 2`)
			seen("help-compare")
			b.press(kb.Escape)
			b.tabTo("Turn upside down", `e.getAttribute('aria-pressed') === 'false'`)
			b.press(kb.Enter)
			require.True(b.t, ask[bool](b, `open().querySelector('.pictures').classList.contains('turned')`))
		}
		if stop.question == "driving.weekday" {
			b.tabTo("the field", `e.matches('.stepper input')`)
			b.press("a lot", kb.Enter)
			b.wait("what to give instead", `open().querySelector('.error:not([hidden])')`)
			require.Equal(b.t, "a lot", ask[string](b, `focus().value`), "the field keeps what was typed")
			seen("question-error")
			b.press(strings.Repeat(kb.Backspace, len("a lot")))
		}
	}
	b.seeQuote()
	seen("result")
	ask[bool](b, `(open().querySelectorAll('details').forEach(d => d.open = true), true)`)
	seen("result-opened")
	b.tabTo("Go on answering", `e.textContent === 'Go on answering'`)
	b.press(kb.Enter)
	b.wait("a question", `question() !== ''`)
	b.tabTo("Heat, smell, marks or buzzing?", `e.dataset.act === 'alarm'`)
	b.press(kb.Enter)
	b.wait("the sheet", `root().querySelector('dialog[open]')`)
	seen("help-danger")
	b.tabTo("Brown marks", `e.dataset.choice === 'burnt'`)
	b.press(kb.Enter)
	b.wait("the halt", `open().querySelector('.halted')`)
	seen("halt")
	b.tabTo("what it means for the quote", `e.dataset.act === 'see'`)
	b.press(kb.Enter)
	b.wait("the halted quote", `open().querySelector('.result .caution.stop')`)
	seen("halt-quote")
}

// help opens each help of a turn and closes it again; the focus comes back.
func (b *tab) help(seen func(string)) {
	b.t.Helper()
	b.tabTo("Why we ask", `e.dataset.act === 'why'`)
	b.press(kb.Enter)
	require.False(b.t, ask[bool](b, `open().querySelector('.why').hidden`))
	seen("help-why")
	for act, screen := range map[string]string{"find": "help-find", "change": "help-change"} {
		b.tabTo(act, `e.dataset.act === `+quote(act))
		b.press(kb.Enter)
		b.wait("the sheet", `root().querySelector('dialog[open] h2') === focus()`)
		seen(screen)
		b.press(kb.Escape)
		require.Equal(b.t, act, ask[string](b, `focus().dataset.act`), "closing a sheet gives the focus back to its opener")
	}
}

// Every screen, at the three widths and in both themes: nothing the
// accessibility engine minds, nothing wider than the window.
func TestEveryScreenAtEveryWidthInBothThemes(t *testing.T) {
	for _, dark := range []bool{false, true} {
		for _, width := range []int64{320, 768, 1280} {
			l := look{width: width, height: map[int64]int64{320: 640}[width], dark: dark}
			name := fmt.Sprintf("%d-%s", width, map[bool]string{false: "light", true: "dark"}[dark])
			t.Run(name, func(t *testing.T) {
				b := open(t, serve(t), l)
				b.walk(func(screen string) {
					b.t.Helper()
					require.LessOrEqual(t, ask[int](b, `document.documentElement.scrollWidth`), int(width), "%s scrolls sideways", screen)
					b.picture(name + "-" + screen)
					if width != 768 { // between the two others nothing is new to it
						b.axe(name + " " + screen)
					}
				})
				b.quiet()
			})
		}
	}
}

// With forced colours every state keeps a border and its word, and the page
// still works; at 400 % zoom a 1280 window is 320 wide.
func TestForcedColoursKeepEveryState(t *testing.T) {
	b := open(t, serve(t), look{width: 1280, media: []*emulation.MediaFeature{{Name: "forced-colors", Value: "active"}}})
	b.begin()
	b.until(answers{"place.postal": "00010", "place.signs": "none"}, "place.parking")
	require.True(t, ask[bool](b, `matchMedia('(forced-colors: active)').matches`))
	require.True(t, ask[bool](b, `[...root().querySelectorAll('.chip')].length > 2 && [...root().querySelectorAll('.chip')].every(c => parseFloat(getComputedStyle(c).borderTopWidth) >= 1 && c.querySelector('svg.mark') && /told|looked up|assumed/.test(c.textContent))`))
	require.NotEqual(t, "rgba(0, 0, 0, 0)", ask[string](b, `getComputedStyle(open().querySelector('.horizon')).backgroundColor`))
	b.picture("forced-colours")
	b.quiet()
}

// The pinned price never lies over what has the focus.
func TestThePinnedPriceNeverCoversTheFocus(t *testing.T) {
	b := open(t, serve(t), look{width: 320, height: 568})
	b.begin()
	b.until(typical, "place.dwelling")
	for range 24 {
		b.press(kb.Tab)
		if ask[bool](b, `!focus() || focus() === document.body || !!focus().closest('.price')`) {
			continue
		}
		require.True(t, ask[bool](b, `(() => {
			const f = focus().getBoundingClientRect(), p = root().querySelector('.price').getBoundingClientRect();
			return f.height > p.top || f.bottom <= p.top + 1 || f.top >= p.bottom;
		})()`), "the price lies over %s", ask[string](b, `focus().outerHTML.slice(0, 120)`))
	}
}

// A reader may space the text as SC 1.4.12 says; nothing is cut or scrolls sideways.
func TestSpacedTextStaysInTheWindow(t *testing.T) {
	b := open(t, serve(t), look{width: 320, height: 640})
	ask[bool](b, `(() => {
		const spaced = new CSSStyleSheet();
		spaced.replaceSync('* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important } p { margin-block-end: 2em !important }');
		root().adoptedStyleSheets = [...root().adoptedStyleSheets, spaced];
		return true })()`)
	b.begin()
	for _, stop := range []string{"place.signs", "driving.weekday", "place.parking", "outlet.reachable"} {
		b.until(typical, stop)
		require.LessOrEqual(t, ask[int](b, `document.documentElement.scrollWidth`), 320, stop)
		require.Equal(t, "", ask[string](b, `[...open().querySelectorAll('button, label')].filter(e => e.scrollWidth > e.clientWidth + 1).map(e => e.textContent).join('|')`))
	}
	b.seeQuote()
	require.LessOrEqual(t, ask[int](b, `document.documentElement.scrollWidth`), 320)
}
