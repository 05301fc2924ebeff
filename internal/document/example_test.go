package document

import (
	"fmt"
	"os"

	"daybreak/internal/facts"
	"daybreak/internal/quote"
	"daybreak/internal/unit"
)

// A printer holds the words of one locale; the quote holds everything else.
func ExamplePrinter_Text() {
	words, err := quote.LoadWords(quote.EmbeddedWords(), "en")
	if err != nil {
		fmt.Println(err)
		return
	}
	p := &Printer{Quote: words, Label: func(path string) string { return path }, Shop: "Fernhill Home & Motor, Alder Bay"}
	q := quote.Quote{
		AsOf: unit.Date{Year: 2026, Month: 11, Day: 25}, Expires: unit.Date{Year: 2026, Month: 12, Day: 25},
		Standing: quote.SubjectToSiteCheck, Reference: "7KT4-ATPM-8",
		Reasons:  []quote.Sentence{quote.Said("quote.standing.no_option")},
		Headline: quote.Said("quote.headline.nothing"),
	}
	if err := p.Text(os.Stdout, &q, &facts.Facts{}); err != nil {
		fmt.Println(err)
	}
	// Output:
	// Fernhill Home & Motor, Alder Bay
	// Reference 7KT4-ATPM-8 · as of 2026-11-25 · holds until 2026-12-25
	//
	//   We see no way to charge at this home yet. A licensed electrician can look at
	//   what we cannot.
	//
	// Standing: subject to site check
	//   - Nothing can be offered before somebody has looked.
	//
	// Before you rely on this
	// ───────────────────────
	//   - These are estimates for planning.
	//   - A licensed electrician does the work.
	//   - The local inspector has the last word.
	//   - Electrical work can injure, kill and burn. Do not open the panel or an
	//     outlet yourself.
	//   - Accepting asks the shop to book on an estimate. It is not a contract.
	//   - Fast charging on direct current is for the road. It is not built at homes.
}
