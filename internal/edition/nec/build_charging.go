package nec

import (
	"daybreak/internal/edition"
	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

func (u *builder) charging() {
	rows := u.rules("charging_rules", []string{"rule", "value"},
		"setting_counts", "charger_floor_va", "charger_unknown_va", "individual_above_a", "individual_above_v", "disconnect_above_a",
		"coupler_indoor_in", "coupler_outdoor_in", "tamper_to_a", "weather_to_a", "plug_in_to_a")
	pilot := u.rules("pilot", []string{"rule", "value"}, "smallest_setting_a")
	if u.err != nil {
		return
	}
	c, t := &u.b.charging, u.tables["charging_rules"]
	counts := t.at(rows["setting_counts"], "value")
	switch counts.word {
	case "never", "fixed", "any":
	default:
		u.fail(fault.InFile(t.file, counts.line, "charging_rules: setting_counts", counts.word, "never, fixed or any"))
	}
	c.settingCounts, c.settingSource = counts.word, counts.source
	c.unknown = u.maybe(t, rows["charger_unknown_va"], "value")
	for name, into := range map[string]*edition.Cited[float64]{
		"charger_floor_va": &c.floor, "individual_above_a": &c.individualA, "individual_above_v": &c.individualV,
		"disconnect_above_a": &c.disconnect, "coupler_indoor_in": &c.couplerIndoor, "coupler_outdoor_in": &c.couplerOutdoor,
		"tamper_to_a": &c.tamper, "weather_to_a": &c.weather, "plug_in_to_a": &c.plugIn,
	} {
		*into = u.num(t, rows[name], "value")
	}
	c.smallestSettingA = u.num(u.tables["pilot"], pilot["smallest_setting_a"], "value")
}

func (u *builder) groundFault() {
	t := u.table("ground_fault", "row", "connection", "place", "circuit_to_a", "required")
	for _, r := range t.rows {
		f := faultRow{to: unit.Amps(u.num(t, r, "circuit_to_a").Value), source: t.at(r, "required").source}
		f.connection = word(u, t, r, "connection", map[string]edition.Connection{"plug": edition.PlugIn, "hardwired": edition.Hardwired})
		f.place = word(u, t, r, "place", map[string]edition.Place{"any": 0, "indoor": edition.Indoor, "garage": edition.Garage, "outdoor": edition.Outdoor})
		f.required = word(u, t, r, "required", map[string]edition.Requirement{"yes": edition.Required, "no": edition.NotRequired, "ahj": edition.AskAHJ, "none": 0})
		u.b.faults = append(u.b.faults, f)
	}
}

func (u *builder) faces() {
	t := u.table("receptacles", "config", "amps", "volts", "neutral", "ground", "new")
	yes := map[string]bool{"yes": true, "no": false}
	for _, r := range t.rows {
		u.b.faces = append(u.b.faces, edition.Cited[edition.Face]{
			Value: edition.Face{
				Config: r.key, Amps: unit.Amps(u.num(t, r, "amps").Value), Volts: unit.Volts(u.num(t, r, "volts").Value),
				Neutral: word(u, t, r, "neutral", yes), Ground: word(u, t, r, "ground", yes), New: word(u, t, r, "new", yes),
			},
			Source: sourceOfRow(t, r)})
	}
}

// word reads a cell that is one word of a closed list.
func word[T any](u *builder, t *table, r row, column string, list map[string]T) T {
	c := t.at(r, column)
	v, ok := list[c.word]
	if !ok {
		u.fail(fault.InFile(t.file, c.line, t.name+": "+r.key+", "+column, c.word, "a word of its list"))
	}
	return v
}
