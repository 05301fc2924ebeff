package quote

import (
	"testing"
	"testing/fstest"

	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

func TestAmountsOfARangeAreRoundedAsPeopleSayThem(t *testing.T) {
	require.Equal(t, "$690", Rounded(68_512, "USD"))
	require.Equal(t, "$1,150", Rounded(116_900, "USD"))
	require.Equal(t, "$12,300", Rounded(1_234_567, "USD"))
}

func TestSentencesAreFilled(t *testing.T) {
	w, err := LoadWords(EmbeddedWords(), "en")
	require.NoError(t, err)
	require.Equal(t, "A normal day takes 2.5 hours instead of 8 hours with the next cheaper way.",
		w.Say(Said("quote.why.best_saves", working.Num("hours", 2.4, "h"), working.Num("other", 7.9, "h"))))
}

func TestBrokenWordsAreRefusedByLine(t *testing.T) {
	_, err := LoadWords(fstest.MapFS{"en.yaml": {Data: []byte("a: x\nb: [1]\n")}}, "en")
	require.ErrorContains(t, err, "en.yaml:2")
	_, err = LoadWords(fstest.MapFS{}, "xx")
	require.ErrorContains(t, err, "xx.yaml")
}
