package quote

import (
	"daybreak/internal/facts"
	"daybreak/internal/fault"
)

// reader takes values out of a household that has every value, and remembers
// the paths where one is missing, so that no engine can meet an unknown.
type reader struct {
	missing []string
}

// take returns a leaf's value, or notes its path.
func take[T comparable](r *reader, k facts.Known[T], path string) T {
	v, ok := k.Get()
	if !ok {
		r.missing = append(r.missing, path)
	}
	return v
}

// or returns a leaf's value, or a stated word where a rule has one for not
// knowing.
func or[T comparable](k facts.Known[T], otherwise T) T {
	if v, ok := k.Get(); ok {
		return v
	}
	return otherwise
}

// err names the first leaf that had no value.
func (r *reader) err() error {
	if len(r.missing) == 0 {
		return nil
	}
	return fault.Invalid("facts."+r.missing[0], "nothing", "a told, looked-up or assumed value")
}
