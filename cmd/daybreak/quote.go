package main

import (
	"encoding/json"
	"io"
	"os"
	"strings"

	daybreakv1 "daybreak/api/daybreak/v1"
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
	told, err := decodeFacts(raw)
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

// decodeFacts reads the API's Facts message, or the "facts" member of an
// object such as a request body. Unknown fields are refused.
func decodeFacts(raw []byte) (facts.Facts, error) {
	var outer struct{ Facts json.RawMessage }
	if json.Unmarshal(raw, &outer) == nil && len(outer.Facts) > 0 {
		raw = outer.Facts
	}
	var m daybreakv1.Facts
	if err := protojson.Unmarshal(raw, &m); err != nil {
		f := fault.Invalid("facts", "something else", "the JSON of a Facts message")
		f.Detail = strings.TrimPrefix(strings.ReplaceAll(err.Error(), "\u00a0", " "), "proto: ")
		return facts.Facts{}, f
	}
	return wire.Facts("facts", &m)
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
