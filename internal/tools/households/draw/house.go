package draw

import (
	"strings"

	"daybreak/internal/facts"
)

// house deals the home, the car and the driver.
func (d *dealer) house() {
	d.often(0.9, "place.postal_code", pick(d, d.books.Jurisdictions.PostalCodes()...))
	d.often(0.8, "place.code_edition", pick(d, d.editions()...))
	d.often(0.5, "place.jurisdiction", pick(d, "alder-bay-city", "harbor-point", "alder-county", "gull-islands"))
	d.often(0.9, "place.dwelling_kind", d.word("place.dwelling_kind"))
	d.often(0.8, "place.tenure", pick(d, "own", "own", "own", "rent", "assoc"))
	d.often(0.6, "place.permission", pick(d, "written", "written", "written", "written", "written", "asked", "asked", "not_yet", "not_yet", "refused"))
	d.often(0.6, "place.year_built", d.between(1900, 2024))
	d.often(0.9, "place.floor_area_sqft", d.between(400, 4500))
	d.often(0.8, "place.parking", pick(d, "attached", "attached", "attached", "detached", "carport", "driveway", "driveway", "shared", "shared", "street"))
	d.often(0.8, "place.mounting", d.word("place.mounting"))
	d.often(0.5, "place.detached_feed", pick(d, "none", "none", "two_wire", "three_wire", "four_wire"))
	d.often(0.8, "place.danger_signs", d.some("place.danger_signs", 0.9))
	d.often(0.5, "place.reported", d.some("place.reported", 0.85))
	d.often(0.3, "place.generator", pick(d, "none", "none", "interlock", "transfer", "unsafe"))
	d.often(0.8, "vehicle.archetype", d.word("vehicle.archetype"))
	d.often(0.3, "vehicle.onboard_charger_kw", pick(d, 3.5, 7.2, 9.6, 11.5, 19.2))
	d.often(0.7, "driving.weekday_miles", d.between(5, 120))
	d.often(0.4, "wishes.connection", d.word("wishes.connection"))
	d.often(0.3, "wishes.output_amps", pick(d, 16.0, 24, 32, 40, 48, 64, 80))
	d.often(0.3, "wishes.networked", d.word("wishes.networked"))
}

// editions are those served, the present ones more often.
func (d *dealer) editions() []string {
	out := []string{"2020", "2023", "2020", "2023"}
	for _, year := range []int{2017, 2026} {
		if _, err := d.books.Edition(year); err == nil {
			out = append(out, map[int]string{2017: "2017", 2026: "2026"}[year])
		}
	}
	return out
}

// panel deals the service, its parts and what they carry; half of the homes are
// easy ones, the others crowd their service.
func (d *dealer) panel() {
	easy, share := d.IntN(2) == 0, 0.4
	if easy {
		share = 0.2
		d.tell("panel.service_amps", pick(d, 100.0, 125, 150, 200, 200, 200, 225, 320, 400))
		d.often(0.9, "panel.heat_kind", pick(d, "fuel", "fuel", "none", "heat_pump", "ductless"))
		d.often(0.8, "panel.free_full_spaces", pick(d, 2.0, 4, 6, 12))
		d.often(0.9, "panel.protection", "breakers")
		d.often(0.5, "panel.main_breaker_amps", pick(d, 200.0, 200, 225))
	}
	service := pick(d, 60.0, 60, 70, 90, 100, 100, 100, 125, 125, 150, 150, 200, 200, 200, 225, 320, 400)
	d.often(0.9, "panel.service_amps", service)
	d.often(0.25, "panel.main_breaker_amps", pick(d, service, service, 100, 150, 175, 200))
	d.often(0.25, "panel.bus_amps", pick(d, service, service, 100, 125, 200, 225))
	d.often(0.1, "panel.service_conductor_amps", pick(d, service, 100, 150, 200))
	d.often(0.1, "panel.meter_limit_amps", pick(d, service, 100, 125, 200))
	d.often(0.5, "panel.supply_volts", pick(d, 240.0, 240, 240, 208))
	d.often(0.5, "panel.terminals_c", pick(d, 60.0, 75))
	d.often(0.8, "panel.free_full_spaces", pick(d, 0.0, 1, 2, 2, 4, 8))
	d.often(0.3, "panel.tandem_allowed", d.IntN(2) == 0)
	d.often(0.7, "panel.protection", pick(d, "breakers", "breakers", "breakers", "breakers", "fuses", "both"))
	d.often(0.5, "panel.trouble", d.some("panel.trouble", 0.9))
	d.often(0.8, "panel.heat_kind", d.word("panel.heat_kind"))
	d.often(0.5, "panel.heat_watts", pick(d, d.between(2000, 8000), d.between(2000, 25000)))
	d.often(0.3, "panel.heat_units", d.between(1, 9))
	d.often(0.3, "panel.heat_pump_watts", d.between(1500, 8000))
	d.often(0.7, "panel.cool_kind", d.word("panel.cool_kind"))
	d.often(0.4, "panel.cool_watts", d.between(1000, 9000))
	d.often(0.2, "panel.small_appliance_circuits", d.between(2, 5))
	d.often(0.2, "panel.laundry_circuits", d.between(0, 2))
	if d.Float64() < 0.2 {
		d.tell("panel.measured_peak_kw", d.between(3, 25))
		d.often(0.8, "panel.measured_interval_minutes", pick(d, 15.0, 30, 60))
		d.often(0.8, "panel.measured_months", pick(d, 1.0, 6, 12, 24))
		d.often(0.5, "panel.load_added_since", d.IntN(4) == 0)
	}
	if d.Float64() < 0.2 {
		d.tell("panel.backfeed_kind", d.word("panel.backfeed_kind"))
		d.often(0.8, "panel.backfeed_amps", pick(d, 15.0, 20, 30, 40, 60))
		d.often(0.5, "panel.backfeed_at_far_end", d.IntN(2) == 0)
	}
	d.appliances(share)
}

