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
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"text/tabwriter"
)

const (
	ratio     = "ratio"
	perSecond = "calls/s"
)

// row is one line of the table.
type row struct {
	what    string
	against string
	value   float64
	unit    string // ratio and perSecond are the better the larger, all else the smaller
	gate    float64
	gated   bool
}

// held reports whether a row is as good as its gate.
func (r row) held() bool {
	switch {
	case !r.gated:
		return true
	case r.unit == ratio || r.unit == perSecond:
		return r.value >= r.gate
	}
	return r.value <= r.gate
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	rows, err := measured(ctx)
	if err != nil {
		fmt.Fprintln(os.Stderr, "measure:", err)
		os.Exit(1)
	}
	os.Exit(report(rows, os.Stdout, os.Stderr))
}

// measured takes every row.
func measured(ctx context.Context) ([]row, error) {
	dir, err := os.MkdirTemp("", "daybreak-measure-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	bin, err := build(ctx, dir)
	if err != nil {
		return nil, err
	}
	rows, err := engines()
	if err != nil {
		return nil, err
	}
	for _, take := range []func() ([]row, error){
		years,
		func() ([]row, error) { return startRows(ctx, bin, filepath.Join(dir, "starts")) },
		func() ([]row, error) { return onFile(ctx, bin, filepath.Join(dir, "file")) },
		func() ([]row, error) { return redisRates(ctx, bin, filepath.Join(dir, "redis")) },
	} {
		more, err := take()
		if err != nil {
			return nil, err
		}
		rows = append(rows, more...)
	}
	return rows, nil
}

// onFile measures one service on the embedded store.
func onFile(ctx context.Context, bin, data string) ([]row, error) {
	p, err := serve(bin, data)
	if err != nil {
		return nil, err
	}
	defer p.stop()
	quotes, err := quoteRates(ctx, p)
	if err != nil {
		return nil, err
	}
	answers, err := embeddedRates(ctx, p)
	return append(quotes, answers...), err
}

// report prints the table and gives the exit code: 1 when a gated row falls
// short.
func report(rows []row, out, errs io.Writer) int {
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "what\tagainst\tmeasured\tmark")
	short := 0
	for _, r := range rows {
		mark := "printed"
		if r.gated {
			mark = fmt.Sprintf("gated %g", r.gate)
		}
		if !r.held() {
			mark += ", FALLS SHORT"
			short++
		}
		fmt.Fprintf(w, "%s\t%s\t%s %s\t%s\n", r.what, r.against, figure(r.value), r.unit, mark)
	}
	if err := w.Flush(); err != nil {
		fmt.Fprintln(errs, "measure:", err)
		return 1
	}
	if short > 0 {
		fmt.Fprintf(errs, "measure: %d gated rows fall short\n", short)
		return 1
	}
	return 0
}

// figure prints three digits that count, and whole numbers whole.
func figure(x float64) string {
	if x >= 100 {
		return fmt.Sprintf("%.0f", x)
	}
	return fmt.Sprintf("%.3g", x)
}
