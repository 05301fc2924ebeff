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
	"os"
	"os/exec"
	"path/filepath"
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
		{"fuzz", "every fuzz target for a moment", fuzz},
		{"measure", "ratios of this machine", goRun("./internal/tools/measure")},
	}
}

func main() {
	only := flag.String("only", "", "run one step by name")
	list := flag.Bool("list", false, "print the steps and stop")
	flag.Parse()
	if err := run(*only, *list); err != nil {
		fmt.Fprintln(os.Stderr, "verify:", err)
		os.Exit(1)
	}
}

func run(only string, list bool) error {
	known := false
	for _, s := range steps() {
		if list {
			fmt.Printf("%-10s%s\n", s.name, s.what)
			continue
		}
		if only != "" && only != s.name {
			continue
		}
		known = true
		fmt.Printf("── %s: %s\n", s.name, s.what)
		start := time.Now()
		if err := s.run(); err != nil {
			return fmt.Errorf("step %s: %w", s.name, err)
		}
		fmt.Printf("── %s held, %.0f s\n", s.name, time.Since(start).Seconds())
	}
	if only != "" && !known && !list {
		return fmt.Errorf("no step is named %q; -list prints them", only)
	}
	return nil
}

func goRun(args ...string) func() error {
	return func() error { return do("", "go", append([]string{"run"}, args...)...) }
}

func do(dir, name string, args ...string) error {
	cmd := exec.Command(name, args...)
	cmd.Dir = dir
	cmd.Stdout, cmd.Stderr = os.Stdout, os.Stderr
	if err := cmd.Run(); err != nil {
		return fmt.Errorf("%s %s: %w", name, strings.Join(args, " "), err)
	}
	return nil
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
