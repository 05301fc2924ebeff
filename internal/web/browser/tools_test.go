package browser_test

import (
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// The scripts of the page are typed in their comments; the type checker holds
// them to it, against the shapes of the contract in widget/wire.d.ts.
func TestTheScriptsAreTyped(t *testing.T) {
	checker, err := filepath.Abs(filepath.Join("..", "node_modules", ".bin", "tsc"))
	require.NoError(t, err)
	_, err = exec.LookPath(checker)
	require.NoError(t, err, "the type checker is missing; install node and run: npm ci --prefix internal/web")
	out, err := exec.Command(checker, "-p", filepath.Join("..", "page", "tsconfig.json")).CombinedOutput()
	require.NoError(t, err, string(out))
}
