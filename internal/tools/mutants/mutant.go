package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"daybreak/internal/quote/inspector"

	"go.yaml.in/yaml/v3"
)

// mutant is one fault to plant.
type mutant struct {
	Rule       string `yaml:"rule"`       // that must break
	File       string `yaml:"file"`       // from the root of the repository
	Text       string `yaml:"text"`       // exact, once in the file
	Becomes    string `yaml:"becomes"`    //
	Households int    `yaml:"households"` // how many it takes to meet it; 400 when not named
	Seed       uint64 `yaml:"seed"`       // of them; 1 when not named
}

// load reads the list and checks it: every rule of the inspector has a fault,
// and every fault a rule.
func load(file string) ([]mutant, error) {
	raw, err := os.ReadFile(file)
	if err != nil {
		return nil, fmt.Errorf("run this from the root of the repository: %w", err)
	}
	var doc struct {
		Mutants []mutant `yaml:"mutants"`
	}
	dec := yaml.NewDecoder(bytes.NewReader(raw))
	dec.KnownFields(true)
	if err := dec.Decode(&doc); err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	var problems []error
	rules := inspector.Rules()
	for _, r := range rules {
		if !slices.ContainsFunc(doc.Mutants, func(m mutant) bool { return m.Rule == r.Name }) {
			problems = append(problems, fmt.Errorf("%s: no fault is planted for rule %s", file, r.Name))
		}
	}
	for i := range doc.Mutants {
		m := &doc.Mutants[i]
		if !slices.ContainsFunc(rules, func(r inspector.Rule) bool { return m.Rule == r.Name }) {
			problems = append(problems, fmt.Errorf("%s: %q is no rule of the inspector", file, m.Rule))
		}
		if m.Households == 0 {
			m.Households = 400
		}
		if m.Seed == 0 {
			m.Seed = 1
		}
	}
	return doc.Mutants, errors.Join(problems...)
}

// try plants the fault and returns nil when the rule finds it.
func (m *mutant) try(ctx context.Context) error {
	overlay, done, err := m.plant()
	if err != nil {
		return err
	}
	defer done()
	cmd := exec.CommandContext(ctx, "go", "test", "-vet=off", "-overlay", overlay, "-count=1", "-run", "^TestNothingIsFoundInRandomHouseholds$",
		"./internal/quote/inspector", "-args", "-households="+strconv.Itoa(m.Households), "-seed="+strconv.FormatUint(m.Seed, 10))
	out, err := cmd.CombinedOutput()
	text := string(out)
	switch {
	case err == nil:
		return fmt.Errorf("nothing is found in %d households", m.Households)
	case strings.Contains(text, "[build failed]") || strings.Contains(text, "[setup failed]"):
		return fmt.Errorf("it does not build: %s", firstLines(text, 4))
	}
	_, found, ok := strings.Cut(text, brokenHead)
	if !ok {
		return fmt.Errorf("the test fails otherwise: %s", firstLines(text, 6))
	}
	found, _, _ = strings.Cut(found, "\n")
	if !slices.Contains(strings.Fields(found), m.Rule) {
		return fmt.Errorf("only others find it: %s", found)
	}
	return nil
}

// brokenHead opens the line of the test that names the rules broken.
const brokenHead = "rules broken: "

// plant writes the changed file and the overlay beside it, outside the tree.
func (m *mutant) plant() (overlay string, done func(), err error) {
	source, err := os.ReadFile(m.File)
	if err != nil {
		return "", nil, err
	}
	if n := strings.Count(string(source), m.Text); n != 1 || m.Text == "" {
		return "", nil, fmt.Errorf("its text is %d times in the file, not once: %s", n, firstLines(m.Text, 1))
	}
	dir, err := os.MkdirTemp("", "mutant")
	if err != nil {
		return "", nil, err
	}
	done = func() { _ = os.RemoveAll(dir) }
	changed, overlay := filepath.Join(dir, filepath.Base(m.File)), filepath.Join(dir, "overlay.json")
	here, err := filepath.Abs(m.File)
	if err != nil {
		done()
		return "", nil, err
	}
	doc, err := json.Marshal(map[string]map[string]string{"Replace": {here: changed}})
	if err != nil {
		done()
		return "", nil, err
	}
	planted := strings.Replace(string(source), m.Text, m.Becomes, 1)
	if err := errors.Join(os.WriteFile(changed, []byte(planted), 0o600), os.WriteFile(overlay, doc, 0o600)); err != nil {
		done()
		return "", nil, err
	}
	return overlay, done, nil
}

func firstLines(text string, n int) string {
	lines := strings.Split(strings.TrimSpace(text), "\n")
	return strings.Join(lines[:min(n, len(lines))], " | ")
}
