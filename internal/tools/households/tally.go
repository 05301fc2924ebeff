package main

import (
	"fmt"
	"io"
	"maps"
	"os"
	"slices"
	"sync"
	"time"

	"daybreak/internal/panel"
	"daybreak/internal/quote"
	"daybreak/internal/quote/inspector"
	"daybreak/internal/tools/households/draw"
)

// mostShown is how many households with violations are printed whole; the
// others are counted.
const mostShown = 50

// tally counts what came of the households.
type tally struct {
	mu         sync.Mutex
	began      time.Time
	rule       string // the one looked at; "" for all
	households int
	options    int
	violations int
	shown      int
	by         map[string]map[string]int
}

// The heads of the counts, in the order they are printed.
const (
	standings = "standing"
	verdicts  = "verdict of the best fit"
	refusals  = "refused"
	rules     = "rules broken"
)

func newTally(rule string) *tally {
	return &tally{rule: rule, began: time.Now(), by: map[string]map[string]int{standings: {}, verdicts: {}, refusals: {}, rules: {}}}
}

// add counts one household and prints what was found on its quote.
func (t *tally) add(out *draw.Outcome) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.households++
	if out.Refused != nil {
		t.by[refusals][out.Refused.Error()]++
	} else {
		t.by[standings][out.Quote.Standing.Word()]++
		t.by[verdicts][verdictOf(&out.Quote)]++
		t.options += len(out.Quote.Options) + len(out.Quote.Others)
	}
	if t.rule != "" {
		out.Found = slices.DeleteFunc(out.Found, func(v inspector.Violation) bool { return v.Rule != t.rule })
	}
	if len(out.Found) == 0 {
		return
	}
	t.violations += len(out.Found)
	for _, v := range out.Found {
		t.by[rules][v.Rule]++
	}
	if t.shown++; t.shown > mostShown {
		return
	}
	for _, v := range out.Found {
		fmt.Printf("%s: household %d of seed %d, %s: saw %s; allowed: %s (%s)\n", v.Rule, out.Number, out.Seed, or(v.Option, "the quote"), v.Saw, v.Allowed, v.Section)
	}
	if text, err := record(out); err != nil {
		fmt.Fprintln(os.Stderr, "households: replay:", err)
	} else {
		fmt.Printf("  replay: %s\n", text)
	}
}

// verdictOf is the panel verdict of the option a quote would be booked on.
func verdictOf(q *quote.Quote) string {
	for i := range q.Options {
		o := &q.Options[i]
		switch {
		case o.Role&quote.BestFit == 0:
			continue
		case o.Panel == nil:
			return "no circuit of its own"
		case o.Managed && o.Panel.Verdict == panel.Fits:
			return "fits managed"
		}
		return o.Panel.Verdict.String()
	}
	return "nothing to offer"
}

func or(s, otherwise string) string {
	if s == "" {
		return otherwise
	}
	return s
}

func (t *tally) print(w io.Writer) {
	took := time.Since(t.began)
	fmt.Fprintf(w, "%d households, %d options, %d violations in %s, %.0f households a second\n",
		t.households, t.options, t.violations, took.Round(time.Millisecond), float64(t.households)/took.Seconds())
	for _, head := range []string{standings, verdicts, refusals, rules} {
		for _, name := range slices.Sorted(maps.Keys(t.by[head])) {
			fmt.Fprintf(w, "  %-24s %7d  %s\n", head, t.by[head][name], name)
		}
	}
}
