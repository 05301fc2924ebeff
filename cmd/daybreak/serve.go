package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"time"

	"daybreak/internal/fault"
	"daybreak/internal/service"
	"daybreak/internal/service/access"
	"daybreak/internal/shop"
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
		Args:  noArgs,
		RunE:  func(cmd *cobra.Command, _ []string) error { return serve(cmd, s) },
	}
	f := c.Flags()
	f.StringVar(&s.http, "http", "127.0.0.1:8080", "address of the page and REST")
	f.StringVar(&s.grpc, "grpc", "127.0.0.1:8081", "address of gRPC")
	f.StringVar(&s.data, "data-dir", "", "data directory, default "+dataHint)
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
		return "", fault.Invalid("--data-dir", "no home directory", "a directory this user may write to")
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
	place := dir
	if s.redis != "" {
		place = hostOf(s.redis)
	}
	greet(cmd, books, onHTTP.Addr(), onGRPC.Addr(), kept.Promise()+"; in "+place)
	return until(ctx, server, web.NewServer(handler), onHTTP, onGRPC)
}

// openStore opens Redis where a URL is given, else the file in the data
// directory.
func openStore(ctx context.Context, redis, dir string) (store.Store, error) {
	if redis == "" {
		return embedded.Open(embedded.Config{Dir: dir})
	}
	kept, err := redisstore.Open(ctx, redisstore.Config{URL: redis})
	if f, ok := fault.As(err); ok {
		named := *f
		named.Field = "--redis"
		if f.Kind == fault.KindUnavailable { // at the start nothing was asked yet
			named.Got, named.Accepted, named.Detail = hostOf(redis), "the address of a Redis server that answers", "start one there, or leave --redis out to keep everything in a file"
		}
		return nil, &named
	}
	return kept, err
}

// hostOf is the part of a URL that holds no secret.
func hostOf(raw string) string {
	u, err := url.Parse(raw)
	if err != nil {
		return "this URL"
	}
	return u.Host
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
		f.Detail = "another program uses it; end that one, or let the system choose with " + flag + " 127.0.0.1:0"
		return nil, f
	}
	return l, nil
}

func greet(cmd *cobra.Command, books *shop.Books, onHTTP, onGRPC net.Addr, kept string) {
	out := cmd.OutOrStdout()
	demo := ""
	if books.Demo {
		demo = " (demo: every price is invented)"
	}
	fmt.Fprintf(out, "Daybreak serves %s, %s%s\n", books.Name, books.Town, demo)
	fmt.Fprintf(out, "  page and REST   http://%s\n", onHTTP)
	fmt.Fprintf(out, "  gRPC            %s\n", onGRPC)
	fmt.Fprintf(out, "  contract        http://%s/openapi.json\n", onHTTP)
	fmt.Fprintf(out, "  kept            %s\n", kept)
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
