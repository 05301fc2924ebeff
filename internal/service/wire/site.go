package wire

import (
	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/circuit"
	"daybreak/internal/pricing"
)

// Site is what a bill needs beside its circuit: the equipment wanted, and what
// makes the hours longer. Conditions are spelt by the price book as group and
// word.
func Site(m *daybreakv1.PriceBillRequest, job *circuit.Job, r *circuit.Result) pricing.Site {
	s := pricing.Site{Equipment: pricing.Equipment{
		Supply: pricing.ShopSupplies, Level: 2, Setting: job.Setting, Locked: true, Plug: r.Receptacle.Config,
	}}
	if job.Volts == 120 {
		s.Equipment.Level, s.Equipment.Locked, s.Equipment.Setting = 1, false, 0
	}
	if m.GetBringOwnEquipment() {
		s.Equipment.Supply = pricing.BuyerSupplies
	}
	s.Conditions = pricing.Conditions{
		House:  house(m),
		Height: condition("height", "route.work_height", int32(m.GetWorkHeight())),
		Attic:  condition("attic", "route.attic_kind", int32(m.GetAtticKind())),
		Crawl:  condition("crawl", "route.crawl_kind", int32(m.GetCrawlKind())),
		Panel:  condition("panel", "panel.crowding", int32(m.GetCrowding())),
	}
	if m.GetWallFinish() == daybreakv1.WallFinish_WALL_FINISH_BRICK {
		s.Conditions.Masonry = "masonry.block_or_brick"
	}
	switch m.GetWallFinish() {
	case daybreakv1.WallFinish_WALL_FINISH_UNSPECIFIED, daybreakv1.WallFinish_WALL_FINISH_OPEN, daybreakv1.WallFinish_WALL_FINISH_MIXED:
	default:
		s.Patching, s.Surface = true, wordAt("route.wall_finish", int32(m.GetWallFinish()))
	}
	return s
}

// house is the condition of a house by its age and walls.
func house(m *daybreakv1.PriceBillRequest) pricing.Condition {
	switch year := m.GetYearBuilt(); {
	case m.GetWallFinish() == daybreakv1.WallFinish_WALL_FINISH_PLASTER:
		return "house.knob_and_tube_or_plaster"
	case year > 0 && year < 1960:
		return "house.before_1960"
	case year > 0 && year <= 1990:
		return "house.1960_1990"
	}
	return "house.after_1990"
}

func condition(group, leaf string, place int32) pricing.Condition {
	word := wordAt(leaf, place)
	if word == "" {
		return ""
	}
	return pricing.Condition(group + "." + word)
}
