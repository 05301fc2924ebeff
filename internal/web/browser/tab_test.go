package browser_test

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"
)

const patience = 20 * time.Second

var (
	chromiumOnce sync.Once
	chromiumRoot context.Context
	chromiumGone func()
	chromiumErr  error
)

func TestMain(m *testing.M) {
	code := m.Run()
	if chromiumGone != nil {
		chromiumGone()
	}
	os.Exit(code)
}

// chromium starts the one browser all tests share; each test has its own
// context in it, with storage of its own.
func chromium(t *testing.T) context.Context {
	t.Helper()
	chromiumOnce.Do(func() {
		path, err := exec.LookPath("chromium")
		if err != nil {
			if path, err = exec.LookPath("chromium-browser"); err != nil {
				chromiumErr = fmt.Errorf("no chromium on the path; install the package chromium (apt-get install chromium)")
				return
			}
		}
		options := append(chromedp.DefaultExecAllocatorOptions[:],
			chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.NoFirstRun,
			chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true),
			chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true))
		allocator, stop := chromedp.NewExecAllocator(context.Background(), options...)
		root, cancel := chromedp.NewContext(allocator)
		chromiumErr = chromedp.Do(root, chromedp.Navigate("about:blank"))
		chromiumRoot, chromiumGone = root, func() { cancel(); stop() }
	})
	require.NoError(t, chromiumErr)
	return chromiumRoot
}

// tab is one page in the browser, with what it asked for and complained of.
type tab struct {
	t      *testing.T
	ctx    context.Context
	origin string
	look   look

	mu       sync.Mutex
	requests []string
	trouble  []string
}

// look is how a page is looked at.
type look struct {
	width  int64
	height int64
	dark   bool
	media  []*emulation.MediaFeature
}

func open(t *testing.T, origin string, l look) *tab {
	t.Helper()
	root := chromium(t)
	timed, stop := context.WithTimeout(root, 3*time.Minute)
	t.Cleanup(stop)
	ctx, cancel := chromedp.NewContext(timed, chromedp.WithNewBrowserContext())
	t.Cleanup(cancel)
	b := &tab{t: t, ctx: ctx, origin: origin}
	require.NoError(t, chromedp.Listen(ctx, b.hear))
	require.NoError(t, chromedp.Do(ctx,
		enable(network.Enable, network.EnableParams{}),
		enable(log.Enable, cdp.Empty{}),
		enable(runtime.Enable, cdp.Empty{}),
	))
	b.see(l)
	b.visit(origin + "/")
	b.wait("page ready", `open()?.querySelector('h2')`)
	t.Cleanup(func() {
		if t.Failed() {
			b.picture("failed-" + strings.ReplaceAll(t.Name(), "/", "-"))
		}
	})
	return b
}

func (b *tab) hear(event any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		b.requests = append(b.requests, e.Request.URL)
	case *log.EventEntryAdded:
		if e.Entry.Level == "error" {
			b.trouble = append(b.trouble, e.Entry.Text+" "+e.Entry.URL)
		}
	case *runtime.EventExceptionThrown:
		b.trouble = append(b.trouble, e.ExceptionDetails.Text+" "+e.ExceptionDetails.Exception.Description)
	}
}

// see sets the window and the reader's preferences.
func (b *tab) see(l look) {
	b.t.Helper()
	if l.height == 0 {
		l.height = 900
	}
	b.look = l
	scheme := "light"
	if l.dark {
		scheme = "dark"
	}
	features := append([]*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}, {Name: "prefers-reduced-motion", Value: "reduce"}}, l.media...)
	require.NoError(b.t, chromedp.Do(b.ctx,
		chromedp.EmulateViewport(l.width, l.height),
		enable(emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: features}),
	))
}

func (b *tab) visit(address string) {
	b.t.Helper()
	require.NoError(b.t, chromedp.Do(b.ctx, chromedp.Navigate(address)))
}

// history presses the browser's back (-1) or forward (1) button. A page kept
// whole in the back-forward cache loads nothing, so there is nothing to wait for here.
func (b *tab) history(step int) {
	b.t.Helper()
	require.NoError(b.t, chromedp.Do(b.ctx, chromedp.Evaluate[chromedp.Void](fmt.Sprintf(`void setTimeout(() => history.go(%d))`, step))))
}

// prelude gives scripts the shadow root of the element, its open part, and the
// element that holds the focus.
const prelude = `
const root = () => document.querySelector('daybreak-intake')?.shadowRoot;
const open = () => root()?.querySelector('.open');
const question = () => root()?.querySelector('form.question')?.dataset.question ?? '';
const focus = () => { let e = document.activeElement; while (e?.shadowRoot?.activeElement) e = e.shadowRoot.activeElement; return e };
`

// ask runs an expression in the page.
func ask[T any](b *tab, expression string) T {
	b.t.Helper()
	value, err := chromedp.Run(b.ctx, chromedp.Evaluate[T](`(() => {`+prelude+`return (`+expression+`)})()`))
	require.NoError(b.t, err, expression)
	return value
}

// wait waits until an expression holds.
func (b *tab) wait(what, expression string) {
	b.t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(15 * time.Millisecond) {
		value, err := chromedp.Run(b.ctx, chromedp.Evaluate[bool](`(() => {`+prelude+`return Boolean(`+expression+`)})()`))
		if err == nil && value {
			return
		}
	}
	require.Failf(b.t, "waited in vain", "%s\n%s\ntrouble: %v", what, ask[string](b, `[root()?.querySelector('.notice')?.textContent, open()?.textContent ?? document.body.textContent].join(' … ')`), b.trouble)
}

