// Command measure prints the speed of this tree on this machine, as ratios
// taken in one run: absolute figures differ from machine to machine, ratios
// much less. Rates are medians of interleaved rounds, with the service in a
// process of its own on loopback.
//
//	go run ./internal/tools/measure
//
// A row is printed or gated; the command exits non-zero when a gated row falls
// short. Gated are the years of charging.
package main

import (
	"context"
	"fmt"
	"os"
	"os/signal"
	"text/tabwriter"
)

// row is one line of the table.
type row struct {
	what    string
	against string
	value   float64
	unit    string  // "ratio", "µs", "allocs", "bytes"
	gate    float64 // with gated: least ratio, or most of anything else
	gated   bool
}

func (r row) held() bool {
	switch {
	case !r.gated:
		return true
	case r.unit == "ratio":
		return r.value >= r.gate
	}
	return r.value <= r.gate
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	short, err := run(ctx)
	if err != nil {
		fmt.Fprintln(os.Stderr, "measure:", err)
		os.Exit(1)
	}
	if short > 0 {
		fmt.Fprintf(os.Stderr, "measure: %d gated rows fall short\n", short)
		os.Exit(1)
	}
}

// run measures and prints every row, and counts the gated ones that fall short.
func run(ctx context.Context) (int, error) {
	rows, err := engines()
	if err != nil {
		return 0, err
	}
	charged, err := years()
	if err != nil {
		return 0, err
	}
	rows = append(rows, charged...)
	served, err := rates(ctx)
	if err != nil {
		return 0, err
	}
	w := tabwriter.NewWriter(os.Stdout, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "what\tagainst\tmeasured\tmark")
	short := 0
	for _, r := range append(rows, served...) {
		mark := "printed"
		if r.gated {
			mark = fmt.Sprintf("gated %g", r.gate)
		}
		if !r.held() {
			mark += ", FALLS SHORT"
			short++
		}
		fmt.Fprintf(w, "%s\t%s\t%.3g %s\t%s\n", r.what, r.against, r.value, r.unit, mark)
	}
	return short, w.Flush()
}
