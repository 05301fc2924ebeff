package panel

import (
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// stepKeys are the keys of the steps beside the worksheet lines.
var stepKeys = []string{
	"panel.capacity", "panel.method", "panel.refused", "panel.verdict", "panel.managed", "panel.spaces", "panel.bus",
	"panel.measure.find_peak", "panel.measure.other_method", "panel.measure.lower_setting", "panel.measure.sharing_switch",
	"panel.measure.manage_energy", "panel.measure.remove_load", "panel.measure.tandem_breakers", "panel.measure.new_panelboard",
	"panel.measure.subpanel", "panel.measure.upgrade_service",
}

// RuleKeys lists every key under which this room adds a step.
func RuleKeys() []string { return append(append([]string(nil), stepKeys...), lineKeys...) }

// Step gives the line as a step of working.
func (l Line) Step() working.Step {
	return working.Step{Rule: l.Key, In: working.In(working.Word("what", l.What), l.Given, l.Used), Out: l.Out, Source: l.Source}
}

// write lays out the permitted methods and adds every step to the sheet: the
// capacity, each method with its lines, the verdict, and what would help.
func (in *Input) write(res *Result, sheet *working.Sheet) {
	r := in.Rules
	sheet.Add(working.Step{Rule: "panel.capacity", Source: r.capacity,
		In: working.In(working.Num("service", in.Supply.Service, "A"), working.Num("main", in.Supply.Main, "A"),
			working.Num("bus", in.Supply.Bus, "A"), working.Word("set_by", res.Capacity.SetBy.String())),
		Out: working.Num("capacity", res.Capacity.Amps, "A")})
	for m := range methodCount {
		o := &res.Methods[m]
		if o.Refusal != Permitted {
			sheet.Add(working.Step{Rule: "panel.refused", In: working.In(working.Word("method", m.String())), Out: working.Word("why", o.Refusal.String()), Source: o.Source})
			continue
		}
		w := in.worksheet(o, res.Capacity)
		res.Worksheets = append(res.Worksheets, w)
		sheet.Add(working.Step{Rule: "panel.method", In: working.In(working.Word("method", m.String())), Out: working.Word("verdict", o.Verdict.String()), Source: o.Source})
		for _, line := range w.Lines {
			sheet.Add(line.Step())
		}
	}
	if res.Managed.Kind != Unmanaged {
		sheet.Add(working.Step{Rule: "panel.managed", Source: r.management.src,
			In:  working.In(working.Num("setpoint", in.Management.Setpoint, "A"), working.Num("fail_safe", in.Management.FailSafe, "A"), percent(r.management.factor)),
			Out: working.Num("load", in.Management.Setpoint*unit.Amps(r.management.factor), "A")})
	}
	sheet.Add(working.Step{Rule: "panel.verdict", Source: res.Methods[res.Deciding].Source,
		In: working.In(working.Word("method", res.Deciding.String()), working.Word("reading", res.Reading.String()),
			working.Num("total", res.Total, "A"), working.Num("capacity", res.Capacity.Amps, "A")),
		Out: working.Word("verdict", res.Verdict.String())})
	sheet.Add(working.Step{Rule: "panel.spaces", Source: r.spaces,
		In:  working.In(working.Num("needed", res.Spaces.Needed, ""), working.Num("free", res.Spaces.Free, "")),
		Out: working.Word("verdict", res.Spaces.Verdict.String())})
	if res.Bus.Verdict != BusNoSource {
		sheet.Add(working.Step{Rule: "panel.bus", Source: r.busSource(res.Bus.Rule),
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
		s.In = working.In(setting, working.Word("load", m.Load.String()))
	case ManageEnergy:
		s.In = working.In(setting, working.Num("setpoint", m.Setpoint, "A"), working.Num("fail_safe", m.FailSafe, "A"))
	case UpgradeService:
		s.In = working.In(setting, working.Num("service", m.Service, "A"))
	}
	return s
}
