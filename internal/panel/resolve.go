package panel

import (
	"strconv"

	"go.yaml.in/yaml/v3"
)

// resolve picks every value of one edition, once.
func (d *methodsDoc) resolve(r *resolver) *Rules {
	x := &Rules{year: r.year}
	x.decides[wholeCase] = r.methods("deciding.whole_dwelling", d.Deciding.Whole)
	x.decides[partCase] = r.methods("deciding.part_of_dwelling", d.Deciding.Part)
	x.decides[mobileCase] = r.methods("deciding.mobile_home", d.Deciding.Mobile)
	d.resolveLoads(r, x)
	d.resolveCharger(r, x)
	d.resolveMethods(r, x)
	d.resolveSupply(r, x)
	return x
}

func (d *methodsDoc) resolveLoads(r *resolver, x *Rules) {
	x.rounding = r.cite("rounding", d.Rounding)
	x.lighting.perSqFt = r.num("general_lighting.va_per_sqft", d.Lighting.PerSqFt)
	x.lighting.src = r.cite("general_lighting", d.Lighting.cite)
	x.small.perCircuit = r.num("small_appliance.va_per_circuit", d.Small.VA)
	x.small.least = r.num("small_appliance.min_circuits", d.Small.Least)
	x.small.src = r.cite("small_appliance", d.Small.cite)
	x.laundry.perCircuit = r.num("laundry.va_per_circuit", d.Laundry.VA)
	x.laundry.src = r.cite("laundry", d.Laundry.cite)
	x.tiers.first = r.num("lighting_demand.first_va", d.Tiers.First)
	x.tiers.nextTo = r.num("lighting_demand.next_to_va", d.Tiers.NextTo)
	x.tiers.nextFactor = r.num("lighting_demand.next_factor", d.Tiers.NextFactor)
	x.tiers.restFactor = r.num("lighting_demand.rest_factor", d.Tiers.RestFactor)
	x.tiers.src = r.cite("lighting_demand", d.Tiers.cite)
	x.fastened.least = int(r.num("fastened.min_count", d.Fastened.Least))
	x.fastened.factor = r.num("fastened.factor", d.Fastened.Factor)
	x.fastened.leastVA = r.num("fastened.min_va", d.Fastened.MinVA)
	x.fastened.src = r.cite("fastened", d.Fastened.cite)
	x.dryer.least = r.num("dryer.min_va", d.Dryer.MinVA)
	x.dryer.rows = r.rows("dryer.rows", d.Dryer.Rows, 3)
	x.dryer.src = r.cite("dryer", d.Dryer.cite)
	x.cooking.least = r.num("cooking.least_kw", d.Cooking.Least)
	x.cooking.aBelow = r.num("cooking.a_below_kw", d.Cooking.ABelow)
	x.cooking.bTo = r.num("cooking.b_to_kw", d.Cooking.BTo)
	x.cooking.cTo = r.num("cooking.c_to_kw", d.Cooking.CTo)
	x.cooking.raise = r.num("cooking.raise_per_kw", d.Cooking.Raise)
	x.cooking.rows = r.rows("cooking.rows", d.Cooking.Rows, 5)
	x.cooking.src = r.cite("cooking", d.Cooking.cite)
	x.general = r.cite("general", d.General)
	x.heating = r.cite("space_heating", d.Heating)
	x.noncoincident.lesserCooling = r.num("noncoincident.lesser_cooling_factor", d.Noncoincident.Lesser)
	x.noncoincident.src = r.cite("noncoincident", d.Noncoincident.cite)
	x.motors.adder = r.num("motors.largest_adder", d.Motors.Adder)
	x.motors.src = r.cite("motors", d.Motors.cite)
	x.neutral.factor = r.num("neutral.cooking_dryer_factor", d.Neutral.Factor)
	x.neutral.src = r.cite("neutral", d.Neutral.cite)
	x.welder.rows = r.rows("welder.rows", reversed(d.Welder.Rows), 3)
	x.welder.src = r.cite("welder", d.Welder.cite)
}

func (d *methodsDoc) resolveCharger(r *resolver, x *Rules) {
	x.charger.leastVA = r.num("charger.min_va", d.Charger.MinVA)
	x.charger.unknownVA = r.num("charger.unknown_va", d.Charger.Unknown)
	x.charger.bracket = r.num("charger.bracket", d.Charger.Bracket) == 1
	x.charger.src = r.cite("charger", d.Charger.cite)
	x.continuous.factor = r.num("continuous.factor", d.Continuous.Factor)
	x.continuous.src = r.cite("continuous", d.Continuous.cite)
	x.setting.counts = SettingCounts(r.word("setting.counts", d.Setting.Counts, "rating_only", "fastened_equipment", "any_equipment"))
	x.setting.standard = r.list("setting.standard_a", d.Setting.Standard)
	x.setting.fine = r.list("setting.fine_a", d.Setting.Fine)
	x.setting.src = r.cite("setting", d.Setting.cite)
	x.management.factor = r.num("management.setpoint_factor", d.Management.Factor)
	x.management.src = r.cite("management", d.Management.cite)
}

