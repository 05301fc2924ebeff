package main

import (
	"fmt"
	"slices"
	"strings"

	"daybreak/internal/fault"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// commandNames lists what may stand behind the program's name.
func commandNames(root *cobra.Command) []string {
	var names []string
	for _, c := range root.Commands() {
		if c.IsAvailableCommand() {
			names = append(names, c.Name())
		}
	}
	return names
}

// unknownCommand names the likest command and all there are.
func unknownCommand(root *cobra.Command, given string) error {
	names := commandNames(root)
	return fmt.Errorf("%s is no command; did you mean %s? There are %s", given, likest(given, names), strings.Join(names, ", "))
}

// noArgs refuses what stands behind a command that takes flags alone.
func noArgs(c *cobra.Command, args []string) error {
	if len(args) > 0 {
		return wrongFlag(c, fmt.Errorf("%q is nothing that %s reads", args[0], c.CommandPath()))
	}
	return nil
}

// wrongFlag adds to a complaint about a flag what the command takes.
func wrongFlag(c *cobra.Command, err error) error {
	var names []string
	c.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, "--"+f.Name) })
	given := err.Error()
	name, unknown := strings.CutPrefix(given, "unknown flag: ")
	if !unknown {
		return fmt.Errorf("%s; %s takes %s", given, c.CommandPath(), strings.Join(names, ", "))
	}
	return fmt.Errorf("%s is no flag of %s; did you mean %s? It takes %s", name, c.CommandPath(), likest(name, names), strings.Join(names, ", "))
}

func likest(given string, names []string) string {
	return slices.MinFunc(names, func(a, b string) int { return fault.Changes(given, a) - fault.Changes(given, b) })
}
