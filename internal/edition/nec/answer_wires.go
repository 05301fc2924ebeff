package nec

import (
	"fmt"
	"math"
	"strings"

	"daybreak/internal/edition"
	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// Sizes is the ladder of Chapter 9 Table 8, from 14 AWG to 500 kcmil.
func (b *Book) Sizes() []edition.Size { return b.sizes }

// SizeNamed finds "8 AWG", "8", "1/0" or "250".
func (b *Book) SizeNamed(name string) (edition.Size, error) {
	for _, s := range b.sizes {
		if s.String() == name || s.Trade() == strings.TrimSpace(name) {
			return s, nil
		}
	}
	return edition.Size{}, b.silent("conductor size "+fmt.Sprintf("%.20q", name), "sizes run from 14 AWG to 500 kcmil")
}

// known faults a size or metal of no table, which only a mistaken caller has.
func (b *Book) known(s edition.Size, m edition.Material) error {
	if s.Rank() < 1 || s.Rank() > len(b.sizes) || b.sizes[s.Rank()-1] != s {
		return fault.Invalid("size", s.String(), "a size of "+b.name)
	}
	if m != edition.Copper && m != edition.Aluminium {
		return fault.Invalid("material", m, "copper or aluminium")
	}
	return nil
}

func (b *Book) column(rating unit.Celsius) (int, error) {
	for i, c := range ratings {
		if c == rating {
			return i, nil
		}
	}
	return 0, b.silent("ampacity column of "+unit.Print(rating, 1)+" °C", "columns are 60, 75 and 90 °C")
}

// TableAmpacity is a cell of the ampacity table.
//
// Source: NEC Table 310.16 (2017: Table 310.15(B)(16)).
func (b *Book) TableAmpacity(s edition.Size, m edition.Material, rating unit.Celsius) (edition.Cited[unit.Amps], error) {
	i, err := b.column(rating)
	if err != nil {
		return edition.Cited[unit.Amps]{}, err
	}
	return b.cellAmpacity(s, m, i)
}

func (b *Book) cellAmpacity(s edition.Size, m edition.Material, column int) (edition.Cited[unit.Amps], error) {
	if err := b.known(s, m); err != nil {
		return edition.Cited[unit.Amps]{}, err
	}
	e := &b.ampacity[m][s.Rank()][column]
	if !e.there {
		return edition.Cited[unit.Amps]{}, b.silent("ampacity of "+s.String(), "the table gives none for that metal")
	}
	return e.cited, nil
}

// rule gives the method's rule when the size is one it comes in.
func (b *Book) rule(w edition.Wire) (*methodRule, error) {
	if err := b.known(w.Size, w.Material); err != nil {
		return nil, err
	}
	if w.Method < 1 || int(w.Method) >= len(b.methods) || !b.methods[w.Method].there {
		return nil, fault.Invalid("method", w.Method, "a wiring method of "+b.name)
	}
	r := &b.methods[w.Method]
	smallest := r.smallCu
	if w.Material == edition.Aluminium {
		smallest = r.smallAl
	}
	if smallest.None() || w.Size.Rank() < smallest.Rank() || (!r.largeS.None() && w.Size.Rank() > r.largeS.Rank()) {
		return nil, b.silent(w.Size.String()+" in that method", "the article does not list it in that size and metal")
	}
	return r, nil
}

// capOf is the lowest column the method allows this wire, or −1 for no limit.
func capOf(r *methodRule, s edition.Size) int {
	if r.capSmall >= 0 && s.Rank() <= r.smallTo.Rank() {
		return r.capSmall
	}
	return r.cap
}

// TerminalAmpacity is the table value of the column the terminals allow, no
// factors, not above the method's own cap.
//
// Source: NEC 110.14(C)(1), 334.80, 340.80.
func (b *Book) TerminalAmpacity(w edition.Wire, marking edition.Marking, circuit unit.Amps) (edition.Cited[unit.Amps], error) {
	r, err := b.rule(w)
	if err != nil {
		return edition.Cited[unit.Amps]{}, err
	}
	if marking != edition.Unmarked && marking != edition.Marked75 {
		return edition.Cited[unit.Amps]{}, fault.Invalid("marking", marking, "75 °C marked or not")
	}
	for i := range b.terminals {
		t := &b.terminals[i]
		if !(circuit <= t.to) {
			continue
		}
		column := t.unmarked
		if marking == edition.Marked75 {
			column = t.marked
		}
		column = min(column, r.base)
		if c := capOf(r, w.Size); c >= 0 {
			column = min(column, c)
		}
		return b.cellAmpacity(w.Size, w.Material, column)
	}
	return edition.Cited[unit.Amps]{}, fault.Invalid("circuit", float64(circuit), "a circuit rating in amperes")
}

// Ampacity is base column × ambient factor × adjustment factor, capped by the
// method. A wire that may not be used at that ambient is unanswerable.
//
// Source: NEC 310.15, 334.80, 340.80, 338.10(B)(4).
func (b *Book) Ampacity(w edition.Wire, s edition.Surroundings) (edition.Cited[unit.Amps], error) {
	r, err := b.rule(w)
	if err != nil {
		return edition.Cited[unit.Amps]{}, err
	}
	base, err := b.cellAmpacity(w.Size, w.Material, r.base)
	if err != nil {
		return base, err
	}
	ambient, err := b.ambientAt(r.base, s.Ambient)
	if err != nil {
		return edition.Cited[unit.Amps]{}, err
	}
	together, err := b.AdjustmentFactor(s.CurrentCarrying)
	if err != nil {
		return edition.Cited[unit.Amps]{}, err
	}
	out := edition.Cited[unit.Amps]{Value: base.Value * unit.Amps(ambient.Value*together.Value), Source: base.Source}
	if c := capOf(r, w.Size); c >= 0 {
		limit, err := b.cellAmpacity(w.Size, w.Material, c)
		if err != nil {
			return limit, err
		}
		if limit.Value < out.Value {
			return edition.Cited[unit.Amps]{Value: limit.Value, Source: r.source}, nil
		}
	}
	return out, nil
}

// AmbientFactor takes the band of whole degrees; a fraction above a band takes
// the hotter one.
//
// Source: NEC Table 310.15(B)(1)(1) (2020: 310.15(B)(1); 2017: 310.15(B)(2)(a)).
func (b *Book) AmbientFactor(rating, ambient unit.Celsius) (edition.Cited[float64], error) {
	i, err := b.column(rating)
	if err != nil {
		return edition.Cited[float64]{}, err
	}
	return b.ambientAt(i, ambient)
}

func (b *Book) ambientAt(column int, ambient unit.Celsius) (edition.Cited[float64], error) {
	if !unit.Finite(ambient) || ambient < -90 {
		return edition.Cited[float64]{}, fault.Invalid("ambient_c", float64(ambient), "-90 to 85 °C")
	}
	// A degree Fahrenheit converted may land a hair above its whole degree.
	const hair = 1e-9
	for i := range b.ambient {
		if band := &b.ambient[i]; ambient <= band.to+hair {
			if e := &band.factor[column]; e.there {
				return e.cited, nil
			}
			break
		}
	}
	return edition.Cited[float64]{}, b.silent("ambient factor at "+unit.Print(ambient, 1)+" °C", "that conductor may not be used there")
}

// AdjustmentFactor counts current-carrying conductors together.
//
// Source: NEC Table 310.15(C)(1) (2017: 310.15(B)(3)(a)).
func (b *Book) AdjustmentFactor(n int) (edition.Cited[float64], error) {
	if n >= 1 {
		for i := range b.adjustment {
			if n <= b.adjustment[i].to {
				return b.adjustment[i].factor, nil
			}
		}
	}
	return edition.Cited[float64]{}, fault.Invalid("current_carrying", n, "1 to 1000")
}

// RooftopAmbient adds 33 °C close above a roof in sun.
//
// Source: NEC 310.15(B)(2) (2017: 310.15(B)(3)(c)).
func (b *Book) RooftopAmbient(outdoor unit.Celsius, above unit.Inches) (edition.Cited[unit.Celsius], error) {
	if !unit.Finite(outdoor) {
		return edition.Cited[unit.Celsius]{}, fault.Invalid("outdoor_c", float64(outdoor), "a temperature in °C")
	}
	if !unit.Finite(above) || above < 0 {
		return edition.Cited[unit.Celsius]{}, fault.Invalid("above_inches", float64(above), "0 in or more")
	}
	out := edition.Cited[unit.Celsius]{Value: outdoor, Source: b.rooftop.closer.Source}
	if float64(above) < b.rooftop.closer.Value {
		out = edition.Cited[unit.Celsius]{Value: outdoor + unit.Celsius(b.rooftop.adder.Value), Source: b.rooftop.adder.Source}
	}
	return out, nil
}

// MethodSizes is what the method's article lists.
func (b *Book) MethodSizes(m edition.Method, metal edition.Material) (edition.Cited[edition.SizeRange], error) {
	if m < 1 || int(m) >= len(b.methods) || !b.methods[m].there {
		return edition.Cited[edition.SizeRange]{}, fault.Invalid("method", m, "a wiring method of "+b.name)
	}
	r := &b.methods[m]
	out := edition.SizeRange{Smallest: r.smallCu, Largest: r.largeS}
	if metal == edition.Aluminium {
		out.Smallest = r.smallAl
	}
	if out.Smallest.None() {
		return edition.Cited[edition.SizeRange]{}, b.silent("that method in that metal", "the article does not list it")
	}
	return edition.Cited[edition.SizeRange]{Value: out, Source: r.source}, nil
}

// Impedance is R·pf + X·sin(arccos pf) of the conduit's column, or the printed
// effective value. Cables and plastic use the PVC column.
//
// Source: NEC Chapter 9 Table 9 and its note 2.
func (b *Book) Impedance(w edition.Wire, raceway edition.Raceway, pf edition.PowerFactor) (edition.Cited[edition.OhmsPer1000Feet], error) {
	if err := b.known(w.Size, w.Material); err != nil {
		return edition.Cited[edition.OhmsPer1000Feet]{}, err
	}
	row := &b.impedance[w.Material][w.Size.Rank()]
	if !row.there {
		return edition.Cited[edition.OhmsPer1000Feet]{}, b.silent("impedance of "+w.Size.String(), "Table 9 ends at 250 kcmil and has no 14 AWG aluminium")
	}
	conduit := 0
	switch raceway {
	case edition.EMT, edition.RMC, edition.IMC, edition.FMC, edition.LFMC:
		conduit = 2
	case edition.AluminiumConduit:
		conduit = 1
	}
	if pf.Printed {
		return edition.Cited[edition.OhmsPer1000Feet]{Value: edition.OhmsPer1000Feet(row.z[conduit]), Source: row.source}, nil
	}
	if !(pf.Value > 0 && pf.Value <= 1) {
		return edition.Cited[edition.OhmsPer1000Feet]{}, fault.Invalid("power_factor", pf.Value, "above 0 to 1")
	}
	z := row.r[conduit]*pf.Value + row.x[conduit]*math.Sqrt(1-pf.Value*pf.Value)
	return edition.Cited[edition.OhmsPer1000Feet]{Value: edition.OhmsPer1000Feet(z), Source: row.source}, nil
}

// DropAdvice is what the informational notes advise; it is no requirement.
func (b *Book) DropAdvice() edition.Cited[edition.DropAdvice] { return b.drop }

// Area is from Chapter 9 Table 8.
func (b *Book) Area(s edition.Size) (edition.Cited[edition.CircularMils], error) {
	if err := b.known(s, edition.Copper); err != nil {
		return edition.Cited[edition.CircularMils]{}, err
	}
	return b.cmil[s.Rank()], nil
}
