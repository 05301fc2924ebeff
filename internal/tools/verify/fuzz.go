package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"sort"
	"strings"
)

var fuzzTarget = regexp.MustCompile(`(?m)^func (Fuzz\w+)\(`)

// fuzzTargets finds every fuzz target below the roots, by package folder.
func fuzzTargets(roots ...string) (map[string][]string, error) {
	targets := map[string][]string{}
	for _, root := range roots {
		err := filepath.WalkDir(root, func(path string, entry os.DirEntry, err error) error {
			switch {
			case err != nil:
				return err
			case entry.IsDir() && entry.Name() == "node_modules":
				return filepath.SkipDir
			case !strings.HasSuffix(path, "_test.go"):
				return nil
			}
			raw, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			for _, m := range fuzzTarget.FindAllSubmatch(raw, -1) {
				dir := filepath.Dir(path)
				targets[dir] = append(targets[dir], string(m[1]))
			}
			return nil
		})
		if err != nil {
			return nil, err
		}
	}
	return targets, nil
}

// fuzz runs each fuzz target of the tree for a second, so that a parser that
// panics at once is caught here. A package is linked once for all its targets.
func fuzz() error {
	targets, err := fuzzTargets("internal", "cmd")
	if err != nil {
		return err
	}
	if len(targets) == 0 {
		return errors.New("no fuzz target found below internal and cmd")
	}
	temp, err := os.MkdirTemp("", "daybreak-fuzz-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(temp)
	dirs := make([]string, 0, len(targets))
	for dir := range targets {
		dirs = append(dirs, dir)
	}
	sort.Strings(dirs)
	for _, dir := range dirs {
		if err := fuzzPackage(dir, targets[dir], temp); err != nil {
			return err
		}
	}
	return nil
}

func fuzzPackage(dir string, names []string, temp string) error {
	bin := filepath.Join(temp, strings.ReplaceAll(filepath.ToSlash(dir), "/", "_")+".test")
	// Any pattern makes the compiler add what fuzzing watches.
	if err := do("", "go", "test", "-c", "-fuzz", ".", "-o", bin, "./"+filepath.ToSlash(dir)); err != nil {
		return err
	}
	slices.Sort(names)
	for _, name := range names {
		err := do(dir, bin, "-test.run", "^$", "-test.fuzz", "^"+name+"$", "-test.fuzztime", "1s",
			"-test.fuzzminimizetime", "5x", "-test.fuzzcachedir", filepath.Join(temp, "corpus"), "-test.paniconexit0")
		if err != nil {
			return fmt.Errorf("%s in %s: %w", name, dir, err)
		}
	}
	return os.Remove(bin)
}
