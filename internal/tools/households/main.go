// Command households makes random households, seeded, composes the quote of
// each and lets the inspector check it against the rules. It stops by itself,
// prints what it found with the household to replay, and exits 1 on any
// violation.
//
//	go run ./internal/tools/households -n 10000 -seed 1
//	go run ./internal/tools/households -n 1000000 -workers 2
//	go run ./internal/tools/households -replay FILE
//
// A replay file is one household as this command prints it; seed and number say
// how what nobody told is filled. A bar on a terminal shows how far it is.
package main

import (
	"flag"
	"fmt"
	"os"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	"daybreak/internal/quote/inspector"
	"daybreak/internal/shop"
	"daybreak/internal/tools/households/draw"

	"github.com/schollz/progressbar/v3"
	"golang.org/x/term"
)

// most is the most households of one run; at some hundred a second it is days.
const most = 100_000_000

func main() {
	n := flag.Int("n", 10_000, "households to inspect")
	seed := flag.Uint64("seed", 1, "seed; the same seed gives the same households")
	workers := flag.Int("workers", 2, "how many are inspected at once")
	replay := flag.String("replay", "", "inspect the household of a file instead")
	rule := flag.String("rule", "", "look at this rule of the inspector alone")
	flag.Parse()
	broken, err := run(*n, *seed, *workers, *replay, *rule)
	if err != nil {
		fmt.Fprintln(os.Stderr, "households:", err)
		os.Exit(2)
	}
	if broken > 0 {
		fmt.Fprintf(os.Stderr, "households: %d violations\n", broken)
		os.Exit(1)
	}
}

func run(n int, seed uint64, workers int, replay, rule string) (int, error) {
	if n < 1 || n > most {
		return 0, fmt.Errorf("-n: %d is not accepted; give 1 to %d", n, most)
	}
	if workers < 1 || workers > 256 {
		return 0, fmt.Errorf("-workers: %d is not accepted; give 1 to 256", workers)
	}
	books, err := draw.Books()
	if err != nil {
		return 0, err
	}
	if rule != "" && !slices.ContainsFunc(inspector.Rules(), func(r inspector.Rule) bool { return r.Name == rule }) {
		return 0, fmt.Errorf("-rule: %q is no rule of the inspector", rule)
	}
	t := newTally(rule)
	if replay != "" {
		out, err := again(books, replay)
		if err != nil {
			return 0, err
		}
		t.add(&out)
	} else {
		many(books, n, seed, workers, t)
	}
	t.print(os.Stdout)
	return t.violations, nil
}

// many inspects households 0 to n−1 of a seed.
func many(books *shop.Books, n int, seed uint64, workers int, t *tally) {
	bar := progressbar.NewOptions(n,
		progressbar.OptionSetWriter(os.Stderr), progressbar.OptionSetVisibility(term.IsTerminal(int(os.Stderr.Fd()))),
		progressbar.OptionSetDescription("households"), progressbar.OptionShowCount(), progressbar.OptionShowIts(),
		progressbar.OptionSetItsString("households"), progressbar.OptionThrottle(200*time.Millisecond), progressbar.OptionClearOnFinish())
	var next atomic.Int64
	var all sync.WaitGroup
	for range workers {
		all.Go(func() {
			for i := next.Add(1) - 1; i < int64(n); i = next.Add(1) - 1 {
				out := draw.Run(books, seed, uint64(i))
				t.add(&out)
				_ = bar.Add(1)
			}
		})
	}
	all.Wait()
	_ = bar.Finish()
}
