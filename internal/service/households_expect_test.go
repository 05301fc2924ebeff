package service_test

import (
	"fmt"
	"math"
	"slices"
)

// expectation is one figure or word a household must, or must not, come to.
type expectation struct {
	What         string    `json:"what"`
	Is           any       `json:"is"`
	IsNot        any       `json:"is_not"`
	Alternatives []any     `json:"alternatives"`
	Near         *float64  `json:"near"`
	Within       *float64  `json:"within"`
	Between      []float64 `json:"between"`
	AtMost       *float64  `json:"at_most"`
	Has          any       `json:"has"`
	Lacks        any       `json:"lacks"`
	Absent       bool      `json:"absent"`
	Pending      string    `json:"pending"` // why it is not so yet
}

// judge says what is wrong with the reading, or nothing. An expectation that
// states no test is wrong in itself.
func (e *expectation) judge(probe map[string]any) string {
	got, there := probe[e.What]
	if e.Absent {
		if there {
			return fmt.Sprintf("got %v, want nothing", got)
		}
		return ""
	}
	if e.IsNot != nil {
		if there && same(got, e.IsNot) {
			return fmt.Sprintf("is %v", got)
		}
		return ""
	}
	if e.Lacks != nil {
		list, listed := got.([]string)
		if !listed {
			return "no list there"
		}
		if slices.Contains(list, fmt.Sprint(e.Lacks)) {
			return fmt.Sprintf("has %v", e.Lacks)
		}
		return ""
	}
	if !there {
		return "nothing there"
	}
	return e.compare(got)
}

func (e *expectation) compare(got any) string {
	number, _ := got.(float64)
	switch {
	case e.Is != nil:
		if !same(got, e.Is) && !slices.ContainsFunc(e.Alternatives, func(a any) bool { return same(got, a) }) {
			return fmt.Sprintf("got %v, want %v", got, e.Is)
		}
	case e.Near != nil && e.Within != nil:
		if math.Abs(number-*e.Near) > *e.Within+1e-9 {
			return fmt.Sprintf("got %v, want %v ± %v", got, *e.Near, *e.Within)
		}
	case len(e.Between) == 2:
		if number < e.Between[0] || number > e.Between[1] {
			return fmt.Sprintf("got %v, want %v to %v", got, e.Between[0], e.Between[1])
		}
	case e.AtMost != nil:
		if number > *e.AtMost {
			return fmt.Sprintf("got %v, want at most %v", got, *e.AtMost)
		}
	case e.Has != nil:
		if list, _ := got.([]string); !slices.Contains(list, fmt.Sprint(e.Has)) {
			return fmt.Sprintf("got %v, want %v among them", got, e.Has)
		}
	default:
		return "states no test"
	}
	return ""
}

func same(got, want any) bool { return fmt.Sprint(got) == fmt.Sprint(want) }
