package quote

import (
	"strings"

	"daybreak/internal/facts"
)

// Matters reports whether a leaf may change what is recommended or what it
// costs. The others are kept for other rooms and for what is said; a draw need
// not vary them.
func Matters(leaf *facts.Leaf) bool {
	return !unread[leaf.Path] && !strings.HasPrefix(leaf.Path, "second_vehicle.")
}

// unread are the leaves that no engine of a quote reads when they are drawn, and that none of the
// leaves it reads is derived from.
var unread = set(
	"vehicle.model_year", "vehicle.dc_inlet", "vehicle.dc_peak_kw", "vehicle.precondition_share",
	"vehicle.delivery_date", "vehicle.bidirectional_wish",
	"driving.weekend_miles", "driving.commute_days_per_week", "driving.long_days_per_month", "driving.long_day_miles",
	"driving.nights_away_per_month", "driving.elsewhere_days_per_week", "driving.reserve_miles",
	"driving.short_mornings_ok_per_year", "driving.second_vehicle_daily_miles",
	"place.coldest_night_f", "place.time_zone", "place.utility", "place.danger_signs",
	"place.detached_feed_awg", "place.detached_feed_material", "place.service_feed",
	"place.generator", "place.medical_equipment", "place.income_band", "place.tract_eligible",
	"outlet.age_years", "other_outlet.age_years",
	"outlet.wire_awg", "outlet.wire_material", "other_outlet.wire_awg", "other_outlet.wire_material", // read only where seen
	"equipment.listed", "equipment.networked", "equipment.setting_amps",
	"panel.tandem_present", "panel.breaker_listing_known", "panel.trouble",
	"panel.subpanel_near_car", "panel.subpanel_feeder_amps", "panel.subpanel_feeder_wires",
	"panel.ready_for_car", "panel.meter_owner", "panel.meter_location", "panel.approver",
	"route.gas_near",
	"wishes.second_vehicle", "wishes.managed_charging", "wishes.budget_minor", "wishes.timing",
	"wishes.do_it_myself", "wishes.bring_own_equipment",
)

// Assumed reports whether a quote takes what is usual for a leaf nobody told.
// The wire inside a wall it does not.
func Assumed(path string) bool {
	return !strings.HasSuffix(path, "outlet.wire_awg") && !strings.HasSuffix(path, "outlet.wire_material")
}

func set(words ...string) map[string]bool {
	out := make(map[string]bool, len(words))
	for _, w := range words {
		out[w] = true
	}
	return out
}