// appliances deals the kinds of load, each at a plate it may bear; a share of
// homes has each usual kind.
func (d *dealer) appliances(usually float64) {
	usual := map[string][2]int{
		"range": {6000, 17500}, "cooktop": {4000, 9000}, "oven": {3500, 8000}, "dryer": {2500, 6000}, "water_heater": {1500, 12000},
		"spa": {5000, 12000}, "sauna": {4000, 9000}, "pool_heater": {4000, 14000}, "kiln": {3000, 11000}, "welder": {3000, 12000},
		"evse_existing": {1440, 9600},
	}
	rare := []string{"spa", "sauna", "pool_heater", "pool_pump", "kiln", "welder", "evse_existing"}
	for _, kind := range facts.LoadKinds() {
		share := usually
		if strings.Contains(strings.Join(rare, " "), kind) {
			share = 0.06
		}
		if d.Float64() >= share {
			d.often(0.5, "panel.loads."+kind+".fuel", pick(d, "none", "gas"))
			continue
		}
		span, ok := usual[kind]
		if !ok {
			span = [2]int{300, 2500}
		}
		d.tell("panel.loads."+kind+".fuel", "electric")
		share = 0.8
		if kind == "other" {
			share = 1 // no table knows what else there is
		}
		d.often(share, "panel.loads."+kind+".watts", d.between(span[0], span[1]))
		d.often(0.15, "panel.loads."+kind+".count", d.between(1, 3))
	}
}

// route deals the way of the wire: a length with the ways named, or feet of
// each kind.
func (d *dealer) route() {
	d.often(0.9, "route.panel_to_charger_feet", pick(d, d.between(5, 60), d.between(60, 250)))
	ways := pick(d, []string{"open"}, []string{"open"}, []string{"open", "fish"}, []string{"fish"}, []string{"attic"}, []string{"attic", "fish"},
		[]string{"crawl"}, []string{"surface"}, []string{"open", "surface"}, []string{"outside"}, []string{"open", "outside"}, []string{"crawl", "outside"})
	if d.Float64() < 0.1 {
		ways = d.some("route.ways", 0)
	}
	d.often(0.9, "route.ways", ways)
	if d.Float64() < 0.4 {
		for _, kind := range ways {
			d.often(0.7, "route."+kind+"_feet", d.between(1, 80))
		}
	}
	if d.Float64() < 0.1 {
		d.tell("route.trench_feet", d.between(5, 60))
		d.often(0.5, "route.trench_surface", d.word("route.trench_surface"))
		d.often(0.3, "route.trench_under_drive", d.IntN(2) == 0)
	}
	d.often(0.3, "route.panel_drop_feet", d.between(0, 12))
	d.often(0.3, "route.device_drop_feet", d.between(0, 12))
	d.often(0.15, "route.ambient_c", d.between(-10, 60))
	d.often(0.3, "route.wall_finish", d.word("route.wall_finish"))
	d.often(0.2, "route.attic_kind", d.word("route.attic_kind"))
	d.often(0.1, "route.rated_wall", true)
}

