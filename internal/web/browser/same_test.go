package browser_test

import (
	"encoding/json"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// same asks, with the page's own session, for the canonical body of the quote
// on the screen and of a quote composed over REST from the facts that were told.
const same = `(async () => {
	const held = JSON.parse(sessionStorage.getItem(Object.keys(sessionStorage).find(k => k.startsWith('daybreak:'))));
	const headers = {'daybreak-session': held.secret, 'content-type': 'application/json'};
	const get = async path => (await fetch('/v1/' + path, {headers})).json();
	const {session} = await get(held.name);
	const told = session.facts;
	for (const {path} of told.derived ?? []) {
		const parts = path.split('.'), leaf = parts.pop();
		delete parts.reduce((at, part) => at?.[part], told)?.[leaf];
	}
	delete told.derived;
	const composed = await (await fetch('/v1/quotes:compose', {method: 'POST', headers, body: JSON.stringify({facts: told, view: 'QUOTE_VIEW_CANONICAL'})})).json();
	const kept = await get(held.quote + '?view=QUOTE_VIEW_CANONICAL');
	return JSON.stringify({kept: kept.canonical_body, composed: composed.canonical_body, trouble: composed.message ?? kept.message ?? ''});
})()`

// The page holds the same quote as every other front: the canonical body kept
// for the screen is, byte for byte, the one composed from the same facts.
func TestThePageHoldsTheSameQuoteAsRESTComposes(t *testing.T) {
	b := open(t, serve(t), look{width: 1280})
	b.begin()
	b.until(typical)
	b.seeQuote()
	shown := ask[string](b, `open().querySelector('output.reference').textContent.trim()`)
	raw, err := chromedp.Run(b.ctx, chromedp.Evaluate[string](same, chromedp.EvalAwaitPromise))
	require.NoError(t, err)
	var got struct {
		Kept, Composed []byte
		Trouble        string
	}
	require.NoError(t, json.Unmarshal([]byte(raw), &got))
	require.Empty(t, got.Trouble)
	require.NotEmpty(t, got.Kept)
	require.Equal(t, string(got.Kept), string(got.Composed))
	require.Contains(t, string(got.Kept), "reference\t"+shown+"\n")
}