func (d *methodsDoc) resolveMethods(r *resolver, x *Rules) {
	o, e, m := &d.Optional, &d.Existing, &d.Measured
	x.optional.leastService = r.num("optional_82.min_service_a", o.Service)
	x.optional.first = r.num("optional_82.first_va", o.First)
	x.optional.rest = r.num("optional_82.rest_factor", o.Rest)
	x.optional.strips = r.num("optional_82.strips_factor", o.Strips)
	x.optional.few = r.num("optional_82.few_units_factor", o.Few)
	x.optional.many = r.num("optional_82.many_units_factor", o.Many)
	x.optional.manyUnits = int(r.num("optional_82.many_units", o.ManyUnits))
	x.optional.src = r.cite("optional_82", o.cite)
	x.existing.first = r.num("existing_83.first_va", e.First)
	x.existing.rest = r.num("existing_83.rest_factor", e.Rest)
	x.existing.manyUnits = int(r.num("existing_83.many_units", e.ManyUnits))
	x.existing.careful = r.num("existing_83.careful_va_per_sqft", e.Careful)
	x.existing.src = r.cite("existing_83", e.cite)
	x.existing.added = r.source("existing_83", e.Added, e.Status)
	x.measured.factor = r.num("measured_87.factor", m.Factor)
	x.measured.powerFactor = r.num("measured_87.power_factor", m.PowerFactor)
	x.measured.intervals = r.rows("measured_87.intervals", m.Intervals, 2)
	x.measured.barred = recordBar(r.word("measured_87.barred_by_source", m.Barred, "any_record", "thirty_days"))
	x.measured.src = r.cite("measured_87", m.cite)
	x.mobile.perSqFt = r.num("mobile_550_18.va_per_sqft", d.Mobile.PerSqFt)
	x.mobile.first = r.num("mobile_550_18.first_va", d.Mobile.First)
	x.mobile.rest = r.num("mobile_550_18.rest_factor", d.Mobile.Rest)
	x.mobile.ranges = r.rows("mobile_550_18.range_rows", d.Mobile.Ranges, 4)
	x.mobile.src = r.cite("mobile_550_18", d.Mobile.cite)
	x.multifamily.leastUnits = int(r.num("multifamily_84.min_units", d.Multifamily.Least))
	x.multifamily.rows = r.rows("multifamily_84.rows", d.Multifamily.Rows, 2)
	x.multifamily.src = r.cite("multifamily_84", d.Multifamily.cite)
	x.twoFamily = r.cite("two_family_85", d.TwoFamily)
}

func (d *methodsDoc) resolveSupply(r *resolver, x *Rules) {
	x.capacity = r.cite("capacity", d.Capacity)
	x.service.oneFamily = r.num("service.one_family_min_a", d.Service.OneFamily)
	x.service.finding = r.num("service.finding_a", d.Service.Finding)
	x.service.upgrades = r.list("service.upgrade_a", d.Service.Upgrades)
	x.service.src = r.cite("service", d.Service.cite)
	x.conductors.factor = r.num("service_conductors.factor", d.Conductors.Factor)
	x.conductors.src = r.cite("service_conductors", d.Conductors.cite)
	for i, row := range d.Conductors.Rows {
		var a float64
		var err error
		if len(row) == 3 {
			a, err = strconv.ParseFloat(row[0], 64)
		}
		if len(row) != 3 || err != nil || (i > 0 && a <= x.conductors.rows[i-1].amps) {
			r.refuse(d.Conductors.Section.line, "service_conductors.rows", row, "rating, copper and aluminium size a row, ratings ascending")
			return
		}
		x.conductors.rows = append(x.conductors.rows, conductorRow{a, row[1], row[2]})
	}
	x.devices.amps = r.list("devices.a", d.Devices.Amps)
	x.devices.src = r.cite("devices", d.Devices.cite)
	x.feeder = r.cite("feeder", d.Feeder)
	x.bus.source = r.num("bus.source_factor", d.Bus.Source)
	x.bus.farEnd = r.num("bus.far_end_factor", d.Bus.FarEnd)
	x.bus.sum120 = r.cite("bus", d.Bus.cite)
	x.bus.sum100 = r.source("bus", d.Bus.Sum100, d.Bus.Status)
	x.bus.sumOfBreakers = r.source("bus", d.Bus.SumOfBreakers, d.Bus.Status)
	x.screen.leastService = r.num("screen.min_service_a", d.Screen.Service)
	x.screen.mostCharger = r.num("screen.max_charger_a", d.Screen.Charger)
	x.screen.spare = r.num("screen.min_spare_share", d.Screen.Spare)
	x.screen.unseenSpare = r.num("screen.unseen_spare_share", d.Screen.Unseen)
	x.screen.src = r.cite("screen", d.Screen.cite)
	x.spaces = r.cite("spaces", d.Spaces)
	x.sharing = r.cite("sharing_switch", d.Sharing)
	x.upgrade = r.cite("upgrade", d.Upgrade)
	x.newBoard = r.cite("new_panelboard", d.NewBoard)
}

// methods resolves a list of method names.
func (r *resolver) methods(field string, n yaml.Node) (set methodSet) {
	var names []string
	if err := n.Decode(&names); err != nil || len(names) == 0 {
		r.refuse(n.Line, field, n.Value, "a list of methods")
	}
next:
	for _, name := range names {
		for m := range methodCount {
			if m.String() == name {
				set |= 1 << m
				continue next
			}
		}
		r.refuse(n.Line, field, name, "one of "+join(methodNames[:]))
	}
	return set
}

// reversed turns a table printed from its largest value down, so that every
// table resolves with an ascending first column.
func reversed(s since[[][]float64]) since[[][]float64] {
	out := since[[][]float64]{line: s.line, years: s.years}
	for _, rows := range s.value {
		up := make([][]float64, len(rows))
		for i, row := range rows {
			up[len(rows)-1-i] = row
		}
		out.value = append(out.value, up)
	}
	return out
}
