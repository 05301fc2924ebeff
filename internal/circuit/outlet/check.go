package outlet

import (
	"slices"
	"strings"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// check refuses what is on no list and what is no number, naming the field.
func (b *Rulebook) check(e *Existing) error {
	if e.Book == nil {
		return fault.Invalid("outlet.book", "nothing", "an edition of the code book")
	}
	if e.Year < 2017 || e.Year > 2100 {
		return fault.Invalid("outlet.year", e.Year, "2017 to 2100")
	}
	if b.find(e.Receptacle) == nil {
		ids := make([]string, 0, len(b.receptacles))
		for _, r := range b.receptacles {
			ids = append(ids, r.ID)
		}
		return fault.Invalid("outlet.configuration", e.Receptacle, strings.Join(ids, ", "))
	}
	for _, w := range []struct {
		field, got string
		accepted   []string
	}{
		{"outlet.shared_with", e.Sharing, sharings},
		{"outlet.grade", e.Grade, grades},
		{"outlet.location", e.Location, locations},
		{"outlet.in_use_cover", e.InUseCover, answers},
		{"outlet.gfci", e.GFCI, answers},
		{"outlet.adapter", e.Adapter, answers},
		{"outlet.wire_awg", e.Conductor.Size, sizes},
		{"outlet.wire_material", e.Conductor.Material, metals},
		{"outlet.wire_method", e.Conductor.Method, methods},
		{"equipment.setting_means", e.Equipment.Setting, []string{"locked", "open", Unknown}},
		{"equipment.kind", e.Equipment.Kind, kinds},
	} {
		if !slices.Contains(w.accepted, w.got) {
			return fault.Invalid(w.field, w.got, strings.Join(w.accepted, ", "))
		}
	}
	return checkNumbers(e)
}

var (
	sizes   = []string{"14", "12", "10", "8", "6", "4", "3", "2", Unknown}
	metals  = []string{"cu", "al", Unknown}
	methods = []string{"nm", "raceway", Unknown}
)

func checkNumbers(e *Existing) error {
	if a, read := e.Breaker.Get(); read && !(a >= 10 && a <= 125) {
		return fault.Invalid("outlet.breaker_amps", float64(a), "10 to 125 A")
	}
	if ft, read := e.ReachShort.Get(); read && !(ft >= 0 && ft <= 400) {
		return fault.Invalid("outlet.reach_feet", float64(ft), "0 to 400 ft missing")
	}
	if a, known := e.Equipment.Max.Get(); known && !(a >= 1 && a <= 100) {
		return fault.Invalid("equipment.rating_amps", float64(a), "1 to 100 A")
	}
	if !slices.Contains([]unit.Volts{120, 208, 240}, e.Supply) {
		return fault.Invalid("outlet.volts", float64(e.Supply), "120, 208 or 240 V")
	}
	if e.Chargers < 1 || e.Chargers > 10 {
		return fault.Invalid("outlet.chargers", e.Chargers, "1 to 10")
	}
	if set, read := e.Condition.Get(); read && set>>len(conditions) != 0 {
		return fault.Invalid("outlet.condition", uint32(set), "a set made by Conditions")
	}
	return nil
}
