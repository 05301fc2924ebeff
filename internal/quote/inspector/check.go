package inspector

import (
	"slices"

	"daybreak/internal/facts"
	"daybreak/internal/fault"
	"daybreak/internal/working"

	"go.yaml.in/yaml/v3"
)

// check holds the tables to what the rules rely on: every table has a section
// and a known status for every edition, ladders rise, names are known.
func (t *tables) check(raw []byte) error {
	var doc yaml.Node
	if err := yaml.Unmarshal(raw, &doc); err != nil || len(doc.Content) == 0 {
		return fault.InFile(file, 0, "tables", err, "a mapping of tables")
	}
	root := doc.Content[0]
	line := func(name string) int {
		for i := 0; i+1 < len(root.Content); i += 2 {
			if root.Content[i].Value == name {
				return root.Content[i].Line
			}
		}
		return 0
	}
	if len(t.Editions) == 0 || !slices.IsSorted(t.Editions) {
		return fault.InFile(file, line("editions"), "editions", t.Editions, "years, oldest first")
	}
	for name, c := range t.cites() {
		for _, year := range t.Editions {
			if s := working.Status(c.Status.in(year)); !s.Known() {
				return fault.InFile(file, line(name), name+".status", string(s), "one of the five words, from the first edition on")
			}
		}
		if !c.Section.ordered(t.Editions[0]) {
			return fault.InFile(file, line(name), name+".section", "", "a section for every edition")
		}
	}
	for _, c := range []struct {
		name, want string
		holds      bool
	}{
		{"devices", "standard ratings, rising", rises(t.Devices.Amps)},
		{"conductors", "sizes with rising ampacity and area, and falling resistance", t.ladderRises()},
		{"ambient", "temperatures that rise and shares that fall", t.ambientFalls()},
		{"ground", "devices that rise, each with a size of the conductor table", t.groundRises()},
		{"cable", "sizes of the conductor table", t.cu(t.Cable.Smallest) != nil && t.cu(t.Cable.NMLargest) != nil && t.cu(t.Cable.UFLargest) != nil},
		{"raceways", "areas above 0", t.areasHold()},
		{"burial", "inches above 0", min(t.Burial.Cable.Earth, t.Burial.Cable.Drive, t.Burial.Metal.Earth, t.Burial.Metal.Drive, t.Burial.Plastic.Earth, t.Burial.Plastic.Drive) > 0},
		{"fill", "shares of 31, 40 and 53 in their places", t.Fill.Two < t.Fill.More && t.Fill.More < t.Fill.One && t.Fill.One <= 100},
		{"drop", "above 0 to 10", t.Drop.Percent > 0 && t.Drop.Percent <= 10},
		{"continuous", "1 to 2", t.Continuous.Factor >= 1 && t.Continuous.Factor <= 2},
		{"setting", "never, fixed or any", t.countsHold()},
		{"disconnect", "an edition's limit", t.Disconnect.Above.ordered(t.Editions[0])},
		{"ground_fault", "yes, no or ahj for every edition, a last row for each connection", t.groundFaultHolds()},
		{"receptacles", "faces with amperes and volts", t.facesHold()},
		{"lighting", "VA above 0 from the first edition on", t.Lighting.PerSqFt.in(t.Editions[0]) > 0 && t.Lighting.SmallAppliance > 0 && t.Lighting.Laundry > 0},
		{"optional", "a bracket and shares above 0", t.Optional.First.in(t.Editions[0]) > 0 && share(t.Optional.Rest) && share(t.Optional.Few) && share(t.Optional.Many) && share(t.Optional.Strips)},
		{"existing", "a bracket and a share", t.Existing.First > 0 && share(t.Existing.Rest)},
		{"measured", "factors above 0 and intervals", t.Measured.Factor >= 1 && share(t.Measured.PowerFactor) && len(t.Measured.Intervals) > 0},
		{"mobile", "a bracket and shares", t.Mobile.First > 0 && share(t.Mobile.Rest) && len(t.Mobile.RangeRows) > 0},
		{"individual", "an edition's limits", t.Individual.Amps.ordered(t.Editions[0]) && t.Individual.Volts.ordered(t.Editions[0])},
		{"coupler", "heights above 0, the lower indoors", t.Coupler.Indoor > 0 && t.Coupler.Indoor <= t.Coupler.Outdoor},
		{"weather", "limits in amperes", t.Weather.ResistantTo.ordered(t.Editions[0]) && t.Weather.TamperTo > 0},
		{"choice", "settings in amperes and a share", t.Choice.Usual > 0 && t.Choice.Managed > 0 && t.Choice.Grow > 0 && share(t.Choice.Spare)},
		{"halts", "leaves of the facts with words of their lists", t.haltsHold()},
		{"outlets", "words of the outlet's condition and use", t.outletsHold()},
		{"firm", "paths of leaves", t.firmHolds()},
		{"charger", "a least load for every edition", t.Charger.Least.ordered(t.Editions[0]) && t.Charger.Bracket.ordered(t.Editions[0])},
		{"management", "1 to 2", t.Management.Factor >= 1 && t.Management.Factor <= 2},
	} {
		if !c.holds {
			return fault.InFile(file, line(c.name), c.name, "", c.want)
		}
	}
	return nil
}

