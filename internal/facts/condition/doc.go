// Package condition answers a question about a household in three values:
// true, false, or unknown with the leaves that would settle it.
//
// A condition is an expression of the Common Expression Language over the leaf
// paths of package facts, such as
//
//	place.tenure in ['rent', 'assoc'] && panel.service_amps <= 150
//
// Paths are written in full. A leaf without a value makes its part of the
// expression unknown, never a default; && and || absorb as usual, so
// "true || unknown" is true. known(path), told(path) and unsure(path) ask how
// we came by a leaf and are never unknown. Whole numbers may stand for
// quantities; dates compare as text such as '2026-11-25'; size(path) counts
// the words of a set. There are no loops, so a condition's cost is bounded by
// its length.
//
// Read [Compile], then [Condition.Eval]. [Witness] finds a household for which
// a condition holds, so that a loader can show that a branch is reachable.
// This is the only package that imports cel-go.
//
// Standard used: the Common Expression Language specification (cel.dev).
package condition
