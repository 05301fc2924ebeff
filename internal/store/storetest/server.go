package storetest

import (
	"bufio"
	"fmt"
	"net"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// RedisServer is a real redis-server of one test, on a free loopback port,
// keeping nothing on disk unless asked.
type RedisServer struct {
	Addr string
	cmd  *exec.Cmd
}

// URL is where it is found.
func (r *RedisServer) URL() string { return "redis://" + r.Addr }

// Kill ends it at once, as a crash would.
func (r *RedisServer) Kill() {
	if r.cmd != nil {
		_ = r.cmd.Process.Kill() // gone already, as a rule
		_ = r.cmd.Wait()
		r.cmd = nil
	}
}

// StartRedis starts a server and ends it, by its own process, with the test. A
// missing redis-server is a failure that names the package.
func StartRedis(t testing.TB, args ...string) *RedisServer {
	t.Helper()
	return StartRedisAt(t, freePort(t), t.TempDir(), args...)
}

// StartRedisAt starts a server on a port and directory of the test's choice,
// such as those of one that was killed.
func StartRedisAt(t testing.TB, port int, dir string, args ...string) *RedisServer {
	t.Helper()
	exe, err := exec.LookPath("redis-server")
	require.NoError(t, err, "redis-server is missing: install the package redis-server (Debian, Ubuntu) or redis (others)")
	all := []string{"--port", strconv.Itoa(port), "--bind", "127.0.0.1", "--save", "", "--dir", dir,
		"--loglevel", "warning", "--daemonize", "no"}
	if len(args) > 0 && !strings.HasPrefix(args[0], "--") {
		all = append([]string{args[0]}, all...) // a configuration file comes first
		args = args[1:]
	}
	all = append(all, args...)
	r := &RedisServer{Addr: fmt.Sprintf("127.0.0.1:%d", port), cmd: exec.Command(exe, all...)}
	require.NoError(t, r.cmd.Start())
	t.Cleanup(r.Kill)
	require.Eventually(t, r.answers, 10*time.Second, 5*time.Millisecond, "redis-server does not answer")
	return r
}

// answers sends one inline PING.
func (r *RedisServer) answers() bool {
	c, err := net.DialTimeout("tcp", r.Addr, time.Second)
	if err != nil {
		return false
	}
	defer c.Close()
	if err := c.SetDeadline(time.Now().Add(time.Second)); err != nil {
		return false
	}
	if _, err := c.Write([]byte("PING\r\n")); err != nil {
		return false
	}
	line, err := bufio.NewReader(c).ReadString('\n')
	return err == nil && (line == "+PONG\r\n" || line[0] == '-') // an error is an answer, such as one asking for a password
}

func freePort(t testing.TB) int {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer l.Close()
	return l.Addr().(*net.TCPAddr).Port
}
