package nec

import (
	"daybreak/internal/edition"
	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

var ratings = [3]unit.Celsius{60, 75, 90}

func (u *builder) conductors() {
	b, t := u.b, u.table("conductors", "size", "cmil", "bare_in2", "thwn2_in2", "xhhw2_in2")
	u.ascending(t, "cmil")
	b.sizes = make([]edition.Size, len(t.rows))
	for i, r := range t.rows {
		b.sizes[i] = edition.NewSize(i+1, r.key)
	}
	b.cmil = bySize[edition.Cited[edition.CircularMils]](b)
	for i := range b.area {
		b.area[i] = bySize[entry[edition.SquareInches]](b)
	}
	for i, r := range t.rows {
		c := u.num(t, r, "cmil")
		b.cmil[i+1] = edition.Cited[edition.CircularMils]{Value: edition.CircularMils(c.Value), Source: c.Source}
		for k, column := range []string{"thwn2_in2", "xhhw2_in2", "bare_in2"} {
			b.area[k][i+1] = squareInches(u.maybe(t, r, column))
		}
	}
}

func squareInches(e entry[float64]) entry[edition.SquareInches] {
	return entry[edition.SquareInches]{edition.Cited[edition.SquareInches]{Value: edition.SquareInches(e.cited.Value), Source: e.cited.Source}, e.there}
}

func (u *builder) ampacity() {
	b, t := u.b, u.table("ampacity", "size", "cu_60", "cu_75", "cu_90", "al_60", "al_75", "al_90")
	for m := range b.ampacity {
		b.ampacity[m] = bySize[[3]entry[unit.Amps]](b)
	}
	for _, r := range t.rows {
		s, _ := u.size(t, r, "size")
		for i, c := range []string{"60", "75", "90"} {
			b.ampacity[edition.Copper][s.Rank()][i] = amps(u.maybe(t, r, "cu_"+c))
			b.ampacity[edition.Aluminium][s.Rank()][i] = amps(u.maybe(t, r, "al_"+c))
		}
	}
}

func (u *builder) factors() {
	b, t := u.b, u.table("ambient", "to_c", "c_60", "c_75", "c_90")
	u.ascending(t, "to_c")
	for _, r := range t.rows {
		band := ambientBand{to: unit.Celsius(u.num(t, r, "to_c").Value)}
		for i, c := range []string{"c_60", "c_75", "c_90"} {
			band.factor[i] = u.maybe(t, r, c)
		}
		b.ambient = append(b.ambient, band)
	}
	t = u.table("adjustment", "to_conductors", "factor")
	u.ascending(t, "to_conductors")
	for _, r := range t.rows {
		b.adjustment = append(b.adjustment, adjustmentRow{int(u.num(t, r, "to_conductors").Value), u.num(t, r, "factor")})
	}
	rows := u.rules("rooftop", []string{"rule", "value"}, "closer_than_in", "adder_c")
	if u.err == nil {
		t = u.tables["rooftop"]
		b.rooftop.closer = u.num(t, rows["closer_than_in"], "value")
		b.rooftop.adder = u.num(t, rows["adder_c"], "value")
	}
}

var methodNames = map[string]edition.Method{
	"NM-B": edition.NMB, "UF-B": edition.UFB, "MC": edition.MC, "SER": edition.SER,
	"THWN-2": edition.THWN2, "XHHW-2": edition.XHHW2, "THWN wet": edition.THWNWet,
}

func (u *builder) methods() {
	b, t := u.b, u.table("methods", "method", "base_c", "cap_c", "cap_small_c", "cap_small_to", "smallest_cu", "smallest_al", "largest")
	for _, r := range t.rows {
		m, ok := methodNames[r.key]
		if !ok {
			u.fail(fault.InFile(t.file, r.line, "methods", r.key, "a wiring method"))
			return
		}
		rule := methodRule{there: true, source: t.at(r, "base_c").source}
		rule.base = u.column(t, r, "base_c")
		rule.cap = u.column(t, r, "cap_c")
		rule.capSmall = u.column(t, r, "cap_small_c")
		rule.smallTo, _ = u.size(t, r, "cap_small_to")
		rule.smallCu, _ = u.size(t, r, "smallest_cu")
		rule.smallAl, _ = u.size(t, r, "smallest_al")
		rule.largeS, _ = u.size(t, r, "largest")
		b.methods[m] = rule
	}
	t = u.table("cable_grounds", "size", "ground")
	b.grounds = bySize[entry[edition.Size]](b)
	for _, r := range t.rows {
		s, _ := u.size(t, r, "size")
		g, src := u.size(t, r, "ground")
		b.grounds[s.Rank()] = entry[edition.Size]{edition.Cited[edition.Size]{Value: g, Source: src}, true}
	}
	t = u.table("ser_grounds", "size", "ground")
	b.serGrounds = bySize[entry[edition.Size]](b)
	for _, r := range t.rows {
		s, _ := u.size(t, r, "size")
		g, src := u.size(t, r, "ground")
		b.serGrounds[s.Rank()] = entry[edition.Size]{edition.Cited[edition.Size]{Value: g, Source: src}, true}
	}
	t = u.table("sleeves", "size", "two", "three")
	b.sleeves = bySize[[2]entry[edition.Trade]](b)
	for _, r := range t.rows {
		s, _ := u.size(t, r, "size")
		for i, column := range []string{"two", "three"} {
			c := t.at(r, column)
			b.sleeves[s.Rank()][i] = entry[edition.Trade]{edition.Cited[edition.Trade]{Value: edition.Trade(c.word), Source: c.source}, !c.none}
		}
	}
}

// column reads a conductor rating as a column number, −1 for none.
func (u *builder) column(t *table, r row, name string) int {
	e := u.maybe(t, r, name)
	if !e.there {
		return -1
	}
	for i, c := range ratings {
		if float64(c) == e.cited.Value {
			return i
		}
	}
	u.fail(fault.InFile(t.file, r.line, t.name+": "+name, e.cited.Value, "60, 75 or 90"))
	return -1
}

func (u *builder) impedance() {
	b := u.b
	conduits := []string{"pvc", "aluminium", "steel"}
	columns := []string{"size"}
	for _, k := range []string{"x", "r_cu", "z_cu", "r_al", "z_al"} {
		for _, c := range conduits {
			columns = append(columns, k+"_"+c)
		}
	}
	t := u.table("impedance", columns...)
	for m := range b.impedance {
		b.impedance[m] = bySize[wireImpedance](b)
	}
	for _, r := range t.rows {
		s, _ := u.size(t, r, "size")
		for m, metal := range map[edition.Material]string{edition.Copper: "cu", edition.Aluminium: "al"} {
			w := wireImpedance{there: true, source: sourceOfRow(t, r)}
			for i, c := range conduits {
				x, rr, z := u.maybe(t, r, "x_"+c), u.maybe(t, r, "r_"+metal+"_"+c), u.maybe(t, r, "z_"+metal+"_"+c)
				w.there = w.there && x.there && rr.there && z.there
				w.x[i], w.r[i], w.z[i] = x.cited.Value, rr.cited.Value, z.cited.Value
			}
			b.impedance[m][s.Rank()] = w
		}
	}
}

func sourceOfRow(t *table, r row) *working.Source {
	src := *r.cells[0].source
	src.Cell = r.key
	return &src
}
