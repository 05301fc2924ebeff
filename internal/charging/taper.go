package charging

import (
	"errors"
	"math"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// Taper is what a nearly full battery still accepts, as wall power falling
// with the state of charge: straight between its points, no limit before the
// first. The zero Taper never limits. One acceptance for all powers, rather
// than a point where each power begins to fall, keeps more power from ever
// taking longer.
type Taper struct {
	points [3]acceptance // in rising state of charge
	n      int
}

type acceptance struct {
	soc float64
	kw  float64
}

// UsualTaper limits 19.2 kW from 92.5 % on, 7.2 kW from 97 % on, leaves 2.16 kW
// at 100 % and so is not seen at Level 1.
//
// Source: constant-voltage phase from 95 to 97 % at 7 kW, from 90 to 95 % at
// 19 kW, not visible at Level 1 (from memory)
func UsualTaper() Taper {
	return Taper{points: [3]acceptance{{0.925, 19.2}, {0.97, 7.2}, {1, 2.16}}, n: 3}
}

// TaperFrom falls in a straight line from full power at a state of charge to
// a share of it at 100 %. Start is 0 to below 1, end above 0 to 1.
func TaperFrom(start float64, full unit.Kilowatts, end float64) (Taper, error) {
	err := errors.Join(
		above("wall_kw", full, 0, 50, "kW"),
		above("end_fraction", end, 0, 1, "as a share"),
	)
	if !(start >= 0 && start < 1) {
		err = errors.Join(err, fault.Invalid("soc_start_taper", start, "0 to below 1"))
	}
	if err != nil {
		return Taper{}, err
	}
	return Taper{points: [3]acceptance{{start, float64(full)}, {1, float64(full) * end}}, n: 2}, nil
}

// accepts is the most wall power taken at a state of charge.
func (t Taper) accepts(soc float64) float64 {
	if t.n == 0 || soc < t.points[0].soc {
		return math.Inf(1)
	}
	for i := 1; i < t.n; i++ {
		a, b := t.points[i-1], t.points[i]
		if soc <= b.soc {
			return a.kw + (b.kw-a.kw)*(soc-a.soc)/(b.soc-a.soc)
		}
	}
	return t.points[t.n-1].kw
}

// bends is where the power at a wall power changes its slope, in order: where
// acceptance falls below it, and the points beyond.
func (t Taper) bends(wallKW float64) (at [4]float64, n int) {
	if t.n == 0 {
		return at, 0
	}
	begin := t.points[0].soc
	for i := 1; i < t.n; i++ {
		a, b := t.points[i-1], t.points[i]
		if wallKW < a.kw && wallKW > b.kw {
			begin = a.soc + (b.soc-a.soc)*(a.kw-wallKW)/(a.kw-b.kw)
		}
	}
	if wallKW <= t.points[t.n-1].kw {
		return at, 0
	}
	at[0], n = begin, 1
	for _, p := range t.points[:t.n] {
		if p.soc > begin && p.soc < 1 {
			at[n] = p.soc
			n++
		}
	}
	return at, n
}
