package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// shBlocks are the shell blocks of a page of the repository, in order.
func shBlocks(t testing.TB, page string) []string {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join("..", "..", page))
	require.NoError(t, err)
	var blocks []string
	for _, m := range regexp.MustCompile("(?ms)^```sh\n(.*?)^```$").FindAllStringSubmatch(string(raw), -1) {
		blocks = append(blocks, strings.TrimSpace(m[1]))
	}
	return blocks
}

// TestTheReadmesFirstTwoBlocksAreTheTwoCommands: what a newcomer copies first.
func TestTheReadmesFirstTwoBlocksAreTheTwoCommands(t *testing.T) {
	blocks := shBlocks(t, "README.md")
	require.GreaterOrEqual(t, len(blocks), 2)
	require.Equal(t, []string{"go run ./cmd/daybreak serve", "go run ./internal/tools/verify"}, blocks[:2])
	check, err := os.ReadFile(filepath.Join("..", "..", ".ci", "run"))
	require.NoError(t, err)
	require.Contains(t, string(check), blocks[1], "the build server runs the same")
}

// commands are the commands of a page: those of its blocks, and those that
// begin with go run in its text.
func commands(t testing.TB, page string) []string {
	t.Helper()
	var all []string
	for _, block := range shBlocks(t, page) {
		joined := strings.ReplaceAll(block, "\\\n", " ")
		for line := range strings.Lines(joined) {
			if line = strings.TrimSpace(line); line != "" && !strings.HasPrefix(line, "#") {
				all = append(all, line)
			}
		}
	}
	raw, err := os.ReadFile(filepath.Join("..", "..", page))
	require.NoError(t, err)
	for _, m := range regexp.MustCompile("`(go run [^`]+)`").FindAllStringSubmatch(string(raw), -1) {
		all = append(all, m[1])
	}
	return all
}

// TestEveryCommandOnThePagesIsThere: each block is sound shell, each program
// named exists, and each command and flag of daybreak is one it has.
func TestEveryCommandOnThePagesIsThere(t *testing.T) {
	for _, page := range []string{"README.md", "DEVELOPERS.md"} {
		for _, block := range shBlocks(t, page) {
			check := exec.CommandContext(t.Context(), "sh", "-n")
			check.Stdin = strings.NewReader(block)
			out, err := check.CombinedOutput()
			require.NoError(t, err, "%s: %s\n%s", page, block, out)
		}
		for _, line := range commands(t, page) {
			t.Run(line, func(t *testing.T) {
				for part := range strings.SplitSeq(line, "|") {
					exists(t, strings.Fields(strings.TrimSpace(part)))
				}
			})
		}
	}
}

func exists(t *testing.T, words []string) {
	t.Helper()
	for i, w := range words {
		if !strings.HasPrefix(w, "./cmd/") && !strings.HasPrefix(w, "./internal/") && w != "daybreak" {
			continue
		}
		if w != "daybreak" {
			require.DirExists(t, filepath.Join("..", "..", strings.TrimSuffix(w, "/...")))
		}
		if w == "daybreak" || w == "./cmd/daybreak" {
			known(t, words[i+1:])
		}
		return
	}
}

// quick are the commands that end by themselves and are run as written.
var quick = []string{"quote", "check", "import"}

// known asks the program itself for help with what was written, which fails on
// a command or flag it does not have.
func known(t *testing.T, words []string) {
	t.Helper()
	if len(words) == 0 {
		return
	}
	help := daybreak(t, "", words[0], "--help")
	require.NoError(t, help.err)
	for _, w := range words[1:] {
		if flag, _, _ := strings.Cut(w, "="); strings.HasPrefix(flag, "--") {
			require.Contains(t, help.out, flag+" ", "%s has no such flag", words[0])
		}
	}
	for _, c := range quick {
		if words[0] == c && !strings.ContainsAny(strings.Join(words, " "), "$<>'\"") {
			t.Chdir(filepath.Join("..", ".."))
			got := daybreak(t, "{}", words...)
			require.NoError(t, got.err, got.errs)
			require.NotEmpty(t, got.out)
		}
	}
}

// TestWhatTheProgramSaysOfItselfIsTrue: the example its help names is there.
func TestWhatTheProgramSaysOfItselfIsTrue(t *testing.T) {
	help := daybreak(t, "", "quote", "--help")
	example := regexp.MustCompile(`testdata/households/\w+\.json`).FindString(help.out)
	require.FileExists(t, filepath.Join("..", "..", example))
}
