package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// need is a program the tests start and the distribution package that brings
// it on Debian and its relatives.
type need struct {
	programs []string // any one of them will do
	pkg      string
	why      string
}

var needs = []need{
	{[]string{"redis-server"}, "redis-server", "the store is tested on a real Redis"},
	{[]string{"redis-cli"}, "redis-tools", "the store is tested on a real Redis"},
	{[]string{"chromium", "chromium-browser"}, "chromium", "the page is tested in a real browser"},
	{[]string{"node"}, "nodejs", "the page's types are checked"},
	{[]string{"npm"}, "npm", "the page's test tools come from npm"},
	{[]string{"cc", "gcc", "clang"}, "gcc libc6-dev", "the race detector needs a C compiler"},
}

// prepare installs the programs that are missing and the page's test tools.
func prepare() error {
	var packages, reasons []string
	for _, n := range needs {
		if !found(n.programs) {
			packages = append(packages, strings.Fields(n.pkg)...)
			reasons = append(reasons, fmt.Sprintf("%s (%s)", n.pkg, n.why))
		}
	}
	if len(packages) > 0 {
		if err := install(packages); err != nil {
			return fmt.Errorf("missing: %s\n%w\ninstall them, for example with\n  sudo apt-get install %s",
				strings.Join(reasons, ", "), err, strings.Join(packages, " "))
		}
	}
	web := filepath.Join("internal", "web")
	return do(web, "npm", "ci", "--no-audit", "--no-fund", "--loglevel=error")
}

func found(programs []string) bool {
	for _, p := range programs {
		if _, err := exec.LookPath(p); err == nil {
			return true
		}
	}
	return false
}

// install uses apt-get where there is one and we may; elsewhere the reader is
// told what is missing.
func install(packages []string) error {
	if _, err := exec.LookPath("apt-get"); err != nil {
		return errors.New("there is no apt-get here to install them with")
	}
	if os.Geteuid() != 0 {
		return errors.New("installing packages needs root")
	}
	if err := apt("update", "-q"); err != nil {
		return err
	}
	return apt(append([]string{"install", "-y", "-q", "--no-install-recommends"}, packages...)...)
}

func apt(args ...string) error {
	cmd := exec.Command("apt-get", args...)
	cmd.Env = append(os.Environ(), "DEBIAN_FRONTEND=noninteractive")
	out, err := cmd.CombinedOutput()
	if err != nil {
		return fmt.Errorf("apt-get %s: %w\n%s", strings.Join(args, " "), err, out)
	}
	return nil
}
