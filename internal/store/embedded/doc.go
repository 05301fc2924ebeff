// Package embedded keeps the store in one bbolt file in a data directory: the
// default, with nothing to install and every acknowledged write on disk.
//
// It answers the same questions as every [store.Store]. One writer goroutine
// drains the waiting writes into one transaction, so that sixty callers share
// a flush; each write checks first and changes afterwards, and where a whole
// group fails, each is tried alone. A flush that fails is final: the kernel
// may have dropped the pages, so the store refuses all further writes.
//
// The file is made beside its place, synced and linked into it, so that no
// power cut meets a half-made file; one process holds it, and a second is told
// which. Read [Config], then [Open]. bbolt 1.5 lays down pages, flushes, writes
// the new root and flushes again.
//
// It promises nothing on network file systems, and its file never shrinks.
package embedded
