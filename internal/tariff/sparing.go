package tariff

import "math"

// trial is one month with charges for demand, on which caps are tried: its
// nights, those alike once with their number, and the peaks that the household
// has without charging.
type trial struct {
	t      *Tariff
	c      *Charging
	y      *year
	price  []float64
	months *[12]caps
	month  int
	nights []night
	times  []float64
	flat   [mostPeriods]float64
	timed  [mostPeriods]float64
	work   []float64
}

// sparing finds each month's caps: dear hours no higher than the household has
// them, or as little above as the nights need; then the peak as low as pays.
func (t *Tariff) sparing(c *Charging, y *year, price []float64) *[12]caps {
	var out [12]caps
	for m := range out {
		out[m] = caps{peak: math.Inf(1), dear: math.Inf(1)}
	}
	highest := 0.0
	for h := range 24 {
		highest = max(highest, float64(c.Wall)+c.house(h))
	}
	work := make([]float64, y.hours)
	for m := range y.months {
		at := trial{t: t, c: c, y: y, price: price, months: &out, month: m, work: work}
		at.gather()
		if _, enough := at.cost(out[m]); !enough {
			continue // every hour is needed
		}
		own, dearest := 0.0, 0.0
		for i, r := range t.Timed.Rates {
			if r > 0 {
				dearest = max(dearest, at.timed[i])
			}
		}
		for i := range t.Flat.Rates {
			own = max(own, at.flat[i])
		}
		dear := least(dearest, highest, func(k float64) bool { _, ok := at.cost(caps{math.Inf(1), k}); return ok })
		floor := least(own, highest, func(k float64) bool { _, ok := at.cost(caps{k, dear}); return ok })
		peak := lowest(floor, highest, func(k float64) float64 { cost, _ := at.cost(caps{k, dear}); return cost })
		out[m] = caps{peak: peak, dear: dear}
	}
	return &out
}

// gather counts the nights that begin in the month, alike ones together, and
// the household's own peaks.
func (a *trial) gather() {
	known := map[[3]int]int{}
	cal := a.y.months[a.month]
	d := 0
	a.c.nights(a.y, func(n *night) {
		h := n.first % a.y.hours
		if int(a.y.month[h]) != a.month {
			return
		}
		kind := [3]int{n.first % 24, weekendBit(cal, d), weekendBit(cal, d+1)}
		d++
		at, seen := known[kind]
		if !seen {
			at = len(a.nights)
			known[kind] = at
			a.nights, a.times = append(a.nights, *n), append(a.times, 0)
		}
		a.times[at]++
	})
	for d := range cal.days {
		for h := range 24 {
			a.peaks(&a.flat, &a.timed, a.y.from[a.month]+24*d+h, a.c.house(h))
		}
	}
}

func weekendBit(c calendar, day int) int {
	if c.weekend(day) {
		return 1
	}
	return 0
}

// peaks raises the peaks that an hour's load counts for.
func (a *trial) peaks(flat, timed *[mostPeriods]float64, hour int, load float64) {
	m := a.y.month[hour]
	cal, d := a.y.months[m], (hour-a.y.from[m])/24
	if len(a.t.Flat.Rates) > 0 {
		i := a.t.Flat.row(cal, d)[hour%24]
		flat[i] = max(flat[i], load)
	}
	if len(a.t.Timed.Rates) > 0 {
		i := a.t.Timed.row(cal, d)[hour%24]
		timed[i] = max(timed[i], load)
	}
}

// cost of the month's charging and peaks under caps, and whether its nights
// meet their departures.
func (a *trial) cost(k caps) (sum float64, enough bool) {
	before := a.months[a.month]
	a.months[a.month] = k
	flat, timed, left := a.flat, a.timed, 0.0
	for i := range a.nights {
		n := &a.nights[i]
		left += a.t.take(a.c, a.y, n, a.price, a.months, n.need, a.work)
		for j := range n.n {
			h := (n.first + j) % a.y.hours
			if kWh := a.work[h]; kWh > 0 {
				sum += a.times[i] * a.price[h] * kWh
				a.peaks(&flat, &timed, h, kWh+a.c.house(h))
				a.work[h] = 0
			}
		}
	}
	a.months[a.month] = before
	for i, r := range a.t.Flat.Rates {
		sum += r * flat[i]
	}
	for i, r := range a.t.Timed.Rates {
		sum += r * timed[i]
	}
	return sum, left < 1e-6
}

// least is the lowest value that will do, to a thousandth.
func least(low, high float64, will func(float64) bool) float64 {
	for high-low > 1e-3 {
		if mid := (low + high) / 2; will(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return high
}

// lowest is where a function that falls and then rises is least.
func lowest(low, high float64, of func(float64) float64) float64 {
	for range 24 {
		a, b := low+(high-low)/3, high-(high-low)/3
		if of(a) <= of(b) {
			high = b
		} else {
			low = a
		}
	}
	return low
}
