package circuit

import (
	"daybreak/internal/edition"
	"daybreak/internal/working"
)

var burialWords = [edition.BurialKinds]string{edition.GeneralBurial: "open ground", edition.UnderTrenchConcrete: "concrete in the trench",
	edition.UnderBuilding: "a building", edition.UnderExteriorSlab: "an outside slab", edition.UnderStreet: "a street or lot",
	edition.UnderDwellingDrive: "a driveway"}

// buried says how deep each trench is and how the run is guarded where it
// comes up.
func (e *explainer) buried() {
	c := &e.res.Chosen
	rises := false
	for i := range c.Parts {
		p := &c.Parts[i]
		if p.Method == 0 {
			break
		}
		for j := c.spans[i].a; j < c.spans[i].z; j++ {
			s := &e.route[j]
			rises = rises || s.riser
			if s.Kind != Trench {
				continue
			}
			if cover, err := e.ed.CoverDepth(s.Over, p.buried()); err == nil {
				e.add("circuit.cover", working.Num("cover", cover.Value.Inches, "in"), cover.Source,
					working.Word("over", burialWords[s.Over]), working.Word("method", MethodName(p.Method, p.Raceway)))
			}
		}
	}
	if rises {
		height := e.ed.EmergingHeight()
		e.add("circuit.riser", working.Num("height", height.Value, "ft"), height.Source)
	}
	if e.job.OverRoof {
		if roof, err := e.ed.RooftopAmbient(e.job.Ambient, e.job.RoofGap); err == nil {
			e.add("circuit.roof", working.Num("ambient", roof.Value, "°C"), roof.Source,
				working.Num("outdoor", e.job.Ambient, "°C"), working.Num("above", e.job.RoofGap, "in"))
		}
	}
}

// buried is the part in the words of the cover table.
func (p *Part) buried() edition.BuriedWiring {
	if p.Method.Cable() {
		return edition.DirectBurialCable
	}
	return buriedAs(p.Raceway)
}

// structure says what another building needs where this circuit reaches it.
func (e *explainer) structure() {
	if !e.res.StructureDisconnect {
		return
	}
	least := e.ed.StructureDisconnect(edition.OneCircuit)
	e.add("circuit.structure", amp("least", least.Value), least.Source, amp("device", e.res.Device))
	rods := e.ed.StructureRods(edition.OneCircuit)
	e.add("circuit.electrode", working.Num("rods", rods.Value, ""), rods.Source)
}
