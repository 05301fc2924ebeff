// Package storetest is the one suite that every store passes, without
// exception: what [store.Store] promises, each promise a test by name.
//
// [Run] takes a way to open a fresh store with a clock of the test's own, and
// to open the same store once more. Nothing in it knows which store it tests,
// and it times nothing but that watchers hear within a second.
package storetest
