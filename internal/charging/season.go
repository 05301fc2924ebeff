package charging

import (
	"errors"
	"io/fs"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Reading is which line of the season's curve is read.
type Reading uint8

const (
	// Mid is the middle line, used unless something is known of the car.
	Mid Reading = iota
	// Mild is a heat pump and long trips.
	Mild
	// Harsh is resistance heat and short trips.
	Harsh
)

// Curve is consumption over outdoor temperature, as a multiple of the label's:
// straight between its points, flat outside. Obtain one with [LoadCurve].
type Curve struct {
	points []seasonPoint
}

type seasonPoint struct {
	outdoor float64
	times   [3]float64 // by Reading
	source  *working.Source
}

const curveFile = "season.csv"

var curveColumns = []string{"outdoor_f", "low", "mid", "high", "status", "source"}

// LoadCurve reads season.csv: rows of rising temperature whose three readings
// do not cross. Each broken row is a fault with file, line and column.
func LoadCurve(fsys fs.FS) (Curve, error) {
	var c Curve
	err := readTable(fsys, curveFile, curveColumns, func(w *row) {
		p := seasonPoint{outdoor: w.number("outdoor_f", -80, 140)}
		p.times[Mild] = w.number("low", 0.5, 5)
		p.times[Mid] = w.number("mid", 0.5, 5)
		p.times[Harsh] = w.number("high", 0.5, 5)
		p.source = w.source(w.fields["outdoor_f"] + " °F")
		if p.times[Mild] > p.times[Mid] || p.times[Mid] > p.times[Harsh] {
			w.refuse("mid", w.fields["mid"], "a value from low to high")
		}
		if n := len(c.points); n > 0 && p.outdoor <= c.points[n-1].outdoor {
			w.refuse("outdoor_f", w.fields["outdoor_f"], "a higher temperature than in the row above")
		}
		c.points = append(c.points, p)
	})
	if err != nil {
		return Curve{}, err
	}
	return c, nil
}

// At is the multiplier at an outdoor temperature of −80 to 140 °F.
//
// Source: AAA dynamometer study (2019), SAE J1634; curve from memory
func (c Curve) At(outdoor unit.Fahrenheit, r Reading, sheet *working.Sheet) (float64, error) {
	err := within("outdoor_f", outdoor, -80, 140, "°F")
	if r > Harsh {
		err = errors.Join(err, fault.Invalid("reading", int(r), "mid, mild or harsh"))
	}
	if len(c.points) == 0 {
		err = errors.Join(err, fault.Invalid("season", "no points", "a curve from LoadCurve"))
	}
	if err != nil {
		return 0, err
	}
	m, source := c.read(float64(outdoor), r)
	sheet.Add(working.Step{
		Rule:   "charging.season.multiplier",
		In:     working.In(working.Num("outdoor", outdoor, "°F")),
		Out:    working.Num("multiplier", m, ""),
		Source: source,
	})
	return m, nil
}

func (c Curve) read(f float64, r Reading) (float64, *working.Source) {
	first, last := c.points[0], c.points[len(c.points)-1]
	switch {
	case f <= first.outdoor:
		return first.times[r], first.source
	case f >= last.outdoor:
		return last.times[r], last.source
	}
	for i := 1; ; i++ {
		a, b := c.points[i-1], c.points[i]
		if f <= b.outdoor {
			return a.times[r] + (b.times[r]-a.times[r])*(f-a.outdoor)/(b.outdoor-a.outdoor), b.source
		}
	}
}

// Year is how a place's climate weighs on consumption over a year.
type Year struct {
	ByMonth [12]float64
	Worst   float64
	Best    float64
	Average float64            // weighted by the days of each month
	Energy  unit.KilowattHours // wall energy of the year
}

var daysInMonth = [12]float64{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

// Year spreads annual miles evenly over the days of a year of 365.
func (c Curve) Year(mean Months, annual unit.Miles, rate Consumption, r Reading) (Year, error) {
	err := errors.Join(mean.check(), within("annual_miles", annual, 0, 200000, "mi"), rate.check())
	if err != nil {
		return Year{}, err
	}
	var y Year
	for i, f := range mean {
		m, err := c.At(f, r, nil)
		if err != nil {
			return Year{}, err
		}
		y.ByMonth[i] = m
		y.Average += m * daysInMonth[i] / 365
		y.Worst = max(y.Worst, m)
		if i == 0 || m < y.Best {
			y.Best = m
		}
	}
	y.Energy = unit.KilowattHours(float64(annual) * rate.kWhPerMile() * y.Average)
	return y, nil
}
