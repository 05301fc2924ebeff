package pricing_test

import (
	"testing"

	"daybreak/internal/pricing"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

func TestEveryRuleHasWords(t *testing.T) {
	w, err := working.LoadWords(working.Embedded(), "en")
	require.NoError(t, err)
	for _, key := range pricing.Rules() {
		require.True(t, w.Has(key), key)
	}
	bill, err := pricing.Price(demo(t), trench(), demoPlace(t, demo(t), "00010"), nil)
	require.NoError(t, err)
	for _, l := range bill.Lines {
		require.True(t, w.Has(l.Why), l.Code)
		require.True(t, l.From == "" || w.Has(l.From), "the design step %s of %s", l.From, l.Code)
	}
	for _, key := range []string{"pricing.book_expired", "pricing.book_not_yet", "pricing.tax_row_not_in_force"} {
		require.True(t, w.Has(key), key)
	}
}

// Every step of a real bill fills its formula: no name is left in braces.
func TestEveryStepFillsItsFormula(t *testing.T) {
	w, err := working.LoadWords(working.Embedded(), "en")
	require.NoError(t, err)
	book := demo(t)
	for _, postal := range book.PostalCodes() {
		for _, work := range []pricing.Work{garage(), brick(), trench(), upgrade(), {}} {
			var sheet working.Sheet
			_, err := pricing.Price(book, work, demoPlace(t, book, postal), &sheet)
			require.NoError(t, err)
			for _, s := range sheet.Steps {
				require.NotContains(t, w.Formula(s), "{", s.Rule)
				require.NotContains(t, w.Sentence(s), "{", s.Rule)
				require.NotNil(t, s.Source)
				require.True(t, s.Source.Status.Known(), s.Rule)
			}
		}
	}
}
