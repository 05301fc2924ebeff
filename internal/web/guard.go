package web

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime"
	"net"
	"net/http"
	"net/netip"
	"strings"

	"daybreak/internal/fault"
	"daybreak/internal/service"
)

// outer stands round everything: headers that no reply lacks, and which hosts
// and sites may ask.
func (f *front) outer(next http.Handler) http.Handler {
	sites := http.NewCrossOriginProtection()
	sites.SetDenyHandler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		f.refuse(w, r, &fault.Fault{
			Kind: fault.KindDenied, Reason: "OTHER_SITE", Field: "Origin", Accepted: "requests from a page served here, or from no page",
		})
	}))
	inner := sites.Handler(next)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Permissions-Policy", "camera=(), geolocation=(), microphone=()")
		h.Set("Content-Security-Policy", "default-src 'none'; frame-ancestors 'none'") // the page sets its own
		if f.LocalHostsOnly && !localHost(r.Host) {
			f.refuse(w, r, &fault.Fault{
				Kind: fault.KindDenied, Reason: "OTHER_HOST", Field: "Host", Accepted: "localhost or a loopback address",
			})
			return
		}
		inner.ServeHTTP(w, r)
	})
}

// localHost reports whether a Host header names this machine's loopback.
func localHost(host string) bool {
	name, _, err := net.SplitHostPort(host)
	if err != nil {
		name = host
	}
	name = strings.TrimSuffix(strings.Trim(name, "[]"), ".")
	if strings.EqualFold(name, "localhost") {
		return true
	}
	ip, err := netip.ParseAddr(name)
	return err == nil && ip.Unmap().IsLoopback()
}

type bodyKey struct{}

// rest reads a request's body within its limit and judges its form, before
// anything decodes it. The bytes stay with the request, so that a refused
// field can be named by its path.
func (f *front) rest(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Cache-Control", "no-store")
		body, err := readBody(w, r)
		if err != nil {
			f.refuse(w, r, err)
			return
		}
		if len(body) > 0 {
			if err := wellFormed(r, body); err != nil {
				f.refuse(w, r, err)
				return
			}
		}
		ctx := context.WithValue(r.Context(), bodyKey{}, body)
		r = r.WithContext(context.WithValue(ctx, queryKey{}, r.URL.Query()))
		r.Body = io.NopCloser(bytes.NewReader(body))
		next.ServeHTTP(w, r)
	})
}

func readBody(w http.ResponseWriter, r *http.Request) ([]byte, error) {
	if r.ContentLength > service.MaxRequest {
		return nil, service.TooLarge()
	}
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, service.MaxRequest))
	if large, ok := errors.AsType[*http.MaxBytesError](err); ok && large != nil {
		return nil, service.TooLarge()
	}
	if err != nil {
		return nil, fault.Invalid("body", "a body that broke off", "a whole body")
	}
	return body, nil
}

// deepest is how far JSON may nest.
const deepest = 64

func wellFormed(r *http.Request, body []byte) error {
	kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	if err != nil || kind != "application/json" {
		return fault.Invalid("Content-Type", r.Header.Get("Content-Type"), "application/json")
	}
	if depth(body) > deepest {
		return fault.Invalid("body", "JSON that nests deeper", fmt.Sprintf("JSON that nests at most %d deep", deepest))
	}
	var whole json.RawMessage
	if err := json.Unmarshal(body, &whole); err != nil {
		if at, ok := errors.AsType[*json.SyntaxError](err); ok {
			line, column := position(body, at.Offset)
			return fault.Invalid("body", fmt.Sprintf("text that stops being JSON at line %d, column %d", line, column), "one JSON object")
		}
		return fault.Invalid("body", "text that is no JSON", "one JSON object")
	}
	return nil
}

// depth is the deepest nesting of brackets outside strings.
func depth(body []byte) int {
	now, most, quoted := 0, 0, false
	for i := 0; i < len(body); i++ {
		switch c := body[i]; {
		case quoted && c == '\\':
			i++
		case c == '"':
			quoted = !quoted
		case quoted:
		case c == '{' || c == '[':
			now++
			most = max(most, now)
		case c == '}' || c == ']':
			now--
		}
	}
	return most
}

func position(body []byte, offset int64) (line, column int) {
	before := body[:min(max(offset-1, 0), int64(len(body)))]
	return bytes.Count(before, []byte("\n")) + 1, len(before) - bytes.LastIndexByte(before, '\n')
}