// outlet deals an outlet in a share of households.
func (d *dealer) outlet(slot string, share float64) {
	if d.Float64() > share {
		d.often(0.7, slot+".present", "none")
		return
	}
	if d.Float64() < 0.4 {
		d.soundOutlet(slot)
		return
	}
	d.often(0.9, slot+".present", pick(d, "normal", "big"))
	d.often(0.9, slot+".configuration", d.word(slot+".configuration"))
	d.often(0.8, slot+".breaker_amps", pick(d, 15.0, 20, 30, 40, 50, 50, 60))
	d.often(0.7, slot+".shared_with", d.word(slot+".shared_with"))
	d.often(0.6, slot+".current_use", pick(d, "no", "no", "direct", "direct", "extension", "strip", "timer", "adapter"))
	d.often(0.8, slot+".condition", d.some(slot+".condition", 0.7))
	d.often(0.6, slot+".grade", d.word(slot+".grade"))
	d.often(0.5, slot+".gfci", d.IntN(2) == 0)
	d.often(0.4, slot+".in_use_cover", d.IntN(2) == 0)
	d.often(0.3, slot+".location", d.word(slot+".location"))
	d.often(0.5, slot+".reach_feet", d.between(1, 35))
	d.often(0.5, slot+".wire_awg", d.word(slot+".wire_awg"))
	d.often(0.5, slot+".wire_material", pick(d, "cu", "cu", "cu", "al"))
	d.often(0.4, slot+".wire_method", d.word(slot+".wire_method"))
}

// soundOutlet deals an outlet that may well be used as it is: face, breaker and
// wire of one size, nothing wrong with it. How a car is charged there is open.
func (d *dealer) soundOutlet(slot string) {
	fits := pick(d,
		[3]any{"5-15", 15.0, "14"}, [3]any{"5-20", 20.0, "12"}, [3]any{"6-20", 20.0, "12"}, [3]any{"14-30", 30.0, "10"},
		[3]any{"14-50", 50.0, "6"}, [3]any{"14-50", 40.0, "8"}, [3]any{"6-50", 50.0, "6"})
	d.tell(slot+".configuration", fits[0])
	d.tell(slot+".breaker_amps", fits[1])
	d.tell(slot+".wire_awg", fits[2])
	d.tell(slot+".wire_material", "cu")
	d.tell(slot+".wire_method", "nm")
	d.tell(slot+".gfci", true)
	d.tell(slot+".in_use_cover", true)
	d.often(0.9, slot+".condition", []string{})
	d.often(0.9, slot+".shared_with", pick(d, "individual", "individual", "general_idle"))
	d.often(0.8, slot+".grade", pick(d, "industrial", "ev_listed", "residential"))
	d.often(0.8, slot+".reach_feet", d.between(1, 20))
	d.often(0.9, slot+".current_use", pick(d, "no", "direct", "direct", "extension", "strip", "timer", "adapter"))
}

// owned deals charging equipment the driver has already.
func (d *dealer) owned() {
	if d.Float64() > 0.3 {
		return
	}
	d.tell("equipment.owned", true)
	d.often(0.9, "equipment.rating_amps", pick(d, 12.0, 16, 24, 32, 40, 48))
	d.often(0.4, "equipment.setting_amps", pick(d, 8.0, 12, 16, 24, 32))
	d.often(0.6, "equipment.setting_means", d.word("equipment.setting_means"))
	d.often(0.8, "equipment.plug", pick(d, "5-15", "6-20", "14-30", "14-50", "14-50", "6-50", "none"))
	d.often(0.5, "equipment.connector", d.word("equipment.connector"))
	d.often(0.5, "equipment.cable_feet", d.between(5, 25))
	d.often(0.3, "equipment.listed", d.IntN(4) != 0)
}

// hostile tells some leaves at the ends of what they accept.
func (d *dealer) hostile() {
	all := facts.Leaves()
	for range 1 + d.IntN(8) {
		leaf := all[d.IntN(len(all))]
		switch leaf.Kind {
		case facts.Number, facts.Whole, facts.Money:
			d.tell(leaf.Path, leaf.Nearest(pick(d, leaf.Low, leaf.High, leaf.Low+d.Float64()*(leaf.High-leaf.Low))))
		case facts.Flag:
			d.tell(leaf.Path, d.IntN(2) == 0)
		case facts.Choice:
			d.tell(leaf.Path, d.word(leaf.Path))
		case facts.Set:
			d.tell(leaf.Path, d.some(leaf.Path, 0.3))
		}
	}
}