// press presses keys one after the other; a text is typed.
func (b *tab) press(keys ...string) {
	b.t.Helper()
	for _, key := range keys {
		require.NoError(b.t, chromedp.Do(b.ctx, chromedp.KeyEvent(key)))
	}
}

// tabTo presses Tab until the focused element fits, as a person would. The
// focus must never fall to the body on the way.
func (b *tab) tabTo(what, fits string) {
	b.t.Helper()
	var passed []string
	for range 160 {
		if ask[bool](b, `(e => Boolean(e && (`+fits+`)))(focus())`) {
			return
		}
		b.press(kb.Tab)
		passed = append(passed, ask[string](b, `focus()?.tagName + ' ' + (focus()?.textContent ?? '').trim().slice(0, 40)`))
	}
	require.Failf(b.t, "not reached by keyboard", "%s (%s); passed %s", what, fits, strings.Join(passed, " | "))
}

func (b *tab) shiftTab() {
	b.t.Helper()
	require.NoError(b.t, chromedp.Do(b.ctx, chromedp.KeyEvent(kb.Tab, chromedp.KeyModifiers(chromedp.ModifierShift))))
}

// focusSeen asserts that the focus is on something, inside the element, and drawn.
func (b *tab) focusSeen() {
	b.t.Helper()
	require.True(b.t, ask[bool](b, `!!focus() && focus() !== document.body && root()?.contains(focus())`), "the focus fell out of the element")
}

func enable[P, R any](command cdp.Command[P, R], params P) chromedp.Action[chromedp.Void] {
	return func(ctx context.Context, target *chromedp.Target) (chromedp.Void, error) {
		_, err := cdp.Call(ctx, target, command, params)
		return chromedp.Void{}, err
	}
}

// axe runs the accessibility engine over the page as it stands.
func (b *tab) axe(screen string) {
	b.t.Helper()
	script, err := os.ReadFile(filepath.Join("..", "node_modules", "axe-core", "axe.min.js"))
	require.NoError(b.t, err, "axe-core is missing; run: npm ci --prefix internal/web")
	defer b.whole()()
	require.NoError(b.t, chromedp.Do(b.ctx, chromedp.Evaluate[chromedp.Void](string(script)+`;0`)))
	raw, err := chromedp.Run(b.ctx, chromedp.Evaluate[string](`axe.run(document, {
		runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'], rules: {'target-size': {enabled: true}},
	}).then(r => JSON.stringify({passes: r.passes.length, violations: r.violations.map(v => ({id: v.id, help: v.help, nodes: v.nodes.map(n => n.target.join(' ') + ' ' + n.html.slice(0, 160) + ' ' + n.failureSummary)})),
		incomplete: r.incomplete.map(v => v.id + ' × ' + v.nodes.length)}))`, chromedp.EvalAwaitPromise))
	require.NoError(b.t, err)
	var report struct {
		Passes     int
		Violations []struct {
			ID, Help string
			Nodes    []string
		}
		Incomplete []string
	}
	require.NoError(b.t, json.Unmarshal([]byte(raw), &report))
	b.t.Logf("axe %s: %d rules passed, %d violated, incomplete %v", screen, report.Passes, len(report.Violations), report.Incomplete)
	require.Greater(b.t, report.Passes, 10)
	for _, v := range report.Violations {
		b.t.Errorf("%s: %s (%s)\n  %s", screen, v.ID, v.Help, strings.Join(v.Nodes, "\n  "))
	}
}

// picture writes what is seen to the folder DAYBREAK_SHOTS names, if it does.
func (b *tab) picture(name string) {
	b.t.Helper()
	folder := os.Getenv("DAYBREAK_SHOTS")
	if folder == "" {
		return
	}
	require.NoError(b.t, os.MkdirAll(folder, 0o755))
	defer b.whole()()
	shot, err := chromedp.Run(b.ctx, chromedp.FullScreenshot(100))
	require.NoError(b.t, err)
	require.NoError(b.t, os.WriteFile(filepath.Join(folder, name+".png"), shot, 0o644))
}

// whole makes the window as high as the page, so that nothing pinned lies over
// what is looked at, and gives what undoes it.
func (b *tab) whole() (undo func()) {
	b.t.Helper()
	short, tall := b.look, b.look
	tall.height = int64(ask[int](b, `Math.max(innerHeight, document.documentElement.scrollHeight)`))
	b.see(tall)
	return func() { b.see(short) }
}

// quiet asserts that the page asked nothing of anybody else, put no secret in
// an address and complained of nothing.
func (b *tab) quiet() {
	b.t.Helper()
	secret := ask[string](b, `JSON.parse(sessionStorage.getItem('daybreak:demo') ?? '{}').secret ?? 'none'`)
	b.mu.Lock()
	defer b.mu.Unlock()
	require.NotEmpty(b.t, b.requests)
	for _, address := range b.requests {
		require.NotContains(b.t, address, secret)
		require.True(b.t, strings.HasPrefix(address, b.origin+"/") || strings.HasPrefix(address, "data:"), "asked elsewhere: %s", address)
	}
	require.Empty(b.t, b.trouble)
}
