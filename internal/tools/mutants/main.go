// Command mutants proves that the inspector would notice: it plants one fault at
// a time in the designers' sources and asks whether the inspector's rule for
// that fault finds it over a few hundred random households.
//
//	go run ./internal/tools/mutants -all
//	go run ./internal/tools/mutants -pick today
//	go run ./internal/tools/mutants -rule drop-within-limit
//
// The faults are testdata/mutants/mutants.yaml: a file, its exact text, what it
// becomes, and the rule that must break. Nothing is written to the tree: each
// fault is laid over it by `go test -overlay`. A fault that is not found
// survives, is printed, and fails the command; so does a fault whose text is no
// longer in its file, and one that does not build. -pick takes a fifth of the
// list, another each day, so that five days in a row make it whole.
package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"os/signal"
	"time"
)

// list is where the faults stand, from the root of the repository.
const list = "testdata/mutants/mutants.yaml"

func main() {
	all := flag.Bool("all", false, "every fault")
	day := flag.String("pick", "", "a fifth of the faults, by a date such as 2026-11-25, or today")
	rule := flag.String("rule", "", "the faults of one rule")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	survived, err := run(ctx, *all, *day, *rule)
	if err != nil {
		fmt.Fprintln(os.Stderr, "mutants:", err)
		os.Exit(2)
	}
	if survived > 0 {
		fmt.Fprintf(os.Stderr, "mutants: %d survived\n", survived)
		os.Exit(1)
	}
}

func run(ctx context.Context, all bool, day, rule string) (int, error) {
	faults, err := load(list)
	if err != nil {
		return 0, err
	}
	chosen, err := choose(faults, all, day, rule, time.Now())
	if err != nil {
		return 0, err
	}
	began, survived := time.Now(), 0
	for i := range chosen {
		f := &chosen[i]
		at := time.Now()
		if err := f.try(ctx); err != nil {
			if ctx.Err() != nil {
				return survived, ctx.Err()
			}
			survived++
			fmt.Printf("SURVIVED  %-28s %s: %v\n", f.Rule, f.File, err)
			continue
		}
		fmt.Printf("found     %-28s %s, %s\n", f.Rule, f.File, time.Since(at).Round(100*time.Millisecond))
	}
	fmt.Printf("%d faults planted, %d found, %d survived, in %s\n", len(chosen), len(chosen)-survived, survived, time.Since(began).Round(time.Second))
	return survived, nil
}

// choose takes the faults asked for.
func choose(faults []mutant, all bool, day, rule string, now time.Time) ([]mutant, error) {
	var out []mutant
	switch {
	case all && day == "" && rule == "":
		return faults, nil
	case rule != "" && !all && day == "":
		for _, f := range faults {
			if f.Rule == rule {
				out = append(out, f)
			}
		}
	case day != "" && !all && rule == "":
		date := now
		if day != "today" {
			var err error
			if date, err = time.Parse(time.DateOnly, day); err != nil {
				return nil, fmt.Errorf("-pick: %q is not accepted; give today or a date such as 2026-11-25", day)
			}
		}
		turn := int(date.Unix() / (24 * 60 * 60) % fifths)
		for i, f := range faults {
			if i%fifths == turn {
				out = append(out, f)
			}
		}
	default:
		return nil, fmt.Errorf("give one of -all, -pick DATE and -rule NAME")
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("no fault is planted for %q", rule)
	}
	return out, nil
}

// fifths is how many days make the list whole.
const fifths = 5
