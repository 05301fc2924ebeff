package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	daybreakv1 "daybreak/api/daybreak/v1"
)

// starts is how often the service is started; the median counts.
const starts = 3

// startRows tells how soon a fresh process gives its first quote, what it holds
// in memory before that, and how large its static binary is.
func startRows(ctx context.Context, bin, dir string) ([]row, error) {
	info, err := os.Stat(bin)
	if err != nil {
		return nil, err
	}
	var first, idle []float64
	for n := range starts {
		millis, mebi, err := start(ctx, bin, filepath.Join(dir, strconv.Itoa(n)))
		if err != nil {
			return nil, err
		}
		first, idle = append(first, millis), append(idle, mebi)
	}
	return []row{
		{what: "from start to the first quote", against: "–", value: median(first), unit: "ms"},
		{what: "memory when idle, before the first quote", against: "–", value: median(idle), unit: "MiB"},
		{what: "static binary, stripped", against: "–", value: float64(info.Size()) / (1 << 20), unit: "MiB"},
	}, nil
}

func start(ctx context.Context, bin, data string) (millis, mebi float64, err error) {
	m, err := householdMessage("V01")
	if err != nil {
		return 0, 0, err
	}
	from := time.Now()
	p, err := serve(bin, data)
	if err != nil {
		return 0, 0, err
	}
	defer p.stop()
	ready := time.Since(from)
	mebi, err = resident(p.cmd.Process.Pid)
	if err != nil {
		return 0, 0, err
	}
	conn, err := dial(p.addr)
	if err != nil {
		return 0, 0, err
	}
	defer conn.Close()
	from = time.Now()
	_, err = daybreakv1.NewQuoteServiceClient(conn).ComposeQuote(ctx, &daybreakv1.ComposeQuoteRequest{Facts: m, AsOfDate: asOf})
	return float64((ready + time.Since(from)).Milliseconds()), mebi, err
}

// resident is a process's memory in MiB, as Linux tells it; 0 where it does not.
func resident(pid int) (float64, error) {
	raw, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if os.IsNotExist(err) {
		return 0, nil
	}
	for line := range strings.Lines(string(raw)) {
		if kib, ok := strings.CutPrefix(line, "VmRSS:"); ok {
			n, err := strconv.ParseFloat(strings.Fields(kib)[0], 64)
			return n / 1024, err
		}
	}
	return 0, err
}

func median(xs []float64) float64 {
	slices.Sort(xs)
	return xs[len(xs)/2]
}
