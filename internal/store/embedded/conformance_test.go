package embedded_test

import (
	"testing"

	"daybreak/internal/store"
	"daybreak/internal/store/embedded"
	"daybreak/internal/store/storetest"

	"github.com/stretchr/testify/require"
	"go.uber.org/goleak"
)

func TestMain(m *testing.M) { child(); goleak.VerifyTestMain(m) }

func TestConformance(t *testing.T) {
	storetest.Run(t, func(t *testing.T, s storetest.Settings) storetest.Opened {
		c := embedded.Config{Dir: t.TempDir(), Now: s.Now, Lives: s.Lives}
		var now *embedded.Store
		open := func() store.Store {
			var err error
			now, err = embedded.Open(c)
			require.NoError(t, err)
			return now
		}
		t.Cleanup(func() { require.NoError(t, now.Close()) })
		return storetest.Opened{Store: open(), Again: func() store.Store {
			require.NoError(t, now.Close())
			return open()
		}}
	})
}
