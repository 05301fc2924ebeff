package readiness

import "math"

// Days of the week count from Monday.
const (
	friday   = 4
	saturday = 5
)

// day walks from one morning to the next: driving, charging elsewhere, the
// night at the plug.
func (r *run) day(m, d int, t *tally) {
	k := &r.kernels[r.of[m][0]]
	if d >= saturday {
		k = &r.kernels[r.of[m][1]]
	}
	chance := r.morning(k, t)
	if r.spread {
		t[variance] += chance*(1-chance) + 2*r.covariance(k)
	}
	k.drive(r.chance, r.evening)
	r.turn(k, chance)
	if d < saturday && r.other.Share > 0 && r.other.Energy > 0 {
		r.elsewhere(t)
	}
	gain := r.nights[m].weeknight
	if d == friday || d == saturday {
		gain = r.nights[m].weekend
	}
	r.night(gain, t)
}

// morning counts what the day about to begin is worth, and returns the chance
// that it is short.
func (r *run) morning(k *kernel, t *tally) float64 {
	chance, gone, low := 0.0, 0.0, 0.0
	for i, c := range r.chance {
		chance += c * k.short[i]
		gone += c * k.missing[i]
		low += c * float64(i)
	}
	t[shortDays] += chance
	t[missing] += gone
	t[deficit] += low * r.h
	return chance
}

// turn carries the weights through the day: the count of short days goes up
// exactly where the day ends at the reserve.
func (r *run) turn(k *kernel, chance float64) {
	if !r.spread {
		return
	}
	k.drive(r.weight, r.leaning)
	for i, c := range r.evening {
		r.leaning[i] -= chance * c
	}
	r.leaning[r.n] += chance
}

// covariance of the count so far with the day that begins.
func (r *run) covariance(k *kernel) float64 {
	sum := 0.0
	for i, w := range r.weight {
		sum += w * k.short[i]
	}
	return sum
}

// elsewhere takes a weekday's charge at work or the like off the evening.
func (r *run) elsewhere(t *tally) {
	cells := float64(r.other.Energy) / r.h
	copy(r.between, r.evening)
	t[elsewhere] += r.charge(r.between, r.evening, cells, r.atWork) * r.h
	if r.spread {
		copy(r.between, r.leaning)
		r.charge(r.between, r.leaning, cells, r.atWork)
	}
}

// night charges at home and counts who leaves before it is done.
func (r *run) night(gain float64, t *tally) {
	cells := min(gain/r.h, float64(r.n))
	t[gained] += r.charge(r.evening, r.chance, cells, r.plugged) * r.h
	for i := int(cells); i <= r.n; i++ {
		c, left := r.moved[i], float64(i)-gain/r.h
		t[still] += c * min(max(left+0.5, 0), 1)
		t[lacking] += c * max(left, 0) * r.h
	}
	if r.spread {
		r.charge(r.leaning, r.weight, cells, r.plugged)
	}
}

// charge takes cells off the deficits of in, with the chance of each cell, and
// returns how many that is on average. A fraction of a cell is split among the
// nearest three, so that neither the mean nor the spread is touched; one share
// of the three is negative, and in the last cell it is two.
func (r *run) charge(in, out []float64, cells float64, chances []float64) float64 {
	moved := r.moved[:len(in)]
	chances, out = chances[:len(in)], out[:len(in)]
	for i, c := range in {
		p := chances[i] * c
		moved[i], out[i] = p, c-p
	}
	whole := int(math.Ceil(cells))
	full, taken := 0.0, 0.0 // chance of ending at no deficit, and what it took
	for i, p := range moved[:min(whole, len(moved))] {
		full += p
		taken += p * float64(i)
	}
	out[0] += full
	part := float64(whole) - cells
	if part == 0 {
		for i, p := range moved[whole:] {
			out[i] += p
			taken += p * cells
		}
		return taken
	}
	here, next, beyond := (1-part)*(2-part)/2, part*(2-part), -part*(1-part)/2
	p1, p2, rest := 0.0, 0.0, 0.0
	last := len(moved) - 1
	for i, p := range moved[whole:last] {
		out[i] += here*p + next*p1 + beyond*p2
		rest += p
		p1, p2 = p, p1
	}
	to, p := last-whole, moved[last]
	if to+2 > last {
		out[to] += (1-part)*p + next*p1 + beyond*p2
		out[to+1] += part*p + beyond*p1
	} else {
		out[to] += here*p + next*p1 + beyond*p2
		out[to+1] += next*p + beyond*p1
		out[to+2] += beyond * p
	}
	return taken + (rest+p)*cells
}
