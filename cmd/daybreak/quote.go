package main

import (
	"io"
	"os"

	"daybreak/internal/band"
	"daybreak/internal/fault"
	"daybreak/internal/quote"
	"daybreak/internal/service/wire"

	"github.com/spf13/cobra"
)

func quoteCommand() *cobra.Command {
	var output, asOf, folder string
	c := &cobra.Command{
		Use:   "quote FACTS.json",
		Short: "Print the quote of a household; - reads standard input",
		Long: "FACTS.json holds what is known of a household, in the form of the API's Facts message.\n" +
			"Whatever is not known is drawn and listed as assumed. Try testdata/households/V01.json.",
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			return printQuote(cmd, args[0], output, asOf, folder)
		},
	}
	c.Flags().StringVarP(&output, "output", "o", "text", "text, json or canonical")
	c.Flags().StringVar(&asOf, "as-of", "", "calendar date of the quote, default today at the shop")
	c.Flags().StringVar(&folder, "shop", "", "folder with a shop's books, default the demo shop")
	return c
}

func printQuote(cmd *cobra.Command, file, output, asOf, folder string) error {
	if output != "text" && output != "json" && output != "canonical" {
		return fault.Invalid("--output", output, "text, json or canonical")
	}
	raw, err := readFacts(cmd.InOrStdin(), file)
	if err != nil {
		return err
	}
	told, err := wire.FactsJSON(raw)
	if err != nil {
		return err
	}
	books, err := openBooks(folder)
	if err != nil {
		return err
	}
	date, err := dateOf(books, asOf)
	if err != nil {
		return err
	}
	q, err := band.Quote(books, told, date)
	if err != nil {
		return err
	}
	switch output {
	case "canonical":
		_, err = cmd.OutOrStdout().Write(quote.Canonical(&q))
		return err
	case "json":
		words, err := wire.LoadWords(books)
		if err != nil {
			return err
		}
		body, err := words.QuoteJSON(&q, &told)
		if err != nil {
			return err
		}
		_, err = cmd.OutOrStdout().Write(append(body, '\n'))
		return err
	}
	printer, err := newPrinter(books)
	if err != nil {
		return err
	}
	return printer.Text(cmd.OutOrStdout(), &q, &told)
}

// mostFacts is the largest file of facts read: the same limit as a request.
const mostFacts = 64 << 10

func readFacts(in io.Reader, file string) ([]byte, error) {
	if file != "-" {
		f, err := os.Open(file)
		if err != nil {
			return nil, fault.Invalid("FACTS.json", file, "a readable file, or - for standard input")
		}
		defer f.Close()
		in = f
	}
	raw, err := io.ReadAll(io.LimitReader(in, mostFacts+1))
	if err != nil {
		return nil, err
	}
	if len(raw) > mostFacts {
		return nil, fault.Invalid("FACTS.json", "more than 64 KiB", "at most 64 KiB")
	}
	return raw, nil
}
