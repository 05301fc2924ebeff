package facts

import "daybreak/internal/fault"

// UnknownPath faults a path that is no leaf, naming the nearest that is.
func UnknownPath(path string) *fault.Fault {
	return &fault.Fault{
		Kind: fault.KindInvalid, Reason: "UNKNOWN_PATH", Field: path,
		Accepted: "the path of a fact, such as " + NearestPath(path),
	}
}

// NearestPath returns the leaf path with the fewest letters to change from a
// misspelt one; the earlier of equals.
func NearestPath(path string) string {
	if len(path) > 2*longestText {
		path = path[:2*longestText]
	}
	best, fewest := "", 1<<30
	for _, l := range leaves {
		if d := fault.Changes(path, l.Path); d < fewest {
			best, fewest = l.Path, d
		}
	}
	return best
}
