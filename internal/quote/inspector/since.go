package inspector

import (
	"slices"

	"go.yaml.in/yaml/v3"
)

// since is a value by edition: each holds from the edition it came in with.
type since[T any] struct {
	from  []int
	value []T
}

// UnmarshalYAML reads one value for all editions, or a mapping from edition.
func (s *since[T]) UnmarshalYAML(n *yaml.Node) error {
	if n.Kind != yaml.MappingNode {
		var v T
		if err := n.Decode(&v); err != nil {
			return err
		}
		s.from, s.value = []int{0}, []T{v}
		return nil
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		var year int
		var v T
		if err := n.Content[i].Decode(&year); err != nil {
			return err
		}
		if err := n.Content[i+1].Decode(&v); err != nil {
			return err
		}
		s.from, s.value = append(s.from, year), append(s.value, v)
	}
	return nil
}

// in is the value of an edition; the zero value before the first.
func (s *since[T]) in(year int) (v T) {
	for i, from := range s.from {
		if from <= year {
			v = s.value[i]
		}
	}
	return v
}

// ordered reports whether editions stand in order and the first is covered.
func (s *since[T]) ordered(first int) bool {
	return len(s.from) > 0 && s.from[0] <= first && slices.IsSorted(s.from)
}
