package browser_test

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"
)

// elsewhere answers a question of the page's own session from another place.
func (b *tab) elsewhere(question, choice string) {
	b.t.Helper()
	var held struct{ Name, Secret string }
	require.NoError(b.t, json.Unmarshal([]byte(ask[string](b, `sessionStorage.getItem('daybreak:demo')`)), &held))
	body := `{"answers": [{"question": "` + question + `", "choice": "` + choice + `"}]}`
	r, err := http.NewRequest(http.MethodPost, b.origin+"/v1/"+held.Name+":answer", strings.NewReader(body))
	require.NoError(b.t, err)
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("daybreak-session", held.Secret)
	reply, err := http.DefaultClient.Do(r)
	require.NoError(b.t, err)
	require.NoError(b.t, reply.Body.Close())
	require.Equal(b.t, http.StatusOK, reply.StatusCode)
}

// Two screens answer the same question: the second is told so, sees both
// answers, and says which counts.
func TestAnAnswerGivenElsewhereIsSaidAndSettled(t *testing.T) {
	b := open(t, serve(t), look{width: 1280})
	b.begin()
	b.until(typical, "place.parking")
	b.elsewhere("place.parking", "driveway")
	b.give("place.parking", "attached")
	b.wait("the conflict", `root().querySelector('.notice button')`)
	notice := ask[string](b, `root().querySelector('.notice').textContent`)
	require.Contains(t, notice, "Changed on another screen.")
	require.Contains(t, notice, "Driveway")
	require.Contains(t, notice, "Garage joined to the home")
	b.axe("conflict")
	b.picture("1280-light-conflict")
	b.tabTo("Use mine", `e.textContent === 'Use mine'`)
	b.press(kb.Enter)
	b.wait("mine in the log", `root().querySelector('article[data-question="place.parking"]').textContent.includes('Garage joined')`)
	require.Equal(t, 1, ask[int](b, `root().querySelectorAll('article[data-question="place.parking"]').length`), "nothing is doubled")
}

// The service cannot be reached: the page says so, keeps the answer, and a
// second try sends the same write once.
func TestAServiceOutOfReachLosesNothing(t *testing.T) {
	b := open(t, serve(t), look{width: 320, height: 640})
	b.begin()
	b.until(typical, "driving.weekday")
	before := ask[int](b, `root().querySelectorAll('[role=log] article').length`)
	b.cut(true)
	b.give("driving.weekday", "40")
	b.wait("the notice", `root().querySelector('.notice')?.textContent.includes('Nothing is lost')`)
	require.Equal(t, "40", ask[string](b, `open().querySelector('input').value`), "the field keeps what was typed")
	b.axe("out of reach")
	b.picture("320-light-out-of-reach")
	b.cut(false)
	b.tabTo("Try again", `e.textContent === 'Try again'`)
	b.press(kb.Enter)
	b.wait("the next question", `question() !== 'driving.weekday'`)
	b.settled()
	require.Equal(t, before+1, ask[int](b, `root().querySelectorAll('[role=log] article').length`))
}

// A reload in the middle of a write sends it again as it was: no answer is
// lost and none is doubled.
func TestAReloadMidAnswerNeitherLosesNorDoublesIt(t *testing.T) {
	b := open(t, serve(t), look{width: 768})
	b.begin()
	b.until(typical, "place.parking")
	b.cut(true)
	b.give("place.parking", "driveway")
	b.wait("the notice", `root().querySelector('.notice button')`)
	b.cut(false)
	require.NoError(t, chromedp.Do(b.ctx, chromedp.Reload()))
	b.wait("the answer in the log", `root()?.querySelector('article[data-question="place.parking"]')`)
	require.Equal(t, 1, ask[int](b, `root().querySelectorAll('article[data-question="place.parking"]').length`))
}

// A conversation that has ended at the service is said to have ended, and a new one can begin.
func TestAConversationThatIsGoneIsSaidToBe(t *testing.T) {
	b := open(t, serve(t), look{width: 768})
	b.begin()
	ask[bool](b, `(sessionStorage.setItem('daybreak:demo', JSON.stringify({name: 'sessions/00000000000000000000000000', secret: 'gone'})), true)`)
	require.NoError(t, chromedp.Do(b.ctx, chromedp.Reload()))
	b.wait("the notice", `root()?.querySelector('.notice')?.textContent.includes('has ended')`)
	b.begin()
}

// What cannot be taken is said in the words of the question, beside the field.
func TestANumberOutOfRangeIsSaidBesideTheField(t *testing.T) {
	b := open(t, serve(t), look{width: 1280})
	b.begin()
	b.until(typical, "driving.weekday")
	b.give("driving.weekday", "1e9")
	b.wait("what to give", `open().querySelector('.error:not([hidden])')`)
	require.Equal(t, "Fix: Enter miles as a number from 0 to 400.", ask[string](b, `open().querySelector('.error').textContent`))
	require.Equal(t, "true", ask[string](b, `focus().getAttribute('aria-invalid')`))
	require.Equal(t, "1e9", ask[string](b, `focus().value`))
	// The unit switch converts what is shown.
	b.press(kb.Backspace, kb.Backspace, kb.Backspace, "50")
	b.tabTo("the unit", `e.type === 'radio'`)
	b.press(kb.ArrowDown)
	require.Equal(t, "80", ask[string](b, `open().querySelector('.stepper input').value`))
}

// cut keeps the page's calls from reaching the service, or lets them through again.
func (b *tab) cut(off bool) {
	b.t.Helper()
	var blocked network.SetBlockedURLsParams
	if off {
		blocked.URLPatterns = []*network.BlockPattern{{URLPattern: b.origin + "/v1/*", Block: true}}
	}
	require.NoError(b.t, chromedp.Do(b.ctx, enable(network.SetBlockedURLs, blocked)))
}
