package web_test

import (
	"fmt"
	"net/http/httptest"

	"daybreak/internal/web"
)

// The front answers health by itself; everything under /v1 goes through the
// channel.
func Example() {
	h, err := web.New(web.Config{LocalHostsOnly: true})
	if err != nil {
		panic(err)
	}
	r := httptest.NewRequest("GET", "http://localhost/healthz/live", nil)
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	fmt.Print(w.Code, " ", w.Body)
	// Output: 200 live
}
