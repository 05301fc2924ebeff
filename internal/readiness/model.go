package readiness

import (
	"errors"
	"math"

	"daybreak/internal/charging"
	"daybreak/internal/working"
)

// Cells of the coarser of two grids, multiples of four; the other is twice as
// fine. Their results are combined so that the error, which goes with the
// square of a cell, falls out: under 0.1 % is left, and under 1 % where a
// commute, alike every day, takes almost what a night gives.
const (
	coarseCells = 24
	mostCells   = 48
)

// cellsFor makes a cell no wider than what days differ by: a commute that is
// nearly the same every day asks for more cells than days of all kinds. A habit
// that changes with the charge bends the chain and asks for twice as many.
func cellsFor(in Input) int {
	n := float64(coarseCells)
	if in.Driver.Below < 1 {
		n *= 2
	}
	if d := in.Driver.Weekday; d.Fixed > 0 && d.Mean > 0 {
		usual := float64(d.Mean) * math.Exp(-d.Sigma*d.Sigma/2) * in.Car.perMile()
		n = max(n, in.Car.room()/(cellOfSpread*usual))
	}
	return 4 * int(math.Ceil(min(n, mostCells)/4))
}

// cellOfSpread is how wide a cell may be, of the varying part of a usual day.
const cellOfSpread = 0.6

// Model is one driver's year with one car, ready to be asked about options. It
// does not change and may be asked by many at once. Obtain one with [Prepare].
type Model struct {
	in     Input // without its option
	coarse grid
	fine   grid
	first  int       // the mildest month
	habit  [12]tally // with nights without end
	never  [12]tally // and plugged in every night at home
}

// Prepare works out what does not depend on the option: the days' needs on
// their grids, and the days that no home option cures. Its faults name the
// field of the input.
//
// Source: Markov chain of a finite dam; lognormal days (Transportation
// Research Part B, 2017, from memory)
func Prepare(car Car, driver Driver, year Year) (*Model, error) {
	in := Input{Car: car, Driver: driver, Year: year}
	return prepare(in, cellsFor(in))
}

func prepare(in Input, cells int) (*Model, error) {
	if err := errors.Join(in.Car.check(), in.Driver.check(), in.Year.check()); err != nil {
		return nil, err
	}
	m := &Model{in: in, coarse: gridOf(in, cells), fine: gridOf(in, 2*cells)}
	m.coarse.spread = true
	for i, month := range in.Year {
		if month.Multiplier < in.Year[m.first].Multiplier {
			m.first = i
		}
	}
	var endless nights
	for i := range endless {
		endless[i].weeknight, endless[i].weekend = math.Inf(1), math.Inf(1)
	}
	m.habit = m.solve(&endless)
	m.never = m.keen().solve(&endless)
	return m, nil
}

func gridOf(in Input, n int) grid {
	d := in.Driver
	g := grid{
		n: n, h: in.Car.room() / float64(n), other: d.Other, plugged: make([]float64, n+1),
		alike: d.Weekday == d.Weekend && d.Window.Weeknight == d.Window.Weekend && (d.Other.Share == 0 || d.Other.Energy == 0),
	}
	for i := range g.plugged {
		g.plugged[i] = in.pluggedAt(float64(i) * g.h)
		g.atWork = append(g.atWork, d.Other.Share)
	}
	at := map[[2]float64]int{} // by multiplier and kind of day
	for i, month := range in.Year {
		for kind, day := range [2]charging.Day{d.Weekday, d.Weekend} {
			if d.Weekday == d.Weekend {
				kind = 0
			}
			key := [2]float64{month.Multiplier, float64(kind)}
			which, known := at[key]
			if !known {
				which = len(g.kernels)
				at[key] = which
				g.kernels = append(g.kernels, kernelOf(needOf(day, in.Car.perMile()*month.Multiplier), in.Car.room(), n))
			}
			g.of[i][kind] = which
		}
		if d.Weekday == d.Weekend {
			g.of[i][1] = g.of[i][0]
		}
	}
	return g
}

// keen is the same driver plugging in on every night at home.
func (m *Model) keen() *Model {
	k := &Model{in: m.in, coarse: m.coarse, fine: m.fine, first: m.first}
	for _, g := range []*grid{&k.coarse, &k.fine} {
		g.plugged = make([]float64, g.n+1)
		for i := range g.plugged {
			g.plugged[i] = 1 - m.in.Driver.Away
		}
	}
	return k
}

// solve counts a year on both grids and takes the error of the cells out.
func (m *Model) solve(n *nights) [12]tally {
	rough, out := m.coarse.year(n, m.first), m.fine.year(n, m.first)
	for i := range out {
		for j := range out[i] {
			out[i][j] = max((4*out[i][j]-rough[i][j])/3, 0)
		}
		out[i][variance] = rough[i][variance] // followed on one grid only
	}
	return out
}

// nights is what an option puts into the battery.
func (m *Model) nights(o Option) nights {
	var n nights
	for i, month := range m.in.Year {
		kw := month.batteryKW(o.Wall)
		n[i].weeknight = kw * float64(m.in.Driver.Window.Weeknight)
		n[i].weekend = kw * float64(m.in.Driver.Window.Weekend)
	}
	return n
}

// Assess counts a year of one option.
//
// Source: as at Prepare
func (m *Model) Assess(o Option, sheet *working.Sheet) (Result, error) {
	if err := o.check(); err != nil {
		return Result{}, err
	}
	n := m.nights(o)
	return m.result(o, &n, sheet), nil
}

// Assess counts a year of one option for one driver; see [Prepare] for many
// options of one driver.
//
// Source: as at Prepare
func Assess(in Input, sheet *working.Sheet) (Result, error) {
	if err := in.check(); err != nil {
		return Result{}, err
	}
	m, err := Prepare(in.Car, in.Driver, in.Year)
	if err != nil {
		return Result{}, err
	}
	return m.Assess(in.Option, sheet)
}
