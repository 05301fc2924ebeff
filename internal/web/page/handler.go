package page

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"net/http"
	"path"
	"strings"

	"daybreak/internal/document/plot"
)

// Policy is the content policy of the page: its own scripts, styles, pictures
// and service, and nothing from elsewhere.
const Policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; " +
	"base-uri 'none'; form-action 'none'; frame-ancestors 'self'"

var types = map[string]string{
	".html": "text/html; charset=utf-8",
	".css":  "text/css; charset=utf-8",
	".js":   "text/javascript; charset=utf-8",
	".svg":  "image/svg+xml",
}

// asset is one file ready to be sent.
type asset struct {
	kind, tag    string
	plain, small []byte
}

// Handler serves the page at /, its files beside it, and the drawings at
// /drawings/{name}.svg, where a name is a receptacle configuration ("14-50"),
// a charge port ("ccs1") or a body ("suv"). It fails only when an embedded
// file cannot be read or drawn.
func Handler() (http.Handler, error) {
	assets := map[string]asset{}
	err := fs.WalkDir(Files, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		content, err := Files.ReadFile(name)
		if err != nil {
			return fmt.Errorf("page: %w", err)
		}
		a, err := prepare(path.Ext(name), ship(path.Ext(name), content))
		assets["/"+name] = a
		return err
	})
	if err != nil {
		return nil, err
	}
	album, err := plot.Load(plot.Embedded(), "en")
	if err != nil {
		return nil, err
	}
	for name, drawn := range drawings(album) {
		if assets["/drawings/"+name+".svg"], err = prepare(".svg", []byte(drawn)); err != nil {
			return nil, err
		}
	}
	assets["/"], assets["/favicon.ico"] = assets["/index.html"], assets["/icon.svg"]
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { serve(w, r, assets) }), nil
}

// drawings gives every drawing by its name; no two kinds share a name.
func drawings(album *plot.Album) map[string]string {
	all := map[string]string{}
	for _, kind := range []struct {
		names []string
		draw  func(string) (string, bool)
	}{{album.Faces(), album.Face}, {album.Inlets(), album.Inlet}, {album.Bodies(), album.Body}} {
		for _, name := range kind.names {
			if drawn, ok := kind.draw(name); ok {
				all[name] = drawn
			}
		}
	}
	return all
}

func prepare(extension string, content []byte) (asset, error) {
	var small bytes.Buffer
	w, err := gzip.NewWriterLevel(&small, gzip.BestCompression)
	if err != nil {
		return asset{}, fmt.Errorf("page: %w", err)
	}
	if _, err := w.Write(content); err != nil {
		return asset{}, fmt.Errorf("page: %w", err)
	}
	if err := w.Close(); err != nil {
		return asset{}, fmt.Errorf("page: %w", err)
	}
	sum := sha256.Sum256(content)
	return asset{types[extension], `"` + hex.EncodeToString(sum[:8]) + `"`, content, small.Bytes()}, nil
}

func serve(w http.ResponseWriter, r *http.Request, assets map[string]asset) {
	a, found := assets[r.URL.Path]
	if !found {
		http.NotFound(w, r)
		return
	}
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		w.Header().Set("Allow", "GET, HEAD")
		http.Error(w, "method not allowed", http.StatusMethodNotAllowed)
		return
	}
	h := w.Header()
	h.Set("Content-Security-Policy", Policy)
	h.Set("Content-Type", a.kind)
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cache-Control", "no-cache")
	h.Set("Vary", "Accept-Encoding")
	h.Set("ETag", a.tag)
	if r.Header.Get("If-None-Match") == a.tag {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	body := a.plain
	if strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
		h.Set("Content-Encoding", "gzip")
		body = a.small
	}
	_, _ = w.Write(body) // whoever asked has gone away; there is nobody to tell
}
