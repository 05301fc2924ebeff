package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"time"

	"daybreak/internal/fault"
	"daybreak/internal/service"
	"daybreak/internal/service/access"
	"daybreak/internal/store"
	"daybreak/internal/store/embedded"
	redisstore "daybreak/internal/store/redis"
	"daybreak/internal/web"

	"github.com/spf13/cobra"
	"golang.org/x/sync/errgroup"
)

// serving is what serve was asked for.
type serving struct {
	http, grpc, data, redis, keys, shop string
}

func serveCommand() *cobra.Command {
	var s serving
	c := &cobra.Command{
		Use:   "serve",
		Short: "Serve gRPC, REST and the chat page of one shop, on this machine only",
		Args:  cobra.NoArgs,
		RunE:  func(cmd *cobra.Command, _ []string) error { return serve(cmd, s) },
	}
	f := c.Flags()
	f.StringVar(&s.http, "http", "127.0.0.1:8080", "address of the page and REST")
	f.StringVar(&s.grpc, "grpc", "127.0.0.1:8081", "address of gRPC")
	f.StringVar(&s.data, "data", "", "data directory, default "+dataHint)
	f.StringVar(&s.redis, "redis", "", "keep sessions and quotes in Redis at this URL instead of the data directory")
	f.StringVar(&s.keys, "keys", "", "directory of the service key, default the data directory")
	f.StringVar(&s.shop, "shop", "", "folder with a shop's books, default the demo shop")
	return c
}

// dataHint names the default data directory for people.
const dataHint = "$XDG_DATA_HOME/daybreak, else ~/.local/share/daybreak"

func dataDir(given string) (string, error) {
	if given != "" {
		return given, nil
	}
	if dir := os.Getenv("XDG_DATA_HOME"); dir != "" {
		return filepath.Join(dir, "daybreak"), nil
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "", fault.Invalid("--data", "no home directory", "a directory this user may write to")
	}
	return filepath.Join(home, ".local", "share", "daybreak"), nil
}

func serve(cmd *cobra.Command, s serving) error {
	ctx, errs := cmd.Context(), cmd.ErrOrStderr()
	log := slog.New(slog.NewTextHandler(errs, &slog.HandlerOptions{Level: slog.LevelWarn}))
	for _, addr := range []struct{ flag, value string }{{"--http", s.http}, {"--grpc", s.grpc}} {
		if err := loopback(addr.flag, addr.value); err != nil {
			return err
		}
	}
	books, err := openBooks(s.shop)
	if err != nil {
		return err
	}
	dir, err := dataDir(s.data)
	if err != nil {
		return err
	}
	kept, err := openStore(ctx, s.redis, dir)
	if err != nil {
		return err
	}
	defer kept.Close()
	if s.keys == "" {
		s.keys = dir
	}
	keys, err := access.OpenKeyFile(s.keys)
	if err != nil {
		return err
	}
	server, err := service.New(service.Config{
		Books: books, Store: kept, Keys: keys, Log: log,
		Policy: access.Policy{OpenShop: books.ID},
	})
	if err != nil {
		return err
	}
	handler, err := web.New(web.Config{Channel: server.Channel(), Ready: server.Ready, LocalHostsOnly: true, Log: log})
	if err != nil {
		return err
	}
	onHTTP, err := listen("--http", s.http)
	if err != nil {
		return err
	}
	onGRPC, err := listen("--grpc", s.grpc)
	if err != nil {
		onHTTP.Close()
		return err
	}
	greet(cmd, books.Name+", "+books.Town, onHTTP.Addr(), onGRPC.Addr(), kept)
	return until(ctx, server, web.NewServer(handler), onHTTP, onGRPC)
}

// openStore opens Redis where a URL is given, else the file in the data
// directory.
func openStore(ctx context.Context, url, dir string) (store.Store, error) {
	if url != "" {
		return redisstore.Open(ctx, redisstore.Config{URL: url})
	}
	return embedded.Open(embedded.Config{Dir: dir})
}

// loopback refuses an address other machines could reach: without credentials
// a shop is served to this machine only.
func loopback(flag, addr string) error {
	host, _, err := net.SplitHostPort(addr)
	if err != nil {
		return fault.Invalid(flag, addr, "an address such as 127.0.0.1:8080")
	}
	if ip := net.ParseIP(host); host == "localhost" || ip != nil && ip.IsLoopback() {
		return nil
	}
	return fault.Invalid(flag, addr, "an address of this machine alone, such as 127.0.0.1:8080, since callers need no credential")
}

func listen(flag, addr string) (net.Listener, error) {
	l, err := net.Listen("tcp", addr)
	if err != nil {
		f := fault.Invalid(flag, addr, "an address that is free")
		f.Detail = "another program may be using the port; choose one with " + flag + " 127.0.0.1:0"
		return nil, errors.Join(f, nil)
	}
	return l, nil
}

func greet(cmd *cobra.Command, shop string, onHTTP, onGRPC net.Addr, kept store.Store) {
	out := cmd.OutOrStdout()
	fmt.Fprintf(out, "Daybreak serves %s (demo: every price is invented)\n", shop)
	fmt.Fprintf(out, "  page and REST   http://%s\n", onHTTP)
	fmt.Fprintf(out, "  gRPC            %s\n", onGRPC)
	fmt.Fprintf(out, "  contract        http://%s/openapi.json\n", onHTTP)
	fmt.Fprintf(out, "  kept            %s\n", kept.Promise())
	fmt.Fprintln(out, "  for this machine only: callers need no credential")
	fmt.Fprintln(out, "Try it:")
	fmt.Fprintf(out, "  curl -s http://%s/v1/quotes:compose -H 'content-type: application/json' -d '{\"facts\":{\"driving\":{\"weekday_miles\":40},\"panel\":{\"service_amps\":200}}}'\n", onHTTP)
}

// until serves both listeners until the context ends, then says not ready,
// lets calls at work end, and closes in bounded time.
func until(ctx context.Context, server *service.Server, front *http.Server, onHTTP, onGRPC net.Listener) error {
	g, ctx := errgroup.WithContext(ctx)
	g.Go(func() error { return server.Serve(onGRPC) })
	g.Go(func() error {
		if err := front.Serve(onHTTP); !errors.Is(err, http.ErrServerClosed) {
			return err
		}
		return nil
	})
	g.Go(func() error {
		<-ctx.Done()
		closing, cancel := context.WithTimeout(context.WithoutCancel(ctx), drain)
		defer cancel()
		err := front.Shutdown(closing)
		if errors.Is(err, context.DeadlineExceeded) {
			err = front.Close()
		}
		server.Stop(drain)
		return err
	})
	return g.Wait()
}

// drain is how long calls at work may take to end.
const drain = 5 * time.Second
