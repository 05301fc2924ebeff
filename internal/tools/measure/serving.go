package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
)

// program is a child process that is ended by its own handle.
type program struct {
	cmd  *exec.Cmd
	addr string // of gRPC, or of Redis
	web  string // the address REST begins with
}

func (p *program) stop() {
	p.cmd.Process.Signal(os.Interrupt)
	done := make(chan struct{})
	go func() { p.cmd.Wait(); close(done) }()
	select {
	case <-done:
	case <-time.After(10 * time.Second):
		p.cmd.Process.Kill()
		<-done
	}
}

// build makes the service's binary once, as it would be shipped.
func build(ctx context.Context, dir string) (string, error) {
	bin := filepath.Join(dir, "daybreak")
	cmd := exec.CommandContext(ctx, "go", "build", "-ldflags=-s -w", "-o", bin, "./cmd/daybreak")
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0")
	out, err := cmd.CombinedOutput()
	if err != nil {
		return "", fmt.Errorf("go build: %w\n%s", err, out)
	}
	return bin, nil
}

// serve starts the service on free ports and waits for its gRPC address.
func serve(bin, data string, args ...string) (*program, error) {
	args = append([]string{"serve", "--http", "127.0.0.1:0", "--grpc", "127.0.0.1:0", "--data-dir", data}, args...)
	cmd := exec.Command(bin, args...)
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		return nil, err
	}
	if err := cmd.Start(); err != nil {
		return nil, err
	}
	p := &program{cmd: cmd}
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		line := strings.TrimSpace(lines.Text())
		if _, url, ok := strings.Cut(line, "page and REST"); ok {
			p.web = strings.TrimSpace(url)
		}
		if addr, ok := strings.CutPrefix(line, "gRPC"); ok {
			p.addr = strings.TrimSpace(addr)
			go func() {
				for lines.Scan() {
				}
			}()
			return p, nil
		}
	}
	p.stop()
	return nil, errors.New("the service ended before it served")
}

// redisServer starts a Redis of our own on a free port, without persistence.
func redisServer() (*program, error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return nil, err
	}
	addr := l.Addr().String()
	l.Close()
	_, port, _ := net.SplitHostPort(addr)
	bin, err := exec.LookPath("redis-server")
	if err != nil {
		return nil, fmt.Errorf("redis-server is not installed: %w", err)
	}
	cmd := exec.Command(bin, "--bind", "127.0.0.1", "--port", port, "--save", "", "--appendonly", "no")
	if err := cmd.Start(); err != nil {
		return nil, err
	}
	p := &program{cmd: cmd, addr: addr}
	for range 200 {
		if c, err := net.Dial("tcp", addr); err == nil {
			c.Close()
			return p, nil
		}
		time.Sleep(20 * time.Millisecond)
	}
	p.stop()
	return nil, errors.New("redis-server did not answer")
}

func dial(addr string) (*grpc.ClientConn, error) {
	return grpc.NewClient(addr, grpc.WithTransportCredentials(insecure.NewCredentials()))
}
