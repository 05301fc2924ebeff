package nec

import (
	"math"

	"daybreak/internal/edition"
	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

func (u *builder) protection() {
	b, t := u.b, u.table("devices", "rating", "since")
	u.ascending(t, "rating")
	for _, r := range t.rows {
		// A rating is listed from its year on.
		listed := since[bool]{int(u.num(t, r, "since").Value): true}
		if ok, _ := listed.at(u.year); ok {
			c := u.num(t, r, "rating")
			b.devices = append(b.devices, edition.Cited[unit.Amps]{Value: unit.Amps(c.Value), Source: c.Source})
		}
	}
	t = u.table("small_conductors", "size", "cu", "al")
	for m := range b.small {
		b.small[m] = bySize[entry[unit.Amps]](b)
	}
	for _, r := range t.rows {
		s, _ := u.size(t, r, "size")
		b.small[edition.Copper][s.Rank()] = amps(u.maybe(t, r, "cu"))
		b.small[edition.Aluminium][s.Rank()] = amps(u.maybe(t, r, "al"))
	}
	t = u.table("terminals", "circuit_to_a", "unmarked", "marked_75")
	u.ascending(t, "circuit_to_a")
	for _, r := range t.rows {
		b.terminals = append(b.terminals, terminalRow{
			unit.Amps(u.num(t, r, "circuit_to_a").Value), u.column(t, r, "unmarked"), u.column(t, r, "marked_75"), sourceOfRow(t, r)})
	}
	u.protectionRules()
	t = u.table("shared_receptacles", "circuit", "smallest", "largest")
	for _, r := range t.rows {
		b.sharedSizes = append(b.sharedSizes, sharedRow{
			unit.Amps(u.num(t, r, "circuit").Value), unit.Amps(u.num(t, r, "smallest").Value), unit.Amps(u.num(t, r, "largest").Value), sourceOfRow(t, r)})
	}
}

func (u *builder) protectionRules() {
	rows := u.rules("protection_rules", []string{"rule", "value"},
		"continuous_factor", "next_size_limit_a", "receptacle_share", "single_receptacle", "drop_branch_percent", "drop_total_percent")
	if u.err != nil {
		return
	}
	b, t := u.b, u.tables["protection_rules"]
	b.continuous = u.num(t, rows["continuous_factor"], "value")
	b.nextLimit = u.num(t, rows["next_size_limit_a"], "value")
	b.share = u.num(t, rows["receptacle_share"], "value")
	b.single = t.at(rows["single_receptacle"], "value").source
	branch, total := u.num(t, rows["drop_branch_percent"], "value"), u.num(t, rows["drop_total_percent"], "value")
	b.drop = edition.Cited[edition.DropAdvice]{Value: edition.DropAdvice{BranchPercent: branch.Value, TotalPercent: total.Value}, Source: branch.Source}
}

func (u *builder) grounding() {
	b, t := u.b, u.table("grounding", "device_to_a", "cu", "al")
	u.ascending(t, "device_to_a")
	for _, r := range t.rows {
		row := groundingRow{to: unit.Amps(u.num(t, r, "device_to_a").Value)}
		for m, c := range map[edition.Material]string{edition.Copper: "cu", edition.Aluminium: "al"} {
			s, src := u.size(t, r, c)
			row.size[m] = edition.Cited[edition.Size]{Value: s, Source: src}
		}
		b.grounding = append(b.grounding, row)
	}
	rows := u.rules("grounding_increase", []string{"rule", "value"}, "rounding", "proportional")
	if u.err != nil {
		return
	}
	t = u.tables["grounding_increase"]
	b.rounding = u.num(t, rows["rounding"], "value")
	b.increase = u.num(t, rows["proportional"], "value").Source
	t = u.table("electrode", "row", "cu_to_kcmil", "al_to_kcmil", "cu", "al")
	u.ascending(t, "cu_to_kcmil")
	for _, r := range t.rows {
		row := electrodeRow{source: sourceOfRow(t, r)}
		row.to[edition.Copper] = 1000 * u.num(t, r, "cu_to_kcmil").Value
		row.to[edition.Aluminium] = 1000 * u.num(t, r, "al_to_kcmil").Value
		row.sizes.Copper, _ = u.size(t, r, "cu")
		row.sizes.Aluminium, _ = u.size(t, r, "al")
		b.electrode = append(b.electrode, row)
	}
}

var racewayNames = map[string]edition.Raceway{
	"EMT": edition.EMT, "PVC40": edition.PVC40, "PVC80": edition.PVC80, "RMC": edition.RMC, "IMC": edition.IMC,
	"FMC": edition.FMC, "LFMC": edition.LFMC, "LFNC-A": edition.LFNCA, "LFNC-B": edition.LFNCB, "ENT": edition.ENT,
}

func (u *builder) racewayAreas() {
	columns := []string{"trade"}
	for name := range racewayNames {
		columns = append(columns, name)
	}
	b, t := u.b, u.table("raceways", columns...)
	for _, r := range t.rows {
		b.trades = append(b.trades, edition.Trade(r.key))
		for name, kind := range racewayNames {
			b.raceways[kind] = append(b.raceways[kind], squareInches(u.maybe(t, r, name)))
		}
	}
	b.raceways[edition.AluminiumConduit] = b.raceways[edition.RMC]
	t = u.table("fill", "conductors_to", "percent")
	if len(t.rows) != len(b.fill) {
		u.fail(fault.InFile(t.file, t.line, "fill", len(t.rows), "3 rows: one, two and more conductors"))
		return
	}
	for i, r := range t.rows {
		b.fill[i] = u.num(t, r, "percent")
	}
	rows := u.rules("raceway_rules", []string{"rule", "value"}, "nipple_percent", "count_round_up", "bend_degrees")
	if u.err != nil {
		return
	}
	t = u.tables["raceway_rules"]
	b.nipple = u.num(t, rows["nipple_percent"], "value")
	b.countUp = u.num(t, rows["count_round_up"], "value").Value
	b.bends = u.num(t, rows["bend_degrees"], "value")
}

func (u *builder) boxes() {
	b, t := u.b, u.table("box_allowances", "size", "in3")
	b.allowance = bySize[entry[edition.CubicInches]](b)
	for _, r := range t.rows {
		s, _ := u.size(t, r, "size")
		c := u.num(t, r, "in3")
		b.allowance[s.Rank()] = entry[edition.CubicInches]{edition.Cited[edition.CubicInches]{Value: edition.CubicInches(c.Value), Source: c.Source}, true}
	}
	rows := u.rules("box_rules", []string{"rule", "value"}, "clamps", "device_each_gang", "grounds_free", "grounds_further")
	if u.err != nil {
		return
	}
	t = u.tables["box_rules"]
	b.boxSource = sourceOfRow(t, rows["grounds_free"])
	b.boxRules.clamps = u.num(t, rows["clamps"], "value").Value
	b.boxRules.gang = u.num(t, rows["device_each_gang"], "value").Value
	b.boxRules.free = u.num(t, rows["grounds_free"], "value").Value
	b.boxRules.further = u.num(t, rows["grounds_further"], "value").Value
	t = u.table("boxes", "box", "in3")
	u.ascending(t, "in3")
	for _, r := range t.rows {
		c := u.num(t, r, "in3")
		b.boxes = append(b.boxes, edition.Cited[edition.Box]{Value: edition.Box{Name: r.key, Volume: edition.CubicInches(c.Value)}, Source: c.Source})
	}
}

func (u *builder) cover() {
	columns := []string{"direct", "metal", "nonmetallic", "small_gfci", "low_voltage"}
	t := u.table("cover", append([]string{"burial"}, columns...)...)
	names := []string{"general", "under_2in_concrete_in_trench", "under_building", "under_4in_exterior_slab_no_vehicles", "street_alley_parking_lot_public_drive", "dwelling_driveway_or_parking"}
	if len(t.rows) != len(names) && u.err == nil {
		u.fail(fault.InFile(t.file, t.line, "cover", len(t.rows), "6 rows"))
	}
	for i, r := range t.rows {
		if u.err == nil && r.key != names[i] {
			u.fail(fault.InFile(t.file, r.line, "cover", r.key, names[i]))
		}
		for j, c := range columns {
			e := u.maybe(t, r, c)
			if u.err != nil {
				return
			}
			cell := t.at(r, c)
			u.b.cover[i+1][j+1] = edition.Cited[edition.Cover]{Value: edition.Cover{Inches: unit.Inches(math.Max(e.cited.Value, 0)), Forbidden: !e.there}, Source: cell.source}
		}
	}
}
