package redis

import (
	"context"
	"errors"
	"strings"
	"sync"

	"daybreak/internal/fault"
	"daybreak/internal/store"

	goredis "github.com/redis/go-redis/v9"
)

// inspect reads INFO of every master: it works where CONFIG is forbidden.
func inspect(ctx context.Context, client goredis.UniversalClient) (string, error) {
	cluster, isCluster := client.(*goredis.ClusterClient)
	if !isCluster {
		raw, err := client.Info(ctx).Result()
		if err != nil {
			return "", judged(err)
		}
		info := parseInfo(raw)
		if err := evicts(info); err != nil {
			return "", err
		}
		return promise(info, alwaysSyncs(ctx, client)), nil
	}
	var mu sync.Mutex
	words := ""
	err := cluster.ForEachMaster(ctx, func(ctx context.Context, one *goredis.Client) error {
		raw, err := one.Info(ctx).Result()
		if err != nil {
			return judged(err)
		}
		info := parseInfo(raw)
		if err := evicts(info); err != nil {
			return err
		}
		if info["aof_enabled"] != "1" {
			return &fault.Fault{Kind: fault.KindPrecondition, Reason: "REDIS_WITHOUT_AOF", Field: "redis",
				Got: "a cluster without an append-only file", Accepted: "appendonly yes on every node",
				Detail: "a master that restarts before failover would wipe its shard"}
		}
		mu.Lock()
		defer mu.Unlock()
		words = "Redis Cluster with append-only files: fast; may lose the last moments when a master dies"
		return nil
	})
	if err != nil {
		return "", judged(err)
	}
	return words, nil
}

// evicts refuses a memory policy under which acknowledged data vanishes.
func evicts(info map[string]string) error {
	policy := info["maxmemory_policy"]
	if policy == "noeviction" || policy == "" {
		return nil
	}
	return &fault.Fault{Kind: fault.KindPrecondition, Reason: "REDIS_EVICTS", Field: "redis",
		Got: "maxmemory-policy " + policy, Accepted: "maxmemory-policy noeviction",
		Detail: "with any other policy acknowledged answers vanish silently"}
}

// alwaysSyncs asks for the sync policy where CONFIG is allowed.
func alwaysSyncs(ctx context.Context, client goredis.UniversalClient) bool {
	got, err := client.ConfigGet(ctx, "appendfsync").Result()
	return err == nil && got["appendfsync"] == "always"
}

// promise is the row of the promise table in force.
func promise(info map[string]string, always bool) string {
	switch {
	case info["aof_enabled"] != "1":
		return "Redis without an append-only file: a cache, for trials only; a restart may lose all"
	case always:
		return "Redis with an append-only file synced always: on disk before we answer"
	}
	return "Redis with an append-only file: may lose up to two seconds if the machine loses power"
}

func parseInfo(raw string) map[string]string {
	out := map[string]string{}
	for line := range strings.Lines(raw) {
		if k, v, ok := strings.Cut(strings.TrimSpace(line), ":"); ok {
			out[k] = v
		}
	}
	return out
}

func judged(err error) error {
	if _, already := fault.As(err); already || err == nil {
		return err
	}
	if goredis.IsOOMError(err) {
		return store.NoRoom(err)
	}
	var answered goredis.Error
	if errors.As(err, &answered) && !errors.Is(err, goredis.Nil) {
		for _, word := range retryable {
			if strings.HasPrefix(err.Error(), word) {
				return store.Away(err)
			}
		}
		return err // the server refuses what we ask: our mistake, not a fault of the caller
	}
	return store.Away(err)
}
