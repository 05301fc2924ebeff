// Package redis keeps the store in Redis through go-redis: one server,
// Sentinel or Cluster, and whatever else speaks the protocol.
//
// It answers the same questions as every [store.Store]. Each change of a
// session is one server-side script over keys that share a hash tag, the shard
// of the session id: request id, head and entry are judged and written
// together. Watchers hear over one subscription, and a slow poll beside it
// catches what a broken connection swallowed.
//
// At start it reads INFO: it refuses a memory policy that evicts, since
// acknowledged answers would vanish silently, and a cluster without an
// append-only file; [Store.Promise] then says what a write survives with the
// persistence found. Every key expires.
//
// Read [Config], then [Open]. It asks for no replica acknowledgement, so a
// master lost for good may take the last moments with it.
package redis
