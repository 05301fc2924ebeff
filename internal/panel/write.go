package panel

import (
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// lineKeys are the worksheet lines that stand once in a sheet.
var lineKeys = []string{
	"floor_area", "small_appliance", "laundry", "room_heaters", "connected", "first", "rest", "compressor", "strips", "heaters",
	"cooling", "heat_or_cooling", "tiers", "fastened", "fastened_few", "other", "dryers", "cooking", "motor", "mobile_lighting",
	"mobile_range", "peak", "interval", "peak_factor", "power_factor", "season", "chargers_there", "before",
	"charger_continuous", "charger_full", "charger_least", "charger_literal", "total_continuous", "total_full", "total_literal", "spare", "short",
}

// RuleKeys lists every key under which this room adds a step.
func RuleKeys() []string {
	keys := []string{"panel.managed", "panel.managed_off", "panel.measure.manage_energy_off", "panel.unseen_area"}
	add := func(prefix string, n int, word func(i int) string) {
		for i := range n {
			keys = append(keys, prefix+word(i))
		}
	}
	add("panel.line.", len(lineKeys), func(i int) string { return lineKeys[i] })
	add("panel.line.load.", int(loadKinds), func(i int) string { return LoadKind(i).String() })
	add("panel.line.rating.", int(ByMeter)+1, func(i int) string { return Limit(i).String() })
	add("panel.capacity.", int(ByMeter)+1, func(i int) string { return Limit(i).String() })
	add("panel.method.", int(methodCount), func(i int) string { return Method(i).String() })
	add("panel.refused.", int(RefusedLoadAdded), func(i int) string { return Refusal(i + 1).String() })
	add("panel.verdict.", int(Fits)+1, func(i int) string { return Verdict(i).String() })
	add("panel.spaces.", int(SpacesToBeSeen)+1, func(i int) string { return SpacesVerdict(i).String() })
	add("panel.bus.", int(BusToBeSeen), func(i int) string { return BusVerdict(i + 1).String() })
	for k := range measureKinds {
		if k != SharingSwitch && k != RemoveLoad {
			keys = append(keys, "panel.measure."+k.String())
		}
	}
	add("panel.measure.sharing_switch.", len(sharable), func(i int) string { return sharable[i].String() })
	add("panel.measure.remove_load.", len(removable), func(i int) string { return removable[i].String() })
	return keys
}

// Step gives the line as a step of working.
func (l Line) Step() working.Step {
	return working.Step{Rule: l.Key, In: working.In(working.Word("what", l.What), l.Given, l.Used), Out: l.Out, Source: l.Source}
}

// write lays out the permitted methods and adds every step to the sheet: the
// capacity, each method with its lines, the verdict, and what would help.
func (in *Input) write(res *Result, sheet *working.Sheet) {
	r := in.Rules
	sheet.Add(working.Step{Rule: "panel.capacity." + res.Capacity.SetBy.String(), Source: r.capacity,
		In: working.In(working.Num("service", in.Supply.Service, "A"), working.Num("main", in.Supply.Main, "A"),
			working.Num("bus", in.Supply.Bus, "A"), working.Num("meter", in.Supply.Meter, "A")),
		Out: working.Num("capacity", res.Capacity.Amps, "A")})
	for m := range methodCount {
		o := &res.Methods[m]
		if o.Refusal != Permitted {
			sheet.Add(working.Step{Rule: "panel.refused." + o.Refusal.String(), In: working.In(working.Word("method", m.String())), Out: working.Word("why", o.Refusal.String()), Source: o.Source})
			continue
		}
		w := in.worksheet(o, res.Capacity)
		res.Worksheets = append(res.Worksheets, w)
		sheet.Add(working.Step{Rule: "panel.method." + m.String(), In: working.In(working.Word("method", m.String())), Out: working.Word("verdict", o.Verdict.String()), Source: o.Source})
		for _, line := range w.Lines {
			sheet.Add(line.Step())
		}
	}
	if res.Managed.Kind != Unmanaged {
		key := "panel.managed"
		if in.Management.FailSafe == 0 {
			key = "panel.managed_off"
		}
		sheet.Add(working.Step{Rule: key, Source: r.management.src,
			In:  working.In(working.Num("setpoint", in.Management.Setpoint, "A"), working.Num("fail_safe", in.Management.FailSafe, "A"), percent(r.management.factor)),
			Out: working.Num("load", in.Management.Setpoint*unit.Amps(r.management.factor), "A")})
	}
	sheet.Add(working.Step{Rule: "panel.verdict." + res.Verdict.String(), Source: res.Methods[res.Deciding].Source,
		In: working.In(working.Word("method", res.Deciding.String()), working.Word("reading", res.Reading.String()),
			working.Num("total", res.Total, "A"), working.Num("capacity", res.Capacity.Amps, "A")),
		Out: working.Word("verdict", res.Verdict.String())})
	if res.UnseenArea {
		sheet.Add(working.Step{Rule: "panel.unseen_area", Source: r.existing.src,
			In:  working.In(working.Num("edition", r.lighting.perSqFt, "VA/ft²"), working.Num("older", r.existing.careful, "VA/ft²")),
			Out: working.Word("verdict", res.Verdict.String())})
	}
	sheet.Add(working.Step{Rule: "panel.spaces." + res.Spaces.Verdict.String(), Source: r.spaces,
		In:  working.In(working.Num("needed", res.Spaces.Needed, ""), working.Num("free", res.Spaces.Free, "")),
		Out: working.Word("verdict", res.Spaces.Verdict.String())})
	if res.Bus.Verdict != BusNoSource {
		sheet.Add(working.Step{Rule: "panel.bus." + res.Bus.Verdict.String(), Source: r.busSource(res.Bus.Rule),
			In:  working.In(working.Num("sum", res.Bus.Sum, "A"), working.Num("limit", res.Bus.Limit, "A")),
			Out: working.Word("verdict", res.Bus.Verdict.String())})
	}
	for _, m := range res.Measures {
		sheet.Add(m.Step())
	}
}

func (r *Rules) busSource(rule BusRule) *working.Source {
	switch rule {
	case BySum120:
		return r.bus.sum120
	case BySumOfBreakers:
		return r.bus.sumOfBreakers
	}
	return r.bus.sum100
}

// Step gives the measure as a step of working.
func (m Measure) Step() working.Step {
	s := working.Step{Rule: "panel.measure." + m.Kind.String(), Source: m.Source, Out: working.Num("total", m.Total, "A")}
	setting := working.Num("setting", m.Setting, "A")
	switch m.Kind {
	case FindPeak:
		s.In = working.In(setting, working.Num("peak", m.Peak, "kW"))
	case OtherMethod:
		s.In = working.In(setting, working.Word("method", m.Method.String()))
	case LowerSetting:
		s.In = working.In(setting, working.Word("counts", m.Counts.String()))
	case SharingSwitch, RemoveLoad:
		s.Rule += "." + m.Load.String()
		s.In = working.In(setting, working.Word("load", m.Load.String()))
	case ManageEnergy:
		if m.FailSafe == 0 {
			s.Rule += "_off"
		}
		s.In = working.In(setting, working.Num("setpoint", m.Setpoint, "A"), working.Num("fail_safe", m.FailSafe, "A"))
	case UpgradeService:
		s.In = working.In(setting, working.Num("service", m.Service, "A"))
	}
	return s
}
