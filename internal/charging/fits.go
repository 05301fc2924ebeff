package charging

import (
	"io/fs"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Joint says whether a connector charges an inlet.
type Joint uint8

const (
	// Direct: it plugs in.
	Direct Joint = iota + 1
	// WithAdapter: through an adapter that meets Fit.Condition.
	WithAdapter
	// NoFit: not at all; nothing may be adapted.
	NoFit
)

// Word is the joint's key in words for people.
func (j Joint) Word() string {
	switch j {
	case Direct:
		return "direct"
	case WithAdapter:
		return "adapter"
	case NoFit:
		return "no"
	}
	return "unknown"
}

// Fit is how a connector meets an inlet.
type Fit struct {
	Joint     Joint
	Condition string    // a rule key of the words: what must hold
	Least     unit.Amps // what the adapter must be rated for; 0 without one
	Source    *working.Source
}

// Fits is the table of inlets and connectors, and of what must never be put
// between them. It is read-only after loading.
type Fits struct {
	rows  map[meeting]Fit
	never []Never
}

type meeting struct {
	current, inlet, connector string
}

// Never is a thing that must not stand between outlet and car; its words stand
// under its rule key.
type Never struct {
	ID     string
	Rule   string
	Source *working.Source
}

const (
	fitsFile  = "fits.csv"
	neverFile = "never.csv"
)

// LoadFits reads fits.csv and never.csv. Each broken row is a fault with file,
// line and column.
func LoadFits(fsys fs.FS) (Fits, error) {
	f := Fits{rows: map[meeting]Fit{}}
	columns := []string{"current", "inlet", "connector", "verdict", "condition", "status", "source"}
	err := readTable(fsys, fitsFile, columns, func(w *row) {
		m := meeting{
			w.word("current", "ac", "dc"),
			w.word("inlet", "J1772", "J3400", "CCS1", "CHAdeMO", "none"),
			w.word("connector", "J1772", "J3400", "CCS1", "CHAdeMO"),
		}
		one := Fit{Condition: "charging.fit." + w.text("condition"), Source: w.source(m.current + " " + m.inlet + " " + m.connector)}
		switch w.word("verdict", "direct", "adapter", "no") {
		case "direct":
			one.Joint = Direct
		case "adapter":
			one.Joint = WithAdapter
		default:
			one.Joint = NoFit
		}
		if _, twice := f.rows[m]; twice {
			w.refuse("connector", m.connector, "each pair once")
		}
		f.rows[m] = one
	})
	if err != nil {
		return Fits{}, err
	}
	err = readTable(fsys, neverFile, []string{"id", "status", "source"}, func(w *row) {
		id := w.text("id")
		f.never = append(f.never, Never{ID: id, Rule: "charging.never." + id, Source: w.source(id)})
	})
	if err != nil {
		return Fits{}, err
	}
	return f, nil
}

// AC says whether equipment with a connector charges a car with an inlet, at a
// setting of 6 to 80 A that an adapter must be rated for. Inlets and
// connectors are J1772 and J3400.
//
// Source: SAE J1772, SAE J3400
func (f Fits) AC(inlet, connector string, setting unit.Amps, sheet *working.Sheet) (Fit, error) {
	if err := within("setting_amps", setting, 6, 80, "A"); err != nil {
		return Fit{}, err
	}
	fit, there := f.rows[meeting{"ac", inlet, connector}]
	if !there {
		return Fit{}, fault.Invalid("inlet", inlet+" with "+connector, "J1772 or J3400 for both inlet and connector")
	}
	if fit.Joint == WithAdapter {
		fit.Least = setting
	}
	show(sheet, fit, inlet, connector)
	return fit, nil
}

// DC says whether a fast charger's connector charges a car's inlet, for words
// about charging away from home. Inlets are CCS1, J3400, CHAdeMO or none.
//
// Source: SAE J1772, SAE J3400, CHAdeMO
func (f Fits) DC(inlet, connector string, sheet *working.Sheet) (Fit, error) {
	fit, there := f.rows[meeting{"dc", inlet, connector}]
	if !there {
		return Fit{}, fault.Invalid("dc_inlet", inlet+" with "+connector, "CCS1, J3400, CHAdeMO or none; connector CCS1, J3400 or CHAdeMO")
	}
	show(sheet, fit, inlet, connector)
	return fit, nil
}

// Never lists what must not stand between outlet and car.
func (f Fits) Never() []Never { return append([]Never(nil), f.never...) }

func show(sheet *working.Sheet, fit Fit, inlet, connector string) {
	sheet.Add(working.Step{
		Rule:   fit.Condition,
		In:     working.In(working.Word("inlet", inlet), working.Word("connector", connector), working.Num("current", fit.Least, "A")),
		Out:    working.Word("joint", fit.Joint.Word()),
		Source: fit.Source,
	})
}
