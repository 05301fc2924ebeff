package main

import (
	"fmt"

	"daybreak/internal/edition/nec"

	"github.com/spf13/cobra"
)

func checkCommand() *cobra.Command {
	var folder string
	var sources bool
	c := &cobra.Command{
		Use:   "check",
		Short: "Check every data file; each fault names file, line and field",
		Args:  cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			books, err := openBooks(folder)
			if err != nil {
				return err
			}
			if _, err := newPrinter(books); err != nil {
				return err
			}
			if sources {
				return listSources(cmd)
			}
			out := cmd.OutOrStdout()
			fmt.Fprintf(out, "%s, %s: every book holds\n", books.Name, books.Town)
			for _, r := range books.AllRevisions() {
				fmt.Fprintf(out, "  %-24s %-16s %.12s\n", r.Book, r.Name, r.Digest)
			}
			return nil
		},
	}
	c.Flags().StringVar(&folder, "shop", "", "folder with a shop's books, default the demo shop")
	c.Flags().BoolVar(&sources, "sources", false, "list every value of the code books that is not verified")
	return c
}

// listSources prints the cells of the code books whose status is not verified.
func listSources(cmd *cobra.Command) error {
	for _, year := range nec.Years() {
		doubts, err := nec.Unverified(nec.Embedded(), year)
		if err != nil {
			return err
		}
		for _, d := range doubts {
			fmt.Fprintf(cmd.OutOrStdout(), "%s:%d\t%s\t%s\t%s %s %s\t%s\n", d.File, d.Line, d.Table, d.Value, d.Source.Publication, d.Source.Section, d.Source.Cell, d.Source.Status)
		}
	}
	return nil
}
