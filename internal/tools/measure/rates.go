package main

import (
	"context"
	"fmt"
	"slices"
	"sync"
	"sync/atomic"
	"time"
)

const (
	inFlight = 64
	rounds   = 5
	round    = 500 * time.Millisecond
)

// call does one piece of work for worker w.
type call func(ctx context.Context, w int) error

// interleave gives the median rate of each piece of work, in calls a second,
// its rounds taken in turn with the others'.
func interleave(ctx context.Context, work map[string]call) (map[string]float64, error) {
	names := make([]string, 0, len(work))
	for name := range work {
		names = append(names, name)
	}
	slices.Sort(names)
	all := map[string][]float64{}
	for n := range rounds + 1 {
		for _, name := range names {
			rate, err := rateOf(ctx, work[name])
			if err != nil {
				return nil, fmt.Errorf("%s: %w", name, err)
			}
			if n > 0 { // the first round warms up
				all[name] = append(all[name], rate)
			}
		}
	}
	medians := map[string]float64{}
	for name, rates := range all {
		medians[name] = median(rates)
	}
	return medians, nil
}

func rateOf(ctx context.Context, do call) (float64, error) {
	ctx, cancel := context.WithTimeout(ctx, 30*time.Second)
	defer cancel()
	var count atomic.Int64
	var failed atomic.Value
	var wg sync.WaitGroup
	start := time.Now()
	for w := range inFlight {
		wg.Go(func() {
			for time.Since(start) < round {
				if err := do(ctx, w); err != nil {
					failed.Store(err)
					return
				}
				count.Add(1)
			}
		})
	}
	wg.Wait()
	if err, ok := failed.Load().(error); ok {
		return 0, err
	}
	return float64(count.Load()) / time.Since(start).Seconds(), nil
}
