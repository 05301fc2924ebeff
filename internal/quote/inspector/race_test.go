//go:build race

package inspector_test

// slower divides the households where the race detector watches.
const slower = 10
