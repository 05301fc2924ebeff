package caution_test

import (
	"fmt"
	"slices"
	"testing"

	"daybreak/internal/circuit/outlet"
	"daybreak/internal/edition/nec"
	"daybreak/internal/quote/caution"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

// Every finding of the list is reached by what its row says, with the gravity
// and the reach decided for it.
func TestEachFindingIsReached(t *testing.T) {
	b := book(t)
	for _, c := range []struct {
		wants string // code gravity reach slot
		facts []any
	}{
		{"D-101 halt quote ", []any{"place.danger_signs", set("buzz")}},
		{"D-102 halt quote ", []any{"panel.trouble", set("wet")}},
		{"D-103 adds_lines nothing ", []any{"panel.protection", "both"}},
		{"D-104 halt quote ", []any{"panel.trouble", set("on_failure_list")}},
		{"D-105 adds_lines nothing ", []any{"panel.service_amps", 60}},
		{"D-106 adds_lines nothing ", []any{"panel.trouble", set("double_tap")}},
		{"D-108 adds_lines nothing ", []any{"panel.trouble", set("open_front")}},
		{"D-109 adds_lines nothing ", []any{"panel.trouble", set("mixed_breakers")}},
		{"D-110 adds_lines nothing ", []any{"panel.free_full_spaces", 1}},
		{"D-111 adds_lines nothing ", []any{"panel.location", "bath"}},
		{"D-112 halt quote ", []any{"place.danger_signs", set("trips")}},
		{"D-113 halt quote ", []any{"panel.trouble", set("dims")}},
		{"D-114 adds_lines nothing ", []any{"panel.trouble", set("split_bus")}},
		{"D-115 adds_lines nothing ", []any{"panel.trouble", set("no_electrode")}},
		{"D-116 halt quote ", []any{"panel.trouble", set("drop_damaged")}},
		{"D-117 halt quote ", []any{"panel.trouble", set("meter_damaged")}},
		{"D-118 adds_lines nothing ", []any{"panel.backfeed_kind", "solar"}},
		{"D-119 halt quote ", []any{"place.generator", "unsafe"}},
		{"D-120 adds_lines nothing ", []any{"place.generator", "interlock"}},
		{"D-121 adds_lines nothing ", []any{"panel.trouble", set("told")}},
		{"D-201 halt quote outlet", []any{"outlet.condition", set("burnt")}},
		{"D-201 halt existing_outlet outlet", []any{"outlet.condition", set("hot")}},
		{"D-201 halt existing_outlet other_outlet", []any{"other_outlet.condition", set("cracked")}},
		{"D-201 halt existing_outlet outlet", []any{"outlet.present", "normal", "place.danger_signs", set("hot")}},
		{"D-202 adds_lines nothing ", []any{"place.reported", set("plate_broken")}},
		{"D-203 adds_lines nothing outlet", []any{"outlet.location", "outdoor", "outlet.in_use_cover", false}},
		{"D-203 to_be_checked nothing outlet", []any{"outlet.location", "outdoor"}},
		{"D-204 adds_lines nothing outlet", []any{"outlet.condition", set("loose_grip")}},
		{"D-205 adds_lines nothing outlet", []any{"outlet.configuration", "10-30"}},
		{"D-206 adds_lines nothing other_outlet", []any{"other_outlet.configuration", "1-15"}},
		{"D-207 adds_lines nothing outlet", []any{"outlet.configuration", "TT-30"}},
		{"D-208 halt existing_outlet outlet", []any{"outlet.configuration", "14-30", "outlet.breaker_amps", 50}},
		{"D-208 to_be_checked nothing outlet", []any{"outlet.configuration", "14-30"}},
		{"D-209 adds_lines nothing outlet", []any{"outlet.configuration", "14-50", "outlet.breaker_amps", 30}},
		{"D-210 adds_lines nothing outlet", []any{"outlet.configuration", "L14-30"}},
		{"D-211 adds_lines nothing outlet", []any{"outlet.shared_with", "welder_built"}},
		{"D-212 adds_lines nothing outlet", []any{"outlet.configuration", "6-50", "outlet.grade", "residential"}},
		{"D-213 adds_lines nothing outlet", []any{"outlet.present", "big", "outlet.gfci", false}},
		{"D-214 adds_lines nothing outlet", []any{"outlet.condition", set("painted")}},
		{"D-215 adds_lines nothing ", []any{"place.reported", set("charger_trips")}},
		{"D-216 halt existing_outlet outlet", []any{"outlet.condition", set("open_ground")}},
		{"D-301 halt existing_outlet ", []any{"place.reported", set("knob_and_tube")}},
		{"D-301 to_be_checked nothing ", []any{"place.year_built", 1930}},
		{"D-302 halt existing_outlet ", []any{"place.reported", set("aluminium_branch")}},
		{"D-302 to_be_checked nothing ", []any{"place.year_built", 1970}},
		{"D-303 halt existing_outlet outlet", []any{"outlet.breaker_amps", 50, "outlet.wire_awg", "10", "outlet.wire_material", "cu"}},
		{"D-303 to_be_checked nothing outlet", []any{"outlet.present", "big", "outlet.breaker_amps", 50}},
		{"D-304 adds_lines nothing ", []any{"place.reported", set("nm_outdoors")}},
		{"D-305 adds_lines nothing ", []any{"place.reported", set("open_splices")}},
		{"D-306 halt quote ", []any{"place.reported", set("bad_insulation")}},
		{"D-308 adds_lines nothing ", []any{"place.detached_feed", "three_wire"}},
		{"D-309 adds_lines nothing ", []any{"place.reported", set("buried_unknown")}},
		{"D-310 adds_lines nothing outlet", []any{"outlet.configuration", "14-50", "outlet.wire_material", "al"}},
		{"D-401 adds_lines nothing ", []any{"place.reported", set("floods")}},
		{"D-402 adds_lines nothing ", []any{"route.gas_near", true}},
		{"D-403 halt quote ", []any{"place.reported", set("vapour")}},
		{"D-404 adds_lines nothing ", []any{"place.reported", set("water_near")}},
		{"D-405 adds_lines nothing ", []any{"place.reported", set("bumper")}},
		{"D-406 adds_lines nothing ", []any{"place.parking", "street"}},
		{"D-407 said nothing ", []any{"place.reported", set("hot_garage")}},
		{"D-408 said nothing ", []any{"place.coldest_night_f", -20}},
		{"D-409 adds_lines nothing ", []any{"place.year_built", 1960, "route.wall_finish", "plaster"}},
		{"D-410 said nothing ", []any{"place.reported", set("combustibles")}},
		{"D-411 adds_lines nothing ", []any{"route.rated_wall", true}},
		{"D-412 adds_lines nothing ", []any{"place.dwelling_kind", "mobile"}},
		{"D-413 said nothing ", []any{"route.trench_feet", 40}},
		{"D-501 adds_lines nothing outlet", []any{"outlet.shared_with", "dryer"}},
		{"D-502 adds_lines nothing outlet", []any{"outlet.configuration", "5-15", "outlet.shared_with", "general_loaded"}},
		{"D-503 halt options_using outlet", []any{"outlet.current_use", "extension"}},
		{"D-504 halt options_using outlet", []any{"outlet.current_use", "direct", "outlet.breaker_amps", 40, "equipment.setting_amps", 40}},
		{"D-504 halt options_using outlet", []any{"outlet.current_use", "direct", "outlet.breaker_amps", 30, "equipment.setting_means", "app", "equipment.rating_amps", 40, "equipment.setting_amps", 24}},
		{"D-505 halt options_using outlet", []any{"outlet.current_use", "adapter"}},
		{"D-506 halt options_using ", []any{"place.reported", set("cable_damaged")}},
		{"D-507 halt options_using ", []any{"equipment.listed", false}},
		{"D-508 adds_lines nothing ", []any{"wishes.second_vehicle", "now", "panel.loads.evse_existing.fuel", "electric"}},
		{"D-509 halt options_using vehicle", []any{"vehicle.bidirectional_wish", true}},
		{"D-510 adds_lines nothing ", []any{"place.medical_equipment", true}},
		{"D-511 said nothing ", []any{"place.reported", set("heart_device")}},
		{"D-512 said nothing ", []any{"place.reported", set("cable_trip")}},
		{"D-513 halt quote ", []any{"place.reported", set("battery_warning")}},
		{"D-514 adds_lines nothing outlet", []any{"outlet.reach_feet", 40}},
		{"D-515 said nothing vehicle", []any{"vehicle.inlet", "J3400", "equipment.connector", "J1772"}},
		{"D-516 said nothing vehicle", []any{"vehicle.supplied_cord", "120V-240V"}},
		{"D-601 adds_lines nothing ", []any{"wishes.do_it_myself", true}},
		{"D-602 adds_lines nothing ", []any{"place.tenure", "rent", "place.permission", "refused"}},
		{"D-603 adds_lines nothing ", []any{"panel.meter_owner", "building"}},
		{"D-604 adds_lines nothing ", []any{"place.reported", set("unpermitted")}},
		{"D-605 halt quote ", []any{"other_outlet.condition", set("shock")}},
		{"D-606 said nothing ", []any{"place.reported", set("children")}},
		{"C-01 said nothing outlet", []any{"outlet.configuration", "14-50", "outlet.breaker_amps", 30}},
		{"C-02 halt existing_outlet outlet", []any{"outlet.configuration", "10-30", "outlet.breaker_amps", 40}},
		{"C-03 halt existing_outlet other_outlet", []any{"other_outlet.configuration", "5-15", "other_outlet.breaker_amps", 30}},
		{"C-04 said nothing outlet", []any{"outlet.configuration", "TT-30", "outlet.volts", 240}},
		{"C-05 said nothing ", []any{"wishes.output_amps", 48, "panel.service_amps", 60, "panel.heat_kind", "baseboard"}},
		{"C-06 said nothing ", []any{"panel.heat_breaker_amps", 180, "panel.main_breaker_amps", 100}},
		{"C-07 said nothing ", []any{"panel.protection", "fuses", "panel.main_breaker_amps", 200}},
		{"C-08 said nothing ", []any{"panel.crowding", "crowded", "panel.free_full_spaces", 2}},
		{"C-09 said nothing outlet", []any{"outlet.reach_feet", 26}},
		{"C-10 said nothing outlet", []any{"panel.loads.dryer.fuel", "gas", "outlet.shared_with", "dryer"}},
		{"C-11 said nothing outlet", []any{"place.year_built", 2004, "outlet.configuration", "10-30"}},
		{"C-12 said nothing ", []any{"driving.weekday_miles", 180, "vehicle.usable_kwh", 40, "vehicle.wall_kwh_per_100mi", 30}},
		{"C-13 said nothing ", []any{"driving.home_by_hour", 7, "driving.leave_by_hour", 18}},
		{"C-13 said nothing ", []any{"driving.home_by_hour", 23, "driving.leave_by_hour", 1}},
		{"C-14 said nothing ", []any{"panel.backfeed_kind", "none", "panel.backfeed_amps", 40}},
		{"C-15 said nothing ", []any{"place.permission", "refused", "wishes.connection", "wired"}},
	} {
		t.Run(c.wants, func(t *testing.T) {
			var got []string
			for _, f := range b.Findings(tell(t, c.facts...)) {
				got = append(got, fmt.Sprintf("%s %s %s %s", f.Code, f.Gravity, f.Halts, f.Slot))
				require.NotEmpty(t, f.Leaves, f.Code)
			}
			require.Contains(t, got, c.wants)
		})
	}
}

func TestWhatMustNotBeRaised(t *testing.T) {
	b := book(t)
	for _, c := range []struct {
		not   string
		facts []any
	}{
		{"D-209", []any{"outlet.configuration", "14-50", "outlet.breaker_amps", 40}}, // Table 210.21(B)(3)
		{"C-13", []any{"driving.home_by_hour", 18, "driving.leave_by_hour", 7}},
		{"C-13", []any{"driving.home_by_hour", 0.5, "driving.leave_by_hour", 7}},
		{"C-12", []any{"driving.weekday_miles", 180, "vehicle.usable_kwh", 11, "vehicle.wall_kwh_per_100mi", 30, "vehicle.petrol_backup", true}},
		{"D-302", []any{"place.year_built", 1990}},
		{"D-303", []any{"outlet.breaker_amps", 50, "outlet.wire_awg", "8", "outlet.wire_material", "cu", "outlet.wire_method", "raceway"}}, // Table 310.16, 75 °C
		{"D-504", []any{"outlet.current_use", "direct", "outlet.breaker_amps", 30, "equipment.setting_amps", 24, "equipment.setting_means", "restricted", "equipment.rating_amps", 40}},
		{"D-310", []any{"outlet.configuration", "5-15", "outlet.wire_material", "al"}},
	} {
		for _, f := range b.Findings(tell(t, c.facts...)) {
			require.NotEqual(t, c.not, f.Code, "%v", c.facts)
		}
	}
}

// "The wire is too thin for the breaker" is read here from the facts alone and
// there from the code book; on every wire and breaker of an outlet they agree.
func TestThinWireIsThinInBothReadings(t *testing.T) {
	b := book(t)
	ed, err := nec.Open(nec.Embedded(), 2023)
	require.NoError(t, err)
	nothing, err := outlet.Conditions()
	require.NoError(t, err)
	for _, metal := range []string{"cu", "al"} {
		for _, size := range []string{"14", "12", "10", "8", "6", "4"} {
			for _, method := range []string{"nm", "raceway"} {
				for _, breaker := range []unit.Amps{15, 20, 25, 30, 35, 40, 45, 50, 60, 70} {
					if metal == "al" && size == "14" {
						continue // Table 310.16 has none
					}
					v, err := outlet.Judge(outlet.Existing{
						Book: ed, Year: 2023, Receptacle: "14-50", Breaker: outlet.Read(breaker),
						Conductor: outlet.Conductor{Size: size, Material: metal, Method: method},
						Sharing:   "individual", Condition: outlet.Read(nothing), Grade: "industrial", Location: "garage",
						InUseCover: outlet.Unknown, ReachShort: outlet.Read[unit.Feet](0), GFCI: outlet.Yes,
						Equipment: outlet.Equipment{Setting: outlet.Unknown, Kind: outlet.Unknown}, Adapter: outlet.No, Supply: 240, Chargers: 1,
					}, nil)
					require.NoError(t, err)
					found := b.Findings(tell(t, "outlet.breaker_amps", float64(breaker), "outlet.wire_awg", size,
						"outlet.wire_material", metal, "outlet.wire_method", method))
					here := slices.ContainsFunc(found, func(f caution.Finding) bool { return f.Code == "D-303" })
					require.Equal(t, slices.Contains(v.Findings(), "D-303"), here, "%s %s %s on %v", size, metal, method, breaker)
				}
			}
		}
	}
}
