package embedded_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"daybreak/internal/fault"
	"daybreak/internal/store"
	"daybreak/internal/store/embedded"

	"github.com/stretchr/testify/require"
)

var bg = context.Background()

func Example() {
	dir, err := os.MkdirTemp("", "daybreak")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(dir)
	s, err := embedded.Open(embedded.Config{Dir: dir})
	if err != nil {
		fmt.Println(err)
		return
	}
	defer s.Close()
	made, err := s.CreateSession(bg, session("s1"))
	if err != nil {
		fmt.Println(err)
		return
	}
	got, err := s.Append(bg, answer(made.Key, made.Head, 1))
	fmt.Println(got.Revision.Number, err)
	_, err = s.Append(bg, answer(made.Key, made.Head, 2))
	fmt.Println(err)
	// Output:
	// 1 <nil>
	// revision: 0-01ba4719 is not accepted; give the revision in force
}

func TestUnwritableDirectorySaysWhatToDo(t *testing.T) {
	file := filepath.Join(t.TempDir(), "a-file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	for _, dir := range []string{filepath.Join(file, "below"), "/proc/daybreak"} {
		_, err := embedded.Open(embedded.Config{Dir: dir})
		require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindPrecondition, Reason: "DATA_DIR"})
		require.ErrorContains(t, err, dir)
		require.ErrorContains(t, err, "--data-dir")
	}
	_, err := embedded.Open(embedded.Config{})
	require.ErrorContains(t, err, "data_dir")
}

func TestForeignFileIsNamed(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, embedded.FileName)
	require.NoError(t, os.WriteFile(path, []byte("this is no store, but it is long enough to be read as one"), 0o600))
	_, err := embedded.Open(embedded.Config{Dir: dir})
	require.ErrorContains(t, err, path)
	left, err := filepath.Glob(filepath.Join(dir, "*.new-*"))
	require.NoError(t, err)
	require.Empty(t, left)
}

func TestOpeningLeavesNoHalfMadeFile(t *testing.T) {
	dir := t.TempDir()
	s, err := embedded.Open(embedded.Config{Dir: dir})
	require.NoError(t, err)
	names, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, names, 2, "the file and who holds it")
	require.NoError(t, s.Close())
	names, err = os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, names, 1)
}

func TestSweepGivesBackRoomPageByPage(t *testing.T) {
	var clock atomic.Int64
	clock.Store(time.Now().UnixMilli())
	s, err := embedded.Open(embedded.Config{Dir: t.TempDir(), Now: func() time.Time { return time.UnixMilli(clock.Load()) }})
	require.NoError(t, err)
	defer s.Close()
	var all sync.WaitGroup
	for w := range 8 {
		all.Go(func() {
			for i := range 150 {
				if made, err := s.CreateSession(bg, session(fmt.Sprintf("s-%d-%d", w, i))); err == nil {
					_, _ = s.Append(bg, answer(made.Key, made.Head, 1))
				}
			}
		})
	}
	all.Wait()
	clock.Add((13 * 24 * time.Hour).Milliseconds())
	kept, err := s.CreateSession(bg, session("s-0-0"))
	require.NoError(t, err)
	slid, err := s.Append(bg, answer(kept.Key, kept.Head, 2))
	require.NoError(t, err)
	clock.Add((2 * 24 * time.Hour).Milliseconds())
	heads, err := s.Watch(bg, kept.Key)
	require.NoError(t, err)
	require.Equal(t, slid.Revision, <-heads)
	n, err := s.Sweep(bg)
	require.NoError(t, err)
	require.Equal(t, 8*150-1, n)
	_, err = s.Session(bg, kept.Key)
	require.NoError(t, err, "a session that slid is noted anew")
	clock.Add((13 * 24 * time.Hour).Milliseconds())
	n, err = s.Sweep(bg)
	require.NoError(t, err)
	require.Equal(t, 1, n)
	_, open := <-heads
	require.False(t, open, "a watch ends when its session expires")
	n, err = s.Sweep(bg)
	require.NoError(t, err)
	require.Zero(t, n)
}

// A full store refuses writes with a reason, goes on reading, and writes again
// once there is room.
func TestFullStoreRefusesAndRecovers(t *testing.T) {
	dir := t.TempDir()
	s, err := embedded.Open(embedded.Config{Dir: dir, MaxBytes: 1 << 20})
	require.NoError(t, err)
	made, err := s.CreateSession(bg, session("full"))
	require.NoError(t, err)
	head, kept := made.Head, 0
	for i := range 1000 {
		a := answer(made.Key, head, i)
		a.Record = make([]byte, 32<<10)
		var got store.Appended
		if got, err = s.Append(bg, a); err != nil {
			break
		}
		head, kept = got.Revision, kept+1
	}
	require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindExhausted, Reason: "STORE_FULL"})
	read, err := s.Session(bg, made.Key)
	require.NoError(t, err)
	require.Len(t, read.Log, kept)
	require.NoError(t, s.Ready(bg))
	require.NoError(t, s.Close())
	s, err = embedded.Open(embedded.Config{Dir: dir})
	require.NoError(t, err)
	defer s.Close()
	_, err = s.Append(bg, answer(made.Key, head, 5000))
	require.NoError(t, err)
}

func TestContextEndsTheWait(t *testing.T) {
	s, err := embedded.Open(embedded.Config{Dir: t.TempDir()})
	require.NoError(t, err)
	defer s.Close()
	ctx, cancel := context.WithCancel(bg)
	cancel()
	_, err = s.Session(ctx, store.Key{Shop: "alder", ID: "x"})
	require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindUnavailable})
	require.ErrorIs(t, err, context.Canceled)
}

func BenchmarkAppend(b *testing.B) {
	for _, writers := range []int{1, 16, 64} {
		b.Run(fmt.Sprint(writers), func(b *testing.B) {
			s, err := embedded.Open(embedded.Config{Dir: b.TempDir()})
			require.NoError(b, err)
			defer s.Close()
			var all sync.WaitGroup
			each := b.N/writers + 1
			b.ResetTimer()
			for w := range writers {
				all.Go(func() {
					for i := 0; i < each; {
						made, err := s.CreateSession(bg, session(fmt.Sprintf("b%d-%d", w, i)))
						if err != nil {
							b.Error(err)
							return
						}
						head := made.Head
						for n := 0; n < 100 && i < each; n++ {
							got, err := s.Append(bg, answer(made.Key, head, n))
							if err != nil {
								b.Error(err)
								return
							}
							head, i = got.Revision, i+1
						}
					}
				})
			}
			all.Wait()
		})
	}
}
