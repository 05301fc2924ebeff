package inspector

import (
	"fmt"
	"math"
)

// hair forgives the last bits of a product such as 1.25 × 48.
const hair = 1e-7

// near reports whether two figures agree to a tolerance.
func near(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance }

func amps[T ~float64](a T) string { return fmt.Sprintf("%.1f A", float64(a)) }

// sum3 adds three amounts and more, scenario by scenario.
func sum3(parts ...[3]int64) (out [3]int64) {
	for _, p := range parts {
		for i := range out {
			out[i] += p[i]
		}
	}
	return out
}

// halfEven is a·b/c to the nearest whole number, an exact half to the even one.
// The amounts of a bill are far inside 62 bits.
func halfEven(a, b, c int64) int64 {
	n := a * b
	q, r := n/c, n%c
	if r < 0 {
		q, r = q-1, r+c
	}
	if 2*r > c || 2*r == c && q%2 != 0 {
		q++
	}
	return q
}

// halfUp is a·b/c to the nearest whole number, an exact half away from zero;
// a is not negative.
func halfUp(a, b, c int64) int64 { return (2*a*b + c) / (2 * c) }
