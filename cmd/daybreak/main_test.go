package main

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"daybreak/internal/shop/alderbay"

	"github.com/stretchr/testify/require"
	"go.uber.org/goleak"
)

var update = flag.Bool("update", false, "rewrite the worksheets in testdata")

func TestMain(m *testing.M) {
	flag.Parse()
	if os.Getenv(asProgram) != "" {
		main()
		return
	}
	goleak.VerifyTestMain(m)
}

// asProgram in the environment makes the test's own executable the program, so
// that a test can end it from outside.
const asProgram = "DAYBREAK_AS_PROGRAM"

// day is the date of every quote here: no test depends on today's.
const day = "2026-11-25"

// said is what one run of the program printed.
type said struct {
	out, errs string
	err       error
}

// daybreak runs the program in this process.
func daybreak(t testing.TB, in string, args ...string) said {
	t.Helper()
	var out, errs bytes.Buffer
	err := run(t.Context(), args, strings.NewReader(in), &out, &errs)
	return said{out.String(), errs.String(), err}
}

// refused runs the program, which must fail and say each of the words on one
// line of standard error.
func refused(t *testing.T, in string, args []string, words ...string) {
	t.Helper()
	got := daybreak(t, in, args...)
	require.Error(t, got.err, "exit must not be zero")
	require.Empty(t, got.out)
	require.NotContains(t, got.errs, "\n\n")
	for line := range strings.Lines(got.errs) {
		require.True(t, strings.HasPrefix(line, "daybreak: "), line)
	}
	for _, w := range words {
		require.Contains(t, got.errs, w)
	}
}

// household is the path of one of the check households.
func household(id string) string {
	return filepath.Join("..", "..", "testdata", "households", id+".json")
}

// demoCopy is a folder with the demo shop's books, to be broken.
func demoCopy(t testing.TB) string {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, alderbay.Files()))
	return dir
}

// broken replaces a text of one of the copied books.
func broken(t testing.TB, file, from, to string) {
	t.Helper()
	raw, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Contains(t, string(raw), from)
	require.NoError(t, os.WriteFile(file, []byte(strings.Replace(string(raw), from, to, 1)), 0o600))
}

func TestHelpNamesEveryCommand(t *testing.T) {
	for _, args := range [][]string{nil, {"--help"}, {"help"}} {
		got := daybreak(t, "", args...)
		require.NoError(t, got.err)
		require.Empty(t, got.errs)
		for _, c := range []string{"serve", "chat", "quote", "check", "import"} {
			require.Contains(t, got.out, "\n  "+c+" ")
		}
	}
	for command, flags := range map[string][]string{
		"serve":  {"--http", "--grpc", "--data-dir", "--redis", "--keys", "--shop"},
		"chat":   {"--as-of", "--shop"},
		"quote":  {"--output", "-o", "--as-of", "--shop", "FACTS.json"},
		"check":  {"--shop", "--sources"},
		"import": {"vehicles", "tariff"},
	} {
		got := daybreak(t, "", command, "--help")
		require.NoError(t, got.err)
		for _, f := range flags {
			require.Contains(t, got.out, f, command)
		}
	}
}

func TestWhatIsNotKnownIsNamedWithWhatIs(t *testing.T) {
	refused(t, "", []string{"quot"}, "quot is no command; did you mean quote?", "serve")
	refused(t, "", []string{"version"}, "version is no command", "chat, check, import, quote, serve")
	refused(t, "", []string{"serve", "--htpp", "x"}, "--htpp is no flag of daybreak serve; did you mean --http?", "--data-dir")
	refused(t, "", []string{"quote", "--asof=x", "-"}, "did you mean --as-of?")
	refused(t, "", []string{"quote", "-x", "-"}, "unknown shorthand flag: 'x'", "--output")
	refused(t, "", []string{"serve", "--http"}, "flag needs an argument: --http")
	refused(t, "", []string{"check", "here"}, `"here"`, "daybreak check", "--shop")
	refused(t, "", []string{"chat", "now"}, `"now"`, "daybreak chat")
	refused(t, "", []string{"serve", "now"}, `"now"`, "daybreak serve")
}

func TestABrokenBookIsNamedByFileLineAndField(t *testing.T) {
	for name, c := range map[string]struct{ file, from, to, field string }{
		"a price that is no price": {"prices/items/wire.yaml", "price: [", "price: [cheap, ", "price"},
		"a field nobody knows":     {"shop.yaml", "town:", "twon:", "twon"},
		"an edition there is not":  {"jurisdictions.yaml", "edition: 2020", "edition: 2021", "edition"},
	} {
		t.Run(name, func(t *testing.T) {
			dir := demoCopy(t)
			file := filepath.Join(dir, filepath.FromSlash(c.file))
			broken(t, file, c.from, c.to)
			for _, args := range [][]string{
				{"check"}, {"chat"}, {"quote", household("V01")}, {"serve", "--data-dir", t.TempDir()},
			} {
				got := daybreak(t, "", append(args, "--shop", dir)...)
				require.Error(t, got.err)
				require.Empty(t, got.out, "nothing is served")
				require.Regexp(t, `daybreak: `+file+`:\d+: [\w.\[\]-]*`+c.field, got.errs)
			}
		})
	}
}

func TestAFolderThatIsNoShop(t *testing.T) {
	refused(t, "", []string{"check", "--shop", "/nowhere"}, "--shop", `"/nowhere"`, "a folder with a shop's books")
	refused(t, "", []string{"check", "--shop", household("V01")}, "--shop", "a folder with a shop's books")
	refused(t, "", []string{"check", "--shop", t.TempDir()}, "shop.yaml")
}

func TestCheckListsEveryBookWithItsRevision(t *testing.T) {
	for _, args := range [][]string{{"check"}, {"check", "--shop", demoCopy(t)}} {
		got := daybreak(t, "", args...)
		require.NoError(t, got.err)
		require.Contains(t, got.out, "Fernhill Home & Motor, Alder Bay: every book holds\n")
		for _, book := range []string{"code book", "load rules", "vehicles and climate", "cautions", "jurisdictions", "prices", "shop", "question tree"} {
			require.Regexp(t, `(?m)^  `+book+` .* [0-9a-f]{12}$`, got.out)
		}
	}
}

func TestCheckSourcesListsWhatIsNotVerified(t *testing.T) {
	got := daybreak(t, "", "check", "--sources")
	require.NoError(t, got.err)
	lines := strings.Split(strings.TrimSpace(got.out), "\n")
	for _, room := range []string{"edition/nec/", "panel/methods.yaml", "panel/priors.yaml", "panel/appliances.yaml", "charging/archetypes.csv",
		"charging/climate.csv", "circuit/outlet/receptacles.yaml", "circuit/outlet/rules.yaml", "quote/caution/findings.yaml", "intake/tree/house/questions.yaml"} {
		require.Contains(t, got.out, "\n"+room, "a room that vouches for all it says is to be looked at")
	}
	rows := 0
	for _, line := range lines {
		if cells := strings.Split(line, "\t"); len(cells) == 4 {
			rows++
			require.Regexp(t, `^[\w/.-]+\.(yaml|csv):[1-9]\d*$`, cells[0])
			require.NotEmpty(t, cells[1], line)
			require.Contains(t, []string{"from memory", "verified second-hand", "computed", "engineering judgement"}, cells[3], line)
		}
	}
	require.Greater(t, rows, 1000)
	require.Regexp(t, `^\d+ computed\n\d+ engineering judgement\n\d+ from memory\n\d+ verified second-hand$`, strings.Join(lines[rows:], "\n"))
}
