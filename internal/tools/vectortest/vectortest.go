// Package vectortest runs published check cases, each as a subtest named by
// its id.
//
// A file holds cases of several kinds. A test gives one function per kind,
// which feeds the inputs to the exported function the service itself uses,
// and does no arithmetic of its own. Cases that a room does not serve yet are
// pending by rule, never by id; a pending case is run all the same, and one
// that passes fails the test until its rule is narrowed. An unknown kind or a
// file without cases is a failure.
//
// Cases are read from the directory named by DAYBREAK_VECTORS when it is set,
// else from testdata/vectors, so that others can run further cases of the
// same form.
package vectortest

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"
)

// Case is one check case as it stands in the file. Tolerance is absolute on
// every number; strings, booleans, lists and null must match exactly.
type Case struct {
	ID        string          `json:"id"`
	Kind      string          `json:"kind"`
	Inputs    json.RawMessage `json:"inputs"`
	Expected  map[string]any  `json:"expected"`
	Tolerance float64         `json:"tolerance"`
	Source    string          `json:"source"`
	Status    string          `json:"status"`
}

// Run feeds a case to the engine and returns what it says, under the names of
// the case's expectation.
type Run func(c Case) (got map[string]any, err error)

// Pending is a rule for cases not served yet. It must look only at kind and
// inputs, never at the id.
type Pending struct {
	Reason  string
	Matches func(c Case) bool
}

// Path returns the path of a vector file.
func Path(name string) string {
	if dir := os.Getenv("DAYBREAK_VECTORS"); dir != "" {
		return filepath.Join(dir, name)
	}
	_, here, _, _ := runtime.Caller(0)
	return filepath.Join(filepath.Dir(here), "..", "..", "..", "testdata", "vectors", name)
}

// Read decodes a vector file whole, for files with sections of their own.
func Read(t *testing.T, name string, into any) {
	t.Helper()
	raw, err := os.ReadFile(Path(name))
	require.NoError(t, err, "vectors are read from testdata/vectors or DAYBREAK_VECTORS")
	require.NoError(t, json.Unmarshal(raw, into), name)
}

// Cases runs every case of a file's "cases" list.
func Cases(t *testing.T, name string, kinds map[string]Run, pending ...Pending) {
	t.Helper()
	var doc struct {
		Cases []Case `json:"cases"`
	}
	Read(t, name, &doc)
	require.NotEmpty(t, doc.Cases, "%s holds no case", name)
	served, waiting := 0, 0
	for _, c := range doc.Cases {
		run, known := kinds[c.Kind]
		if !known {
			t.Errorf("%s: %s is of the unknown kind %q", name, c.ID, c.Kind)
			continue
		}
		t.Run(c.ID, func(t *testing.T) {
			reason := pendingReason(c, pending)
			if reason == "" {
				served++
			} else {
				waiting++
			}
			Judge(t, reason, func() error {
				got, err := run(c)
				if err != nil {
					return err
				}
				return Compare(c.Expected, got, c.Tolerance)
			})
		})
	}
	t.Logf("%s: %d cases asserted, %d pending by rule", name, served, waiting)
}

func pendingReason(c Case, rules []Pending) string {
	for _, p := range rules {
		if p.Matches(c) {
			return p.Reason
		}
	}
	return ""
}

// Judge runs one check. With no reason it must pass; with a reason to be
// pending it must not pass yet.
func Judge(t *testing.T, pendingReason string, check func() error) {
	t.Helper()
	err := check()
	switch {
	case pendingReason == "" && err != nil:
		t.Error(err)
	case pendingReason != "" && err == nil:
		t.Errorf("passes although pending (%s): narrow the rule", pendingReason)
	case pendingReason != "":
		t.Logf("pending: %s (%v)", pendingReason, err)
	}
}

// Compare says where what was got differs from what was expected. Every
// expected key must be there; further keys of got are ignored.
func Compare(want, got map[string]any, tolerance float64) error {
	for key, w := range want {
		g, there := got[key]
		if !there {
			return fmt.Errorf("%s: expected %v, nothing was answered", key, w)
		}
		if err := same(key, w, plain(g), tolerance); err != nil {
			return err
		}
	}
	return nil
}

func same(key string, want, got any, tolerance float64) error {
	switch w := want.(type) {
	case float64:
		g, ok := got.(float64)
		if !ok || math.IsNaN(g) || math.Abs(w-g) > tolerance+1e-9 {
			return fmt.Errorf("%s: expected %v (± %v), got %v", key, w, tolerance, got)
		}
		return nil
	case map[string]any:
		g, ok := got.(map[string]any)
		if !ok {
			return fmt.Errorf("%s: expected %v, got %v", key, want, got)
		}
		for k, v := range w {
			if err := same(key+"."+k, v, g[k], tolerance); err != nil {
				return err
			}
		}
		return nil
	case []any:
		g, ok := got.([]any)
		if !ok || len(g) != len(w) {
			return fmt.Errorf("%s: expected %v, got %v", key, want, got)
		}
		for i := range w {
			if err := same(fmt.Sprintf("%s[%d]", key, i), w[i], g[i], tolerance); err != nil {
				return err
			}
		}
		return nil
	}
	if !reflect.DeepEqual(want, got) {
		return fmt.Errorf("%s: expected %v, got %v", key, want, got)
	}
	return nil
}

// plain brings an answer into the types JSON decoding gives.
func plain(v any) any {
	raw, err := json.Marshal(v)
	if err != nil {
		return fmt.Sprintf("unprintable: %v", err)
	}
	var out any
	if err := json.Unmarshal(raw, &out); err != nil {
		return fmt.Sprintf("unprintable: %v", err)
	}
	return out
}
