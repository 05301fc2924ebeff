package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"sort"
	"strings"
)

var fuzzTarget = regexp.MustCompile(`(?m)^func (Fuzz\w+)\(`)

// fuzz runs each fuzz target of the tree for two seconds, one package after
// another, so that a parser that panics at once is caught here.
func fuzz() error {
	targets := map[string][]string{}
	err := filepath.WalkDir("internal", func(path string, entry os.DirEntry, err error) error {
		if err != nil || entry.IsDir() && entry.Name() == "node_modules" {
			return skip(err)
		}
		if !strings.HasSuffix(path, "_test.go") {
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
		return err
	}
	if len(targets) == 0 {
		return fmt.Errorf("no fuzz target found below internal")
	}
	dirs := make([]string, 0, len(targets))
	for dir := range targets {
		dirs = append(dirs, dir)
	}
	sort.Strings(dirs)
	for _, dir := range dirs {
		for _, name := range targets[dir] {
			if err := do("", "go", "test", "./"+dir, "-run", "^$", "-fuzz", "^"+name+"$", "-fuzztime", "2s"); err != nil {
				return err
			}
		}
	}
	return nil
}

func skip(err error) error {
	if err != nil {
		return err
	}
	return filepath.SkipDir
}
