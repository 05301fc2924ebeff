package panel_test

import (
	"encoding/json"
	"fmt"
	"testing"

	"daybreak/internal/panel"
	"daybreak/internal/tools/vectortest"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

// book is the shipped rules, for tests and benchmarks alike.
func book(t testing.TB) *panel.Book {
	t.Helper()
	b, err := panel.OpenBook(panel.Embedded())
	require.NoError(t, err)
	return b
}

func rules(t testing.TB, year int) *panel.Rules {
	t.Helper()
	r, err := book(t).Rules(year)
	require.NoError(t, err)
	return r
}

type answer = map[string]any

func TestVectorPanel(t *testing.T) {
	b := book(t)
	run := func(f func(caseInputs, *panel.Rules) (answer, error)) vectortest.Run {
		return func(c vectortest.Case) (answer, error) {
			var in caseInputs
			if err := json.Unmarshal(c.Inputs, &in); err != nil {
				return nil, err
			}
			year := 2020 // cases of a table that is alike in every edition name none
			if in.Edition != "" {
				if _, err := fmt.Sscan(in.Edition, &year); err != nil {
					return nil, err
				}
			}
			r, err := b.Rules(year)
			if err != nil {
				return nil, err
			}
			return f(in, r)
		}
	}
	vectortest.Cases(t, "electrical_panel.json", map[string]vectortest.Run{
		"standard": run(standardCase), "multi_standard": run(multiStandardCase),
		"optional_82": run(optionalCase), "existing_83": run(existingCase), "max_setting_83": run(maxSettingCase),
		"measured_87": run(measuredCase), "measured_87_max": run(measuredMaxCase),
		"range_demand": run(rangeCase), "dryer_demand": run(dryerCase), "lighting_demand": run(lightingCase), "fastened_75": run(fastenedCase),
		"multifamily_84": run(unitsCase), "two_family_85": run(twoFamilyCase), "mobile_550_18": run(mobileCase),
		"bus": run(busCase), "service_conductor": run(conductorCase), "ems_setpoint": run(setpointCase), "feeder": run(feederCase),
		"evse_va": run(chargerCase), "capacity": run(capacityCase), "line_amps": run(lineCase),
		"welder_conductor": run(welderCase), "amps": run(ampsCase),
	})
}

func chargersOf(amps []unit.Amps, v unit.Volts) (out []panel.Charger) {
	for _, a := range amps {
		out = append(out, panel.Charger{Setting: a, Volts: v})
	}
	return out
}

// dwelling maps the inputs of the optional methods' cases, which give plates
// without saying of what.
func dwelling(in caseInputs, r *panel.Rules, h caseHeat, cooling unit.VoltAmps) (panel.Input, error) {
	heat, err := h.heat()
	out := panel.Input{
		Rules: r, Volts: in.Volts, FloorArea: in.Area, SmallCirc: in.Small, LaundryCir: in.Laundry,
		Heat: heat, Cooling: cooling, Chargers: chargersOf(in.EV, in.Volts), Supply: panel.Rated(200),
	}
	if in.Service > 0 {
		out.Supply = panel.Rated(in.Service)
	}
	for _, va := range in.Loads {
		out.Loads = append(out.Loads, panel.Load{Kind: panel.OtherLoad, VA: va, Count: 1})
	}
	return out, err
}

func standardCase(in caseInputs, r *panel.Rules) (answer, error) {
	column := panel.ColumnC
	if in.Note3 {
		column = panel.ColumnsAB
	}
	got, err := r.GeneralLoad(panel.GeneralSheet{
		FloorArea: in.Area, SmallCirc: in.Small, LaundryCir: in.Laundry, Fastened: in.Fastened, Dryers: in.Dryers,
		Cooking: in.RangesKW, Column: column, Heat: in.HeatVA, Cooling: in.Cooling, LargestMotor: in.MotorVA,
		Chargers: chargersOf(in.EV, in.Volts),
	})
	return answer{
		"lighting_va": got.Lighting, "fastened_va": got.Fastened, "range_va": got.Cooking, "dryer_va": got.Dryers, "hvac_va": got.HVAC,
		"evse_va": got.Charging, "total_va": got.Total, "gate_va": got.Continuous,
		"amps": panel.WholeAmps(got.Total.At(in.Volts)), "amps_exact": got.Total.At(in.Volts),
		"neutral_va": got.Neutral, "neutral_amps": panel.WholeAmps(got.Neutral.At(in.Volts)),
	}, err
}

func multiStandardCase(in caseInputs, r *panel.Rules) (answer, error) {
	s := panel.GeneralSheet{Units: in.Units, FloorArea: in.UnitArea, SmallCirc: in.Small, LaundryCir: in.Laundry}
	for range in.Ranges12 {
		s.Cooking = append(s.Cooking, 12)
	}
	got, err := r.GeneralLoad(s)
	return answer{"lighting_va": got.Lighting, "range_va": got.Cooking, "total_va": got.Total, "amps": panel.WholeAmps(got.Total.At(240))}, err
}

func readingOf(word string) panel.Reading {
	for _, r := range []panel.Reading{panel.Continuous, panel.Full, panel.Literal} {
		if r.String() == word {
			return r
		}
	}
	return panel.Continuous
}

func optionalCase(in caseInputs, r *panel.Rules) (answer, error) {
	house, err := dwelling(in, r, in.HVAC, in.HVAC.Cooling)
	if err != nil {
		return nil, err
	}
	got, err := panel.By(house, panel.OptionalDwelling)
	if err != nil {
		return nil, err
	}
	read := readingOf(in.Reading)
	device, _ := r.NextDevice(got.Amps[read])
	return answer{
		"general_va": got.General, "general_net_va": got.GeneralNet, "hvac_va": got.HVAC, "total_va": got.VA[read],
		"amps": panel.WholeAmps(got.Amps[read]), "amps_exact": got.Amps[read],
		"min_service_a": r.LeastService(got.Amps[read]), "service_a": device,
	}, nil
}

func existingCase(in caseInputs, r *panel.Rules) (answer, error) {
	house, err := dwelling(in, r, in.Heat, in.Cooling)
	if err != nil {
		return nil, err
	}
	got, err := panel.By(house, panel.ExistingDwelling)
	return answer{
		"base_va": got.Base, "literal_va": got.AllInside, "full_va": got.VA[panel.Full], "gate_va": got.VA[panel.Continuous],
		"gate_amps_exact": got.Amps[panel.Continuous], "fits": got.Verdict == panel.Fits,
	}, err
}

func maxSettingCase(in caseInputs, r *panel.Rules) (answer, error) {
	house, err := dwelling(in, r, in.Heat, in.Cooling)
	if err != nil {
		return nil, err
	}
	return largest(house, panel.ExistingDwelling)
}

// largest answers with null where no setting fits.
func largest(house panel.Input, m panel.Method) (answer, error) {
	a, ok, err := panel.LargestSetting(house, panel.Want{AtMost: 80, Steps: panel.FineSteps, Methods: []panel.Method{m}})
	if err != nil {
		return nil, err
	}
	alone, err := panel.By(house, m)
	out := answer{"base_va": alone.Base, "existing_a": alone.Amps[panel.Continuous], "setting_a": nil}
	if ok {
		out["setting_a"] = a
		house.Chargers = chargersOf([]unit.Amps{a}, house.Volts)
		with, err := panel.By(house, m)
		out["gate_va"] = with.VA[panel.Continuous]
		return out, err
	}
	return out, err
}

func measuredHouse(in caseInputs, r *panel.Rules) panel.Input {
	house := panel.Input{Rules: r, Volts: in.Volts, Supply: panel.Rated(200),
		Measured: panel.Measured{Record: panel.OneYear, Peak: in.Peak, IntervalMin: in.Interval, Generation: panel.GrossOfGeneration}}
	if in.Service > 0 {
		house.Supply = panel.Rated(in.Service)
	}
	if in.Data == "thirty_day" {
		house.Measured.Record = panel.ThirtyDays
	}
	if in.Solar {
		house.Source.Kind = panel.Solar
	}
	return house
}

func measuredCase(in caseInputs, r *panel.Rules) (answer, error) {
	house := measuredHouse(in, r)
	alone, err := panel.By(house, panel.MeasuredDemand)
	if err != nil {
		return nil, err
	}
	house.Chargers = chargersOf([]unit.Amps{*in.Setting}, in.Volts)
	got, err := panel.By(house, panel.MeasuredDemand)
	return answer{
		"allowed": got.Refusal == panel.Permitted, "existing_a": alone.Amps[panel.Continuous],
		"total_a": got.Amps[panel.Continuous], "fits": got.Verdict == panel.Fits,
	}, err
}

func measuredMaxCase(in caseInputs, r *panel.Rules) (answer, error) {
	return largest(measuredHouse(in, r), panel.MeasuredDemand)
}

func rangeCase(in caseInputs, r *panel.Rules) (answer, error) {
	column := panel.ColumnC
	if in.OnlyNote3 {
		column = panel.ColumnsAB
	}
	return answer{"va": r.CookingDemand(in.KW, column)}, nil
}

func vaList(in caseInputs) (list []unit.VoltAmps, err error) {
	err = json.Unmarshal(in.VA, &list)
	return list, err
}

func dryerCase(in caseInputs, r *panel.Rules) (answer, error) {
	list, err := vaList(in)
	return answer{"va": r.DryerDemand(list)}, err
}

func fastenedCase(in caseInputs, r *panel.Rules) (answer, error) {
	list, err := vaList(in)
	return answer{"va": r.FastenedDemand(list)}, err
}

func lightingCase(in caseInputs, r *panel.Rules) (answer, error) {
	return answer{"va": r.LightingDemand(in.Area, in.Small, in.Laundry)}, nil
}

func unitsCase(in caseInputs, r *panel.Rules) (answer, error) {
	got, err := r.UnitsDemand(in.Units, in.PerUnit)
	return answer{"pct": got.Percent, "total_va": got.Load, "amps": panel.WholeAmps(got.Load.At(240))}, err
}

func twoFamilyCase(in caseInputs, r *panel.Rules) (answer, error) {
	got, err := r.TwoFamilyDemand(in.Standard, in.ThreeVA)
	return answer{"optional_va": got.Optional, "use_va": got.Use}, err
}

func mobileCase(in caseInputs, r *panel.Rules) (answer, error) {
	got := r.MobileLoad(panel.MobileSheet{FloorArea: in.Area, Range: in.RangeKW, Others: in.Others})
	return answer{"lighting_va": got.Lighting, "range_va": got.Range, "total_va": got.Total, "amps_exact": got.Total.At(240)}, nil
}

func busCase(in caseInputs, r *panel.Rules) (answer, error) {
	var got panel.BusSum
	switch in.Option {
	case "sum_100":
		got = r.SourceSum(panel.BySum100, in.Bus, in.Main, in.Output)
	case "sum_120", "center_fed":
		got = r.SourceSum(panel.BySum120, in.Bus, in.Main, in.Output)
	case "sum_of_breakers":
		got = r.BreakerSum(in.Bus, in.Breakers)
	default:
		return nil, fmt.Errorf("the unknown bus rule %q", in.Option)
	}
	return answer{"sum_a": got.Sum, "limit_a": got.Limit, "ok": got.Holds}, nil
}

func conductorCase(in caseInputs, r *panel.Rules) (answer, error) {
	got, err := r.ServiceConductors(in.Rating)
	return answer{"cu": got.Copper, "al": got.Aluminium, "min_ampacity_a": got.LeastAmps}, err
}

func setpointCase(in caseInputs, r *panel.Rules) (answer, error) {
	return answer{"max_setpoint_a": r.MaxSetpoint(in.Service)}, nil
}

func feederCase(in caseInputs, r *panel.Rules) (answer, error) {
	least, device := r.Feeder(in.Other, in.Contin)
	return answer{"min_a": least, "device_a": device}, nil
}

func chargerCase(in caseInputs, r *panel.Rules) (answer, error) {
	c := panel.Charger{Plate: panel.PlateUnknown, Volts: in.Volts}
	if in.Setting != nil {
		c = panel.Charger{Setting: *in.Setting, Volts: in.Volts}
	}
	got, err := r.ChargerLoad(c)
	return answer{"full_va": got.Full, "continuous_va": got.Continuous}, err
}

func capacityCase(in caseInputs, _ *panel.Rules) (answer, error) {
	s := panel.Rated(1200)
	for _, x := range []struct {
		from unit.Amps
		to   *unit.Amps
	}{{in.Service, &s.Service}, {in.Main, &s.Main}, {in.Bus, &s.Bus}, {in.Conductor, &s.Conductors}} {
		if x.from > 0 {
			*x.to = x.from
		}
	}
	return answer{"a": s.Capacity().Amps}, nil
}

func lineCase(in caseInputs, r *panel.Rules) (answer, error) {
	a := r.LineAmps(panel.LineLoad{Amps: in.LineA, LargestMotor: in.MotorA})
	b := r.LineAmps(panel.LineLoad{Amps: in.LineB, LargestMotor: in.MotorB})
	device, _ := r.NextDevice(max(a, b))
	return answer{"line_a": a, "line_b": b, "service_a": device}, nil
}

func welderCase(in caseInputs, r *panel.Rules) (answer, error) {
	kind := panel.NonMotorWelder
	if in.Kind == "motor_generator" || in.Kind == "motor" {
		kind = panel.MotorGeneratorWelder
	}
	a, err := r.WelderConductorAmps(in.Primary, in.Duty, kind)
	return answer{"a": a}, err
}

func ampsCase(in caseInputs, _ *panel.Rules) (answer, error) {
	var va unit.VoltAmps
	err := json.Unmarshal(in.VA, &va)
	return answer{"amps": panel.WholeAmps(va.At(in.Volts))}, err
}
