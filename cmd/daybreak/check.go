package main

import (
	"fmt"

	"github.com/spf13/cobra"
)

func checkCommand() *cobra.Command {
	var folder string
	var sources bool
	c := &cobra.Command{
		Use:   "check",
		Short: "Check every data file; each fault names file, line and field",
		Args:  noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			books, err := openBooks(folder)
			if err != nil {
				return err
			}
			if _, err := newPrinter(books); err != nil {
				return err
			}
			if sources {
				return listSources(cmd.OutOrStdout())
			}
			out := cmd.OutOrStdout()
			fmt.Fprintf(out, "%s, %s: every book holds\n", books.Name, books.Town)
			revisions := books.AllRevisions()
			if len(books.Tariffs) > 0 {
				revisions = append(revisions, books.TariffBook)
			}
			for _, r := range revisions {
				fmt.Fprintf(out, "  %-24s %-16s %.12s\n", r.Book, r.Name, r.Digest)
			}
			return nil
		},
	}
	c.Flags().StringVar(&folder, "shop", "", "folder with a shop's books, default the demo shop")
	c.Flags().BoolVar(&sources, "sources", false, "list every value of the shared tables that is not verified")
	return c
}
