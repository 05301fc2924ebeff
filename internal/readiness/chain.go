package readiness

import "math"

// tally is what is counted over days, by these names; for a month the sums of
// its days.
type tally [counted]float64

const (
	shortDays = iota // chance of being short
	missing          // energy missing, kWh
	deficit          // morning deficit, kWh
	gained           // energy put in at home, kWh
	elsewhere        // energy put in elsewhere on purpose, kWh
	still            // chance of leaving while it still charges
	lacking          // energy not yet in at such departures, kWh
	variance         // of the count of short days
	counted
)

func (t *tally) add(o *tally, times float64) {
	for i := range t {
		t[i] += times * o[i]
	}
}

// nights is what an option puts back, month by month, in kWh.
type nights [12]struct{ weeknight, weekend float64 }

// grid is a driver's year on n cells.
type grid struct {
	n       int
	h       float64 // kWh of a cell
	kernels []kernel
	of      [12][2]int // of each month: weekday's and weekend's kernel
	plugged []float64  // chance of being plugged in at home after an evening at that cell
	atWork  []float64  // chance of being charged elsewhere, the same at each cell
	other   Elsewhere
	alike   bool // every day of a month is like the next
	spread  bool // follow the variance of the count too
}

// run is one walk through the year.
type run struct {
	*grid
	nights  *nights
	chance  []float64 // of each morning's deficit
	weight  []float64 // of each: mean of (short days so far − their mean), where it holds
	evening []float64
	leaning []float64 // weight of the evening
	between []float64
	before  []float64 // the chances a period ago
	past    []float64 // the weights a period ago
	moved   []float64 // chance of each evening's deficit being charged
}

const (
	settled   = 1e-7 // change of all chances together at which nothing moves any more
	closed    = 1e-4 // the same between the ends of a year; its trace is gone within weeks
	mostYears = 6    // walked until the year closes on itself
)

// weeksOf lets 52 weeks stand for the 12 months, so that each walk through the
// calendar keeps its step whatever day the year begins on.
var weeksOf = [12]int{4, 4, 5, 4, 5, 4, 4, 5, 4, 4, 5, 4}

var daysOf = [12]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

// year counts each month of a year that closes on itself. It begins in the
// mildest month, where a past is soonest forgotten.
func (g *grid) year(n *nights, first int) [12]tally {
	r := g.begin(n)
	for range 400 {
		if _, moved := r.period((first + 11) % 12); moved < settled {
			break
		}
	}
	var months [12]tally
	begin := make([]float64, g.n+1)
	for range mostYears {
		copy(begin, r.chance)
		clear(r.weight)
		for i := range 12 {
			m := (first + i) % 12
			months[m] = r.month(m)
		}
		if distance(begin, r.chance) < closed {
			break
		}
	}
	return months
}

// begin stands on the morning of a full battery.
func (g *grid) begin(n *nights) *run {
	size := g.n + 1
	room := make([]float64, 8*size)
	r := &run{
		grid: g, nights: n, chance: room[:size], weight: room[size : 2*size],
		evening: room[2*size : 3*size], leaning: room[3*size : 4*size],
		between: room[4*size : 5*size], before: room[5*size : 6*size], moved: room[6*size : 7*size],
		past: room[7*size:],
	}
	r.chance[0] = 1
	return r
}

// month counts the days of a month. Once a period changes nothing any more,
// what is left of the month is like it.
func (r *run) month(m int) tally {
	whole, times := weeksOf[m], float64(daysOf[m])/7
	if r.alike {
		whole, times = daysOf[m], float64(daysOf[m])
	}
	var sum, last tally
	done := 0.0
	for range whole {
		var moved float64
		last, moved = r.period(m)
		if done+1 > times { // a fifth week only to keep step
			break
		}
		sum.add(&last, 1)
		done++
		if moved < settled {
			break
		}
	}
	sum.add(&last, times-done)
	return sum
}

// period walks a day, or a week from Monday when days differ, and says how far
// the chances, and the weights where they are followed, have moved.
func (r *run) period(m int) (tally, float64) {
	var t tally
	copy(r.before, r.chance)
	copy(r.past, r.weight)
	days := 7
	if r.alike {
		days = 1
	}
	for d := range days {
		r.day(m, d, &t)
	}
	moved := distance(r.before, r.chance)
	if r.spread { // the count keeps its memory as long as the deficits do
		moved += distance(r.past, r.weight)
	}
	return t, moved
}

func distance(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += math.Abs(a[i] - b[i])
	}
	return sum
}
