package document

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"daybreak/internal/charging"
	"daybreak/internal/circuit"
	"daybreak/internal/facts"
	"daybreak/internal/panel"
	"daybreak/internal/quote"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var keyForm = regexp.MustCompile(`^(quote|text|word|standing|role|unit|basis|method)\.[a-z0-9_.]*$`)

// said lists the keys that the rooms' sources spell out; what ends in a dot or
// an underline is the beginning of keys made with a word from a closed list.
func said(t *testing.T) map[string]bool {
	out := map[string]bool{}
	for _, dir := range []string{".", "../quote", "../band"} {
		files, err := filepath.Glob(filepath.Join(dir, "*.go"))
		require.NoError(t, err)
		for _, name := range files {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			f, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
			require.NoError(t, err)
			ast.Inspect(f, func(n ast.Node) bool {
				if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
					if s, err := strconv.Unquote(lit.Value); err == nil && keyForm.MatchString(s) {
						out[s] = true
					}
				}
				return true
			})
		}
	}
	return out
}

// made completes the beginnings of keys with the words they are made with.
func made() map[string][]string {
	var reasons, verdicts, limits, methods, bases, standings []string
	for l := charging.Circuit; l <= charging.OnboardCurrent; l++ {
		limits = append(limits, l.Word())
	}
	for r := circuit.NoReason; r <= circuit.TooShallow; r++ {
		reasons = append(reasons, quote.ReasonWord(r))
	}
	for v := panel.DoesNotFit; v <= panel.Fits; v++ {
		verdicts = append(verdicts, quote.VerdictWord(v))
	}
	for m := panel.ExistingDwelling; m <= panel.General; m++ {
		methods = append(methods, m.String())
	}
	for b := facts.FromPostalTable; b <= facts.FromDraw; b++ {
		bases = append(bases, b.String())
	}
	for s := quote.Ballpark; s <= quote.Halted; s++ {
		standings = append(standings, s.Word())
	}
	return map[string][]string{
		"quote.not.served.":     reasons,
		"quote.not.impossible.": reasons,
		"quote.not.panel_":      verdicts[:panel.Fits], // what fits is not turned away
		"quote.title.":          {"as_it_is", "set_down", "put_right", "wired_in", "new_receptacle", "hardwired", "sharing_switch", "remove_load", "upgrade_service"},
		"quote.unpriced.":       {"run", "appliance", "rating", "feeder"},
		"quote.flip.":           {"heat", "cooling"},
		"text.":                 {"true", "false"},
		"word.":                 append(append(limits, verdicts...), facts.LoadKinds()...),
		"standing.":             standings,
		"role.":                 (quote.EnoughForNow | quote.BestFit | quote.RoomToGrow).Words(),
		"basis.":                bases,
		"method.":               methods,
	}
}

func TestEverySentenceHasWordsAndEveryWordIsSaid(t *testing.T) {
	words, err := quote.LoadWords(quote.EmbeddedWords(), "en")
	require.NoError(t, err)
	keys := said(t)
	for prefix, ends := range made() {
		require.True(t, keys[prefix], "nothing begins with %s", prefix)
		delete(keys, prefix)
		for _, end := range ends {
			keys[prefix+end] = true
		}
	}
	for key := range keys {
		assert.True(t, words.Has(key), "no words for %s", key)
	}
	for _, key := range words.Keys() {
		assert.True(t, keys[key] || strings.HasPrefix(key, "pricing."), "nobody says %s", key) // room pricing says its own
	}
}

// Sentences are short, calm and whole.
func TestWordsKeepTheTone(t *testing.T) {
	words, err := quote.LoadWords(quote.EmbeddedWords(), "en")
	require.NoError(t, err)
	for _, key := range words.Keys() {
		text := words.Text(key)
		require.NotRegexp(t, `!|\b(just|simply|easy|sorry|only from)\b`, text, key)
		if !strings.HasPrefix(key, "quote.") || strings.HasPrefix(key, "quote.title.") {
			continue
		}
		for _, sentence := range strings.SplitAfter(text, ". ") {
			most := 20
			if strings.HasPrefix(key, "quote.headline.") {
				most = 32
			}
			require.LessOrEqual(t, len(strings.Fields(sentence)), most, key)
		}
	}
}
