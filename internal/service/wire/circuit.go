package wire

import (
	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Design is a designed circuit, or why there is none. Volts and setting are
// those of the job.
func (w *Words) Design(r *circuit.Result, setting unit.Amps, volts unit.Volts, steps []working.Step) *daybreakv1.CircuitDesign {
	if r == nil {
		return nil
	}
	out := &daybreakv1.CircuitDesign{
		Outcome: daybreakv1.DesignOutcome(r.Outcome), Volts: float64(volts), SettingAmps: float64(setting),
		DesignAmps: float64(r.Design), BreakerAmps: float64(r.Device), BreakerPoles: int32(r.Poles), Working: w.Working(steps),
	}
	if r.Outcome != circuit.Designed {
		out.Objections = w.objections(r)
		return out
	}
	c := &r.Chosen
	out.BreakerGfci = r.GFCI
	out.GroundFault = daybreakv1.Requirement(r.GroundFault.Value)
	out.Conductors = conductors(c)
	out.Runs = runs(c)
	out.LengthFeet = float64(r.Takeoff.RouteFeet)
	out.DropVolts, out.DropPercent = float64(c.DropVolts), c.DropPercent
	out.Termination = daybreakv1.Termination_TERMINATION_RECEPTACLE
	if r.Hardwired {
		out.Termination = daybreakv1.Termination_TERMINATION_HARDWIRED
	}
	out.Receptacle = configuration(r.Receptacle.Config)
	out.DisconnectRequired = r.Disconnect
	if c.Place == edition.Outdoor {
		out.Enclosure = "3R"
	}
	for _, n := range r.Notes {
		out.ToVerify = append(out.ToVerify, w.say("circuit.note."+named(noteKeys[:], int(n))))
	}
	return out
}

// objections say which limits nothing met, and what would meet them.
func (w *Words) objections(r *circuit.Result) []*daybreakv1.DesignObjection {
	what := w.say("circuit.reason." + named(reasonKeys[:], int(r.Reason)))
	if len(r.WouldDo) == 0 {
		return []*daybreakv1.DesignObjection{{What: what}}
	}
	var out []*daybreakv1.DesignObjection
	for _, remedy := range r.WouldDo {
		out = append(out, &daybreakv1.DesignObjection{What: what, WhatWouldDo: w.say("circuit.remedy." + named(remedyKeys[:], int(remedy)))})
	}
	return out
}

func conductors(c *circuit.Candidate) *daybreakv1.ConductorSet {
	p := &c.Parts[0]
	out := &daybreakv1.ConductorSet{
		Material: daybreakv1.WireMaterial_WIRE_MATERIAL_CU, Size: p.Hot.String(), Hots: int32(c.Poles),
		GroundingSize: p.Ground.String(), AmpacityAmps: float64(p.Ampacity),
	}
	if p.Metal == edition.Aluminium {
		out.Material = daybreakv1.WireMaterial_WIRE_MATERIAL_AL
	}
	if c.Poles == 1 || p.Neutral {
		out.NeutralSize = p.Hot.String()
	}
	return out
}

func runs(c *circuit.Candidate) []*daybreakv1.CircuitRun {
	var out []*daybreakv1.CircuitRun
	for i := range c.Parts {
		p := &c.Parts[i]
		if p.Method == 0 {
			continue
		}
		out = append(out, &daybreakv1.CircuitRun{
			Method: method(p), Feet: float64(p.Feet), TradeSize: string(p.Trade), FillPercent: p.FillPercent,
		})
	}
	return out
}

func method(p *circuit.Part) daybreakv1.WiringMethod {
	switch {
	case p.Method == edition.NMB:
		return daybreakv1.WiringMethod_WIRING_METHOD_NM_B
	case p.Raceway == edition.EMT:
		return daybreakv1.WiringMethod_WIRING_METHOD_THWN_2_IN_EMT
	case p.Raceway == edition.PVC40 || p.Raceway == edition.PVC80:
		return daybreakv1.WiringMethod_WIRING_METHOD_THWN_2_IN_PVC
	}
	return daybreakv1.WiringMethod_WIRING_METHOD_OTHER
}

// The keys of closed lists, in their order; "" stands for none of the list.
var (
	noteKeys = [...]string{"", "ask_ahj_ground_fault", "setting_does_not_count", "hardwired_above_40", "hardwired_outdoors", "torque",
		"check_marking", "drop_raised", "exposed_wall", "no_cable_outdoors", "no_cable_in_concrete", "licensed",
		"structure_disconnect", "second_supply_for_cars", "call_before_digging", "ground_whichever_mark", "replace_old_supply",
		"neutral_apart", "aluminium_terminals"}
	reasonKeys = [...]string{"none", "underground", "other_method", "too_many_changes", "no_method_fits", "no_conductor", "drop_too_high",
		"device_above_equipment", "no_receptacle", "nothing_stocked", "second_supply", "too_shallow"}
	remedyKeys = [...]string{"", "lower_setting", "allow_raceway", "check_marking", "hardwire", "larger_plug", "shorter_route", "ask_electrician", "one_feeder", "dig_deeper",
		"larger_conductor"}
)

func named(words []string, i int) string {
	if i < 0 || i >= len(words) {
		return ""
	}
	return words[i]
}
