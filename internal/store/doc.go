// Package store keeps what must outlive a process: conversations, issued
// quotes, the books they were made with, and which requests were answered.
//
// It answers: what is the answer log of this session and at which revision
// does it stand? May this entry be appended? Which quote was issued under this
// name? A session is a header and an append-only log of opaque records; the
// store knows no facts, folds nothing and decides nothing about content.
//
// [Store.Append] is one compare-and-append: request id, head revision and
// entry are judged and written in one transaction or script, so an answer is
// either wholly there or not at all. A [Revision] is a number chained to a
// digest of the log so far, so that two logs never share one by accident.
// Every key carries shop and shard, every stored record starts with a version
// byte, and what belongs to another shop is absent.
//
// Two adapters stand below: store/embedded (a bbolt file, the default) and
// store/redis (one server, Sentinel or Cluster). store/storetest is the one
// conformance suite both pass. Read [Store], then [Session] and [Entry].
//
// It deliberately does not authenticate, encrypt, fold or mint ids: the caller
// derives ids, so that a repeated request names the same thing.
package store
