package nec

import (
	"daybreak/internal/edition"
	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// structureRules are buildings beyond the service, and buried runs that emerge.
type structureRules struct {
	supplies        edition.Cited[float64]
	disconnect      [edition.SupplyKinds]edition.Cited[float64]
	rods            [edition.SupplyKinds]edition.Cited[float64]
	rodConductor    edition.Cited[edition.Size]
	emergeUp, below edition.Cited[float64]
}

func (u *builder) structures() {
	rows := u.rules("structures", []string{"rule", "value"}, "supplies", "disconnect_one_circuit_a", "disconnect_own_panel_a",
		"rods_one_circuit", "rods_own_panel", "rod_conductor", "emerging_height_ft", "emerging_depth_in")
	if u.err != nil {
		return
	}
	s, t := &u.b.structure, u.tables["structures"]
	for name, into := range map[string]*edition.Cited[float64]{
		"supplies": &s.supplies, "disconnect_one_circuit_a": &s.disconnect[edition.OneCircuit], "disconnect_own_panel_a": &s.disconnect[edition.OwnPanel],
		"rods_one_circuit": &s.rods[edition.OneCircuit], "rods_own_panel": &s.rods[edition.OwnPanel],
		"emerging_height_ft": &s.emergeUp, "emerging_depth_in": &s.below,
	} {
		*into = u.num(t, rows[name], "value")
		if into.Value < 0 {
			u.fail(fault.InFile(t.file, rows[name].line, "structures: "+name, into.Value, "0 or more"))
		}
	}
	size, src := u.size(t, rows["rod_conductor"], "value")
	s.rodConductor = edition.Cited[edition.Size]{Value: size, Source: src}
}

// supplyIn gives a supply within the tables; a stranger counts as a panel, which
// asks for more.
func supplyIn(s edition.Supply) edition.Supply {
	if s != edition.OneCircuit {
		return edition.OwnPanel
	}
	return s
}

// Supplies is one.
//
// Source: NEC 225.30.
func (b *Book) Supplies() edition.Cited[int] { return whole(&b.structure.supplies) }

// StructureDisconnect is 15 A for a branch circuit alone, 60 A for a panel.
//
// Source: NEC 225.31, 225.39.
func (b *Book) StructureDisconnect(s edition.Supply) edition.Cited[unit.Amps] {
	return inAmps(&b.structure.disconnect[supplyIn(s)])
}

// StructureRods is none for a single branch circuit with an equipment
// grounding conductor, two for a panel.
//
// Source: NEC 250.32(A), 250.53(A)(2).
func (b *Book) StructureRods(s edition.Supply) edition.Cited[int] {
	return whole(&b.structure.rods[supplyIn(s)])
}

// RodConductor is 6 AWG copper.
//
// Source: NEC 250.66(A).
func (b *Book) RodConductor() edition.Cited[edition.Size] { return b.structure.rodConductor }

// EmergingHeight is 8 ft above grade.
//
// Source: NEC 300.5(D)(1).
func (b *Book) EmergingHeight() edition.Cited[unit.Feet] {
	return edition.Cited[unit.Feet]{Value: unit.Feet(b.structure.emergeUp.Value), Source: b.structure.emergeUp.Source}
}

// EmergingDepth is at most 18 in below grade.
//
// Source: NEC 300.5(D)(1).
func (b *Book) EmergingDepth() edition.Cited[unit.Inches] {
	return edition.Cited[unit.Inches]{Value: unit.Inches(b.structure.below.Value), Source: b.structure.below.Source}
}

func whole(c *edition.Cited[float64]) edition.Cited[int] {
	return edition.Cited[int]{Value: int(c.Value), Source: c.Source}
}