func (t *tables) cites() map[string]*cite {
	return map[string]*cite{
		"devices": &t.Devices.cite, "conductors": &t.Conductors.cite, "ambient": &t.Ambient.cite, "air": &t.Air.cite,
		"small_conductors": &t.Small.cite, "terminals": &t.Terminals.cite, "cable": &t.Cable.cite, "cable_ground": &t.CableGround.cite,
		"ground": &t.Ground.cite, "raceways": &t.Raceways.cite, "burial": &t.Burial.cite, "fill": &t.Fill.cite, "drop": &t.Drop.cite,
		"continuous": &t.Continuous.cite, "setting": &t.Setting.cite, "plug_in": &t.PlugIn.cite, "disconnect": &t.Disconnect.cite,
		"ground_fault": &t.GroundFault.cite, "receptacles": &t.Receptacles.cite, "lighting": &t.Lighting.cite, "optional": &t.Optional.cite,
		"existing": &t.Existing.cite, "measured": &t.Measured.cite, "mobile": &t.Mobile.cite, "charger": &t.Charger.cite,
		"management": &t.Management.cite, "individual": &t.Individual.cite, "coupler": &t.Coupler.cite, "weather": &t.Weather.cite, "choice": &t.Choice.cite,
		"halts": &t.Halts.cite, "outlets": &t.Outlets.cite, "firm": &t.Firm.cite,
	}
}

func share(x float64) bool { return x > 0 && x <= 1 }

func rises(xs []float64) bool {
	for i := range xs {
		if i > 0 && xs[i] <= xs[i-1] {
			return false
		}
	}
	return len(xs) > 0 && xs[0] > 0
}

func (t *tables) ladderRises() bool {
	rows := t.Conductors.Rows
	for i := range rows {
		c := &rows[i]
		if !(c.cu60 > 0 && c.cu60 < c.cu75 && c.cu75 < c.cu90 && c.al60 <= c.al75 && c.rPVC > 0 && c.rSteel > 0 && c.thwn > 0 && c.xhhw > 0) {
			return false
		}
		if i > 0 {
			b := &rows[i-1]
			if c.cu60 <= b.cu60 || c.cu75 <= b.cu75 || c.cu90 <= b.cu90 || c.cmil <= b.cmil || c.thwn <= b.thwn || c.xhhw <= b.xhhw || c.rPVC >= b.rPVC {
				return false
			}
		}
	}
	return len(rows) > 0
}

func (t *tables) ambientFalls() bool {
	rows := t.Ambient.Rows
	for i := 1; i < len(rows); i++ {
		for k := 1; k < 4; k++ {
			if rows[i][k] > rows[i-1][k] || rows[i][k] < 0 {
				return false
			}
		}
		if rows[i][0] <= rows[i-1][0] {
			return false
		}
	}
	return len(rows) > 0
}

func (t *tables) groundRises() bool {
	rows := t.Ground.Rows
	for i := range rows {
		if t.cu(rows[i].size) == nil || i > 0 && rows[i].to <= rows[i-1].to {
			return false
		}
	}
	return len(rows) > 0
}

func (t *tables) areasHold() bool {
	for _, kind := range []string{"EMT", "PVC 40", "PVC 80", "RMC"} {
		if len(t.Raceways.Areas[kind]) == 0 {
			return false
		}
		for _, a := range t.Raceways.Areas[kind] {
			if !(a > 0) {
				return false
			}
		}
	}
	return true
}

func (t *tables) countsHold() bool {
	for _, year := range t.Editions {
		if !slices.Contains([]string{"never", "fixed", "any"}, t.Setting.Counts.in(year)) {
			return false
		}
	}
	return t.Setting.Least > 0
}

func (t *tables) groundFaultHolds() bool {
	last := map[string]bool{}
	for i := range t.GroundFault.Rows {
		r := &t.GroundFault.Rows[i]
		for _, year := range t.Editions {
			if !slices.Contains([]string{"yes", "no", "ahj"}, r.required.in(year)) {
				return false
			}
		}
		last[r.connection] = r.place == "any" && r.to >= 1000
	}
	return last["plug"] && last["hardwired"]
}

func (t *tables) facesHold() bool {
	for i := range t.Receptacles.Rows {
		if f := &t.Receptacles.Rows[i]; f.amps <= 0 || f.volts != 120 && f.volts != 240 {
			return false
		}
	}
	return len(t.Receptacles.Rows) > 0
}

// wordsOf reports whether a leaf knows every word.
func wordsOf(path string, words []string) bool {
	leaf, ok := facts.LeafAt(path)
	for _, w := range words {
		ok = ok && slices.Contains(leaf.Words, w)
	}
	return ok && len(words) > 0
}

func (t *tables) haltsHold() bool {
	for path, words := range t.Halts.When {
		if !wordsOf(path, words) {
			return false
		}
	}
	return len(t.Halts.When) > 0
}

func (t *tables) outletsHold() bool {
	o := &t.Outlets
	return wordsOf("outlet.condition", o.Stops) && wordsOf("outlet.condition", o.Loose) && wordsOf("outlet.condition", o.Ends) &&
		wordsOf("outlet.current_use", o.Cords) && o.Shared > 0 && o.LightDuty > 0
}

func (t *tables) firmHolds() bool {
	for _, path := range t.Firm.Circuit {
		if _, ok := facts.LeafAt(path); !ok {
			return false
		}
	}
	for _, leaf := range t.Firm.Outlet {
		if _, ok := facts.LeafAt("outlet." + leaf); !ok {
			return false
		}
	}
	return len(t.Firm.Circuit) > 0 && len(t.Firm.Outlet) > 0
}
