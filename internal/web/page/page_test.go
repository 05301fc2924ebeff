package page_test

import (
	"io/fs"
	"net/http"
	"net/http/httptest"
	"path"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"daybreak/internal/web/page"
)

func open(t *testing.T) http.Handler {
	t.Helper()
	h, err := page.Handler()
	require.NoError(t, err)
	return h
}

func fetch(h http.Handler, method, target string, header ...string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, target, nil)
	for i := 0; i+1 < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

func served(t *testing.T) []string {
	t.Helper()
	var names []string
	require.NoError(t, fs.WalkDir(page.Files, ".", func(name string, entry fs.DirEntry, err error) error {
		if !entry.IsDir() {
			names = append(names, name)
		}
		return err
	}))
	return names
}

// A shopper's phone may be on a poor line: everything the page needs before
// the first question comes to less than 40 KB.
func TestThePageFitsFortyKilobytes(t *testing.T) {
	h, sum := open(t), 0
	for _, name := range served(t) {
		w := fetch(h, http.MethodGet, "/"+name, "Accept-Encoding", "gzip")
		require.Equal(t, http.StatusOK, w.Code, name)
		sum += w.Body.Len()
	}
	t.Logf("page, scripts and styles: %d bytes gzipped", sum)
	require.LessOrEqual(t, sum, 40*1024)
}

func TestEveryFileCarriesThePolicy(t *testing.T) {
	h := open(t)
	require.NotContains(t, page.Policy, "unsafe")
	for _, name := range append(served(t), "") {
		w := fetch(h, http.MethodGet, "/"+name)
		require.Equal(t, page.Policy, w.Header().Get("Content-Security-Policy"), name)
		require.Equal(t, "nosniff", w.Header().Get("X-Content-Type-Options"), name)
		require.NotEmpty(t, w.Header().Get("Content-Type"), name)
	}
}

func TestAFileKnownAlreadyIsNotSentAgain(t *testing.T) {
	h := open(t)
	tag := fetch(h, http.MethodGet, "/daybreak.js").Header().Get("ETag")
	require.Equal(t, http.StatusNotModified, fetch(h, http.MethodGet, "/daybreak.js", "If-None-Match", tag).Code)
}

func TestWhatIsNotThereIsRefused(t *testing.T) {
	h := open(t)
	for _, target := range []string{"/nothing.js", "/widget", "/embed.go", "/tsconfig.json", "/drawings/none.svg", "/../page/embed.go"} {
		require.Equal(t, http.StatusNotFound, fetch(h, http.MethodGet, target).Code, target)
	}
	require.Equal(t, http.StatusMethodNotAllowed, fetch(h, http.MethodPost, "/").Code)
}

// Strings and rules must outlive the comments: only whole comments go.
func TestCommentsAloneAreLeftOut(t *testing.T) {
	h := open(t)
	for _, name := range served(t) {
		written, err := page.Files.ReadFile(name)
		require.NoError(t, err)
		sent := fetch(h, http.MethodGet, "/"+name).Body.String()
		switch path.Ext(name) {
		case ".js":
			require.NotContains(t, sent, "@param", name)
			require.Equal(t, strings.Count(string(written), "\nexport "), strings.Count(sent, "\nexport "), name)
		case ".css":
			require.Equal(t, strings.Count(string(written), "{"), strings.Count(sent, "{"), name)
		default:
			require.Equal(t, string(written), sent, name)
		}
	}
}

// Nothing may be asked from elsewhere, and nothing styled or run inline.
func TestThePageNamesNoOtherHostAndHoldsNothingInline(t *testing.T) {
	address := regexp.MustCompile(`https?://[^"'\s]+`)
	inline := regexp.MustCompile(`(?i)\bstyle=|<style|\bon[a-z]+="|innerHTML|insertAdjacentHTML|eval\(`)
	for _, name := range served(t) {
		content, err := page.Files.ReadFile(name)
		require.NoError(t, err)
		for _, found := range address.FindAllString(string(content), -1) {
			require.Equal(t, "http://www.w3.org/2000/svg", found, name)
		}
		require.False(t, inline.Match(content), "%s: %s", name, inline.Find(content))
	}
}

// The questions name the drawings they want by these names.
func TestEveryDrawingTheQuestionsNameIsServed(t *testing.T) {
	h := open(t)
	for _, name := range strings.Fields(`5-15 5-20 TT-30 6-20 6-30 6-50 10-30 10-50 14-30 14-50
		j1772 ccs1 j3400 two_ports small mid big suv suv3 pickup van phev_car phev_suv`) {
		w := fetch(h, http.MethodGet, "/drawings/"+name+".svg")
		require.Equal(t, http.StatusOK, w.Code, name)
		require.Contains(t, w.Body.String(), "<svg", name)
		require.NotRegexp(t, `<script|<style|style=|href=`, w.Body.String(), name)
	}
}
