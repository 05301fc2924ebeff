package embedded_test

import (
	"bufio"
	"crypto/sha256"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"daybreak/internal/fault"
	"daybreak/internal/store"
	"daybreak/internal/store/embedded"

	"github.com/stretchr/testify/require"
)

const childDir = "DAYBREAK_STORE_CHILD_DIR"

// child is this binary run again by the tests below: it opens the store in the
// directory named, says so, and lets eight writers append, printing each
// answer only once it is acknowledged.
func child() {
	dir := os.Getenv(childDir)
	if dir == "" {
		return
	}
	s, err := embedded.Open(embedded.Config{Dir: dir})
	if err != nil {
		fmt.Println("refused:", err)
		os.Exit(1)
	}
	fmt.Println("open")
	var out sync.Mutex
	for w := range 8 {
		go func() {
			n := session(fmt.Sprintf("s%d-%d", w, os.Getpid()))
			made, err := s.CreateSession(bg, n)
			head := made.Head
			for i := 0; err == nil; i++ {
				var got store.Appended
				got, err = s.Append(bg, answer(n.Key, head, i))
				head = got.Revision
				if err == nil {
					out.Lock()
					fmt.Println("kept", n.Key.ID, got.Revision)
					out.Unlock()
				}
			}
			fmt.Println("failed:", err)
			os.Exit(1)
		}()
	}
	select {}
}

func session(id string) store.NewSession {
	return store.NewSession{Key: store.Key{Shop: "alder", ID: id}, Request: store.Request{Method: "CreateSession", ID: id}}
}

func answer(key store.Key, base store.Revision, n int) store.Append {
	record := []byte(fmt.Sprintf("answer %d", n))
	return store.Append{Key: key, Base: base, Record: record,
		Request: store.Request{Method: "Answer", ID: fmt.Sprint(n), Body: sha256.Sum256(record)}}
}

// startChild runs the child and returns its lines.
func startChild(t *testing.T, dir string) (*exec.Cmd, *bufio.Scanner) {
	t.Helper()
	exe, err := os.Executable()
	require.NoError(t, err)
	c := exec.Command(exe)
	c.Env = append(os.Environ(), childDir+"="+dir)
	pipe, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	t.Cleanup(func() {
		_ = c.Process.Kill() // gone already, as a rule
		_ = c.Wait()
	})
	return c, bufio.NewScanner(pipe)
}

// A process killed at any moment loses no answer it has acknowledged. This
// says nothing of power loss: the page cache survives the process.
func TestKilledProcessLosesNothingAcknowledged(t *testing.T) {
	dir := t.TempDir()
	heads := map[string]string{}
	for round := range 4 {
		c, lines := startChild(t, dir)
		for n := 0; lines.Scan(); {
			word := strings.Fields(lines.Text())
			require.Contains(t, []string{"open", "kept"}, word[0], lines.Text())
			if word[0] == "kept" {
				heads[word[1]] = word[2]
				n++
			}
			if n == 100+round*37 {
				require.NoError(t, c.Process.Kill())
			}
		}
		require.Error(t, c.Wait())
	}
	require.GreaterOrEqual(t, len(heads), 4)
	s, err := embedded.Open(embedded.Config{Dir: dir})
	require.NoError(t, err, "the lock dies with its holder")
	defer s.Close()
	for id, last := range heads {
		want, err := store.ParseRevision(last)
		require.NoError(t, err)
		got, err := s.Session(bg, store.Key{Shop: "alder", ID: id})
		require.NoError(t, err)
		require.GreaterOrEqual(t, len(got.Log), want.Number)
		require.Equal(t, want, got.Log[want.Number-1].Revision)
		base := store.First(session(id))
		for _, e := range got.Log {
			base = store.Append{Base: base, Record: e.Record}.Next()
			require.Equal(t, base, e.Revision, "the chain is whole")
		}
	}
}

func TestSecondProcessIsToldWhoHoldsTheFile(t *testing.T) {
	dir := t.TempDir()
	c, lines := startChild(t, dir)
	require.True(t, lines.Scan())
	require.Equal(t, "open", lines.Text())
	begun := time.Now()
	_, err := embedded.Open(embedded.Config{Dir: dir})
	require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindUnavailable, Reason: "STORE_HELD"})
	require.ErrorContains(t, err, fmt.Sprintf("process %d since", c.Process.Pid))
	require.ErrorContains(t, err, filepath.Join(dir, embedded.FileName))
	require.Less(t, time.Since(begun), 10*time.Second)
}
