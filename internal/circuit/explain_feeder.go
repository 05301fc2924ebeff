package circuit

import (
	"daybreak/internal/edition"
	"daybreak/internal/working"
)

// explainFeeder writes the working of a feeder.
func (d *design) explainFeeder(sheet *working.Sheet) {
	e := explainer{design: d, sheet: sheet}
	r := &d.res
	factor := d.ed.ContinuousFactor()
	e.add("circuit.feeder.demand", amp("demand", r.Design), factor.Source, working.Num("factor", factor.Value, ""),
		amp("charger", r.Load), amp("other", d.other))
	if r.Device == 0 {
		return
	}
	if next, err := d.ed.NextDevice(r.Device); err == nil {
		e.add("circuit.feeder.device", amp("device", r.Device), next.Source, amp("demand", r.Design), amp("least", leastFeeder))
	}
	if r.Outcome != Designed {
		return
	}
	e.wires()
	e.drop()
	e.buried()
	if d.fed.Main {
		least := d.ed.StructureDisconnect(edition.OwnPanel)
		e.add("circuit.structure", amp("least", least.Value), least.Source, amp("device", r.Device))
		rods := d.ed.StructureRods(edition.OwnPanel)
		e.add("circuit.electrode", working.Num("rods", rods.Value, ""), rods.Source)
		supplies := d.ed.Supplies()
		e.add("circuit.supplies", working.Num("supplies", supplies.Value, ""), supplies.Source, working.Num("old", d.fed.Removed, ""))
	}
}
