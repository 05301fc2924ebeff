// Command contract makes everything that follows from proto/: the generated Go,
// gateway and OpenAPI below api/.
//
//	go run ./internal/tools/contract           generate, then lint
//	go run ./internal/tools/contract -check    also compare with what is committed and with the contract's image
//	go run ./internal/tools/contract -renew    renew that image; say why in the commit
//
// It runs from the repository's root and needs no schema registry and no
// network: imports are printed from linked descriptors (package protodeps) and
// every generator is a pinned tool of a go.mod.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"daybreak/internal/tools/protodeps"
)

const (
	imports = ".cache/proto"
	image   = "testdata/contract/v1.binpb"
	out     = "api"
)

func main() {
	check := flag.Bool("check", false, "regenerate into a temporary folder and compare")
	renew := flag.Bool("renew", false, "renew the image that breaking changes are judged against")
	flag.Parse()
	if err := run(*check, *renew); err != nil {
		fmt.Fprintln(os.Stderr, "contract:", err)
		os.Exit(1)
	}
}

func run(check, renew bool) error {
	if _, err := os.Stat("buf.yaml"); err != nil {
		return errors.New("run this from the root of the repository, where buf.yaml lies")
	}
	if _, err := protodeps.Print(imports); err != nil {
		return err
	}
	switch {
	case renew:
		return buf("build", "proto", "-o", image)
	case check:
		return judge()
	default:
		if err := generate("."); err != nil {
			return err
		}
		return buf("lint", "proto")
	}
}

// generate writes below root/api and leaves hand-written files there alone.
func generate(root string) error {
	if err := removeGenerated(filepath.Join(root, out)); err != nil {
		return err
	}
	if err := buf("generate", "--template", ".buf.gen.yaml", "-o", root); err != nil {
		return err
	}
	return os.Rename(filepath.Join(root, out, "openapi.swagger.json"), filepath.Join(root, out, "openapi.json"))
}

// judge fails on a proto that is badly formatted, breaks a rule of style or an
// earlier reader, and on generated files that are not what proto/ gives.
func judge() error {
	temp, err := os.MkdirTemp("", "contract")
	if err != nil {
		return err
	}
	defer func() { _ = os.RemoveAll(temp) }() // a temporary folder left behind harms nobody
	if err := generate(temp); err != nil {
		return err
	}
	return errors.Join(
		buf("format", "-d", "--exit-code", "proto"),
		buf("lint", "proto"),
		buf("breaking", "proto", "--against", image),
		same(filepath.Join(temp, out), out),
	)
}

// same compares the generated files of two folders, both ways.
func same(fresh, kept string) error {
	a, err := generated(fresh)
	if err != nil {
		return err
	}
	b, err := generated(kept)
	if err != nil {
		return err
	}
	var stale []error
	for name, text := range a {
		if b[name] != text {
			stale = append(stale, fmt.Errorf("%s is not what proto/ gives; run go run ./internal/tools/contract", filepath.Join(kept, name)))
		}
	}
	for name := range b {
		if _, there := a[name]; !there {
			stale = append(stale, fmt.Errorf("%s is generated from nothing; remove it", filepath.Join(kept, name)))
		}
	}
	return errors.Join(stale...)
}

func generated(root string) (map[string]string, error) {
	files := map[string]string{}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !isGenerated(path) {
			return err
		}
		raw, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		name, err := filepath.Rel(root, path)
		files[name] = string(raw)
		return err
	})
	return files, err
}

func isGenerated(path string) bool {
	return strings.HasSuffix(path, ".pb.go") || strings.HasSuffix(path, ".pb.gw.go") || filepath.Base(path) == "openapi.json"
}

func removeGenerated(root string) error {
	files, err := generated(root)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	for name := range files {
		if err := os.Remove(filepath.Join(root, name)); err != nil {
			return err
		}
	}
	return nil
}

func buf(args ...string) error {
	cmd := exec.Command("go", append([]string{"tool", "-modfile=internal/tools/buf.mod", "buf"}, args...)...)
	cmd.Stdout, cmd.Stderr = os.Stdout, os.Stderr
	if err := cmd.Run(); err != nil {
		return fmt.Errorf("buf %s: %w", args[0], err)
	}
	return nil
}
