package charging

import (
	"io/fs"

	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Span is a value that was told, or a range around a likely one when it was
// not: unsure, and never to be shown as if it were data.
type Span[T ~float64] struct {
	Low, Likely, High T
	Told              bool
}

func told[T ~float64](v T) Span[T] { return Span[T]{v, v, v, true} }

// Priors is what cars of a class usually have. It is read-only after loading.
type Priors struct {
	byClass map[classOf]Span[unit.Kilowatts]
	sources map[classOf]*working.Source
}

type classOf struct {
	class  string
	petrol bool
}

const priorFile = "classes.csv"

// LoadPriors reads classes.csv: the average power from 240 V by the label's
// vehicle class. Each broken row is a fault with file, line and column; each
// kind of car needs a row "any".
func LoadPriors(fsys fs.FS) (Priors, error) {
	p := Priors{byClass: map[classOf]Span[unit.Kilowatts]{}, sources: map[classOf]*working.Source{}}
	columns := []string{"class", "petrol_backup", "low_kw", "likely_kw", "high_kw", "status", "source"}
	err := readTable(fsys, priorFile, columns, func(w *row) {
		c := classOf{w.text("class"), w.word("petrol_backup", "yes", "no") == "yes"}
		e := Span[unit.Kilowatts]{
			Low:    unit.Kilowatts(w.number("low_kw", 0.5, 25)),
			Likely: unit.Kilowatts(w.number("likely_kw", 0.5, 25)),
			High:   unit.Kilowatts(w.number("high_kw", 0.5, 25)),
		}
		if e.Low > e.Likely || e.Likely > e.High {
			w.refuse("likely_kw", w.fields["likely_kw"], "a value from low_kw to high_kw")
		}
		if _, twice := p.byClass[c]; twice {
			w.refuse("class", c.class, "each class once for each kind of car")
		}
		p.byClass[c], p.sources[c] = e, w.source(c.class)
	})
	if err != nil {
		return Priors{}, err
	}
	for _, c := range []classOf{{anyClass, false}, {anyClass, true}} {
		if _, there := p.byClass[c]; !there {
			w := row{file: priorFile}
			w.refuse("class", "none named any", "a row any for cars with and without petrol_backup")
			return Priors{}, w.err
		}
	}
	return p, nil
}

const anyClass = "any"

// of is the prior of a class, or of any car of its kind.
func (p Priors) of(class string, petrol bool) (Span[unit.Kilowatts], *working.Source) {
	c := classOf{class, petrol}
	if _, there := p.byClass[c]; !there {
		c.class = anyClass
	}
	return p.byClass[c], p.sources[c]
}

// onboardSteps are the ratings that on-board chargers come in.
//
// Source: US alternative-fuels vehicle file, counts by rating (computed)
var onboardSteps = [...]unit.Kilowatts{3.3, 3.7, 6.6, 7.2, 7.7, 9.6, 11, 11.5, 19.2}

// The average power of a whole charge over the on-board rating: p10 and the
// middle of 107 cars of both files (computed).
const (
	averageOfRatingLow = 0.683
	averageOfRating    = 0.964
)

// ratingFrom is the on-board rating behind an average power: the step nearest
// to the average over its usual share, from the average itself to what a car
// that slows early must have.
func ratingFrom(average Span[unit.Kilowatts]) Span[unit.Kilowatts] {
	want := average.Likely / averageOfRating
	likely := onboardSteps[0]
	for _, s := range onboardSteps {
		if abs(s-want) < abs(likely-want) {
			likely = s
		}
	}
	low, high := average.Low, min(average.High/averageOfRatingLow, 22)
	return Span[unit.Kilowatts]{Low: min(low, likely), Likely: likely, High: max(high, likely)}
}

func abs(k unit.Kilowatts) unit.Kilowatts { return max(k, -k) }
