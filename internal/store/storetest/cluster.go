package storetest

import (
	"bytes"
	"net"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// StartRedisCluster starts three masters with append-only files and returns the
// URL of the cluster they make.
func StartRedisCluster(t testing.TB) string {
	t.Helper()
	exe, err := exec.LookPath("redis-cli")
	require.NoError(t, err, "redis-cli is missing: install the package redis-tools (Debian, Ubuntu) or redis (others)")
	args := []string{"--cluster", "create"}
	var nodes []string
	for range 3 {
		dir := t.TempDir()
		port := freePort(t)
		for port > 55000 { // the cluster bus lies 10 000 above
			port = freePort(t)
		}
		r := StartRedisAt(t, port, dir, "--cluster-enabled", "yes", "--cluster-node-timeout", "1500",
			"--cluster-config-file", "nodes.conf", "--cluster-announce-ip", "127.0.0.1", "--appendonly", "yes")
		nodes = append(nodes, r.Addr)
	}
	args = append(append(args, nodes...), "--cluster-yes")
	out, err := exec.Command(exe, args...).CombinedOutput()
	require.NoError(t, err, string(out))
	require.Eventually(t, func() bool {
		for _, n := range nodes {
			_, port, err := net.SplitHostPort(n)
			if err != nil {
				return false
			}
			info, err := exec.Command(exe, "-p", port, "cluster", "info").Output()
			if err != nil || !bytes.Contains(info, []byte("cluster_state:ok")) {
				return false
			}
		}
		return true
	}, 20*time.Second, 20*time.Millisecond, "the cluster does not come up")
	return "redis://" + nodes[0] + "?addr=" + strings.Join(nodes[1:], "&addr=")
}
