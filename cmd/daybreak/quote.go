package main

import (
	"fmt"

	"daybreak/internal/band"
	"daybreak/internal/facts"
	"daybreak/internal/fault"
	"daybreak/internal/quote"
	"daybreak/internal/service/wire"
	"daybreak/internal/shop"
	"daybreak/internal/unit"

	"github.com/spf13/cobra"
	"google.golang.org/protobuf/encoding/protojson"
)

func quoteCommand() *cobra.Command {
	var output, asOf, folder string
	c := &cobra.Command{
		Use:   "quote FACTS.json",
		Short: "Print the quote of a household; - reads standard input",
		Long: "FACTS.json holds what is known of a household, in the form of the API's Facts message,\n" +
			"or an object with such a \"facts\" member.\n" +
			"Whatever is not known is drawn and listed as assumed. Try testdata/households/V01.json.",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 {
				return fault.Invalid("FACTS.json", fmt.Sprintf("%d files", len(args)), "one file of facts, or - for standard input")
			}
			return nil
		},
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
	if asOf != "" {
		if _, err := givenDate(asOf); err != nil {
			return err
		}
	}
	raw, err := readFacts(cmd.InOrStdin(), file)
	if err != nil {
		return err
	}
	told, err := decodeFacts(file, raw)
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
		return printJSON(cmd, books, &q, told, date)
	}
	printer, err := newPrinter(books)
	if err != nil {
		return err
	}
	return printer.Text(cmd.OutOrStdout(), &q, &told)
}

// printJSON prints the whole quote as the API gives it.
func printJSON(cmd *cobra.Command, books *shop.Books, q *quote.Quote, told facts.Facts, asOf unit.Date) error {
	words, err := wire.LoadWords(books.Cautions, books.Tree)
	if err != nil {
		return err
	}
	books.Complete(&told, asOf) // for the words that name its values
	body, err := protojson.MarshalOptions{UseProtoNames: true, Multiline: true}.Marshal(words.Quote(q, &told, wire.Full))
	if err != nil {
		return err
	}
	_, err = cmd.OutOrStdout().Write(append(body, '\n'))
	return err
}
