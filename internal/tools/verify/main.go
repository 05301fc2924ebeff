// Command verify runs the project's whole check, as a newcomer or a build
// server would: it installs what the tests need where it may, names what is
// missing where it may not, and then runs every step in order. It stops at the
// first step that fails and says which.
//
//	go run ./internal/tools/verify            everything
//	go run ./internal/tools/verify -only test one step by name
//	go run ./internal/tools/verify -list      the steps
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// step is one part of the check; its name is what -only takes.
type step struct {
	name string
	what string
	run  func() error
}

func steps() []step {
	return []step{
		{"prepare", "what the tests need is installed", prepare},
		{"contract", "generated contract is current; lint and compatibility are clean", goRun("./internal/tools/contract", "-check")},
		{"format", "gofmt has nothing to say", format},
		{"vet", "go vet and staticcheck have nothing to say", vet},
		{"page", "the page's types hold", page},
		{"data", "all data files pass the shop's own check", goRun("./cmd/daybreak", "check")},
		{"test", "all tests, race detector on, real Redis, real browser", tests},
		{"mutants", "a fifth of the planted faults, chosen by date, is found", goRun("./internal/tools/mutants", "-pick", "today")},
		{"fuzz", "every fuzz target for a moment", fuzz},
		{"measure", "ratios of this machine", goRun("./internal/tools/measure")},
	}
}

func main() {
	only := flag.String("only", "", "run one step by name")
	list := flag.Bool("list", false, "print the steps and stop")
	flag.Parse()
	if err := run(steps(), *only, *list, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "verify:", err)
		os.Exit(1)
	}
}

// run takes the steps in order, or the one that is named, and stops at the
// first that fails.
func run(all []step, only string, list bool, out io.Writer) error {
	if list {
		for _, s := range all {
			fmt.Fprintf(out, "%-10s%s\n", s.name, s.what)
		}
		return nil
	}
	if only != "" {
		i := slices.IndexFunc(all, func(s step) bool { return s.name == only })
		if i < 0 {
			return fmt.Errorf("no step is named %q; -list prints them", only)
		}
		all = all[i : i+1]
	}
	begun := time.Now()
	for _, s := range all {
		fmt.Fprintf(out, "── %s: %s\n", s.name, s.what)
		start := time.Now()
		if err := s.run(); err != nil {
			return fmt.Errorf("step %s: %w", s.name, err)
		}
		fmt.Fprintf(out, "── %s held, %.0f s\n", s.name, time.Since(start).Seconds())
	}
	if only == "" {
		fmt.Fprintf(out, "── everything held, %.0f s\n", time.Since(begun).Seconds())
	}
	return nil
}

func goRun(args ...string) func() error {
	return func() error { return do("", "go", append([]string{"run"}, args...)...) }
}

// do runs a program in a folder, its output beside ours. Nothing of ours needs
// C, and steps that agree on that share what is compiled; the race detector
// alone asks for it.
func do(dir, name string, args ...string) error {
	cmd := exec.Command(name, args...)
	cmd.Dir = dir
	cmd.Stdout, cmd.Stderr = os.Stdout, os.Stderr
	cmd.Env = append(os.Environ(), "CGO_ENABLED="+cgo(args))
	if err := cmd.Run(); err != nil {
		return fmt.Errorf("%s %s: %w", name, strings.Join(args, " "), err)
	}
	return nil
}

func cgo(args []string) string {
	if slices.Contains(args, "-race") {
		return "1"
	}
	return "0"
}

func format() error {
	out, err := exec.Command("gofmt", "-l", "cmd", "internal").Output()
	if err != nil {
		return fmt.Errorf("gofmt: %w", err)
	}
	if len(out) > 0 {
		return fmt.Errorf("not formatted:\n%s", out)
	}
	return nil
}

func vet() error {
	if err := do("", "go", "vet", "./..."); err != nil {
		return err
	}
	return do("", "go", "tool", "-modfile=internal/tools/check.mod", "staticcheck", "./...")
}

func page() error {
	return do(filepath.Join("internal", "web"), "npm", "run", "--silent", "types")
}

func tests() error {
	return do("", "go", "test", "-race", "-timeout", "20m", "./...")
}
