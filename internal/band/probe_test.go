package band_test

import (
	"fmt"
	"strings"
	"testing"

	"daybreak/internal/circuit"
	"daybreak/internal/circuit/outlet"
	"daybreak/internal/edition"
	"daybreak/internal/panel"
	"daybreak/internal/quote"
	"daybreak/internal/unit"
)

// probeOf lays a quote out flat, by the paths the households' expectations use.
func probeOf(t testing.TB, q *quote.Quote) map[string]any {
	p := probe{}
	p["standing"] = q.Standing.Word()
	p["standing_reasons"], p["headline"] = keysOf(q.Reasons), q.Headline.Key
	p["need.day_kwh"], p["need.worst_kwh"] = float64(q.Need.EnergyKWh), float64(q.Need.WorstKWh)
	p.findings(q)
	for i := range q.Options {
		o := &q.Options[i]
		for _, role := range o.Role.Words() {
			p.option(role, o, q)
		}
		if o.Role&quote.RoomToGrow != 0 {
			p["room_to_grow"] = o.ID
		}
		if o.Role&quote.BestFit != 0 {
			p["need.hard_day_refilled"] = o.RefillsWorst
			p["enough_for_now.id_same_as_best"] = o.Role&quote.EnoughForNow != 0
			p["best_unmanaged"] = o.Way != quote.ExistingOutlet && !o.Managed
		}
	}
	var wires []string
	for _, list := range [][]quote.Option{q.Options, q.Others} {
		for i := range list {
			p.weighed(&list[i])
			if c := list[i].Circuit; c != nil && c.Outcome == circuit.Designed {
				wires = append(wires, strings.Split(quote.WireWord(&c.Chosen), " ")...)
			}
		}
	}
	p["wire_words"] = wires
	return p
}

type probe map[string]any

func (p probe) findings(q *quote.Quote) {
	var codes, contradictions []string
	for i, f := range q.Findings {
		codes = append(codes, f.Code)
		if strings.HasPrefix(f.Code, "C-") {
			contradictions = append(contradictions, f.Code)
		}
		if i == 0 {
			p["first_caution_level"] = string(f.Gravity)
		}
	}
	p["cautions"], p["contradictions"] = codes, contradictions
}

func (p probe) option(role string, o *quote.Option, q *quote.Quote) {
	at := func(name string, v any) { p[role+"."+name] = v }
	at("id", o.ID)
	at("level", int(o.Level))
	at("way", o.Way.Word())
	at("setting_amps", float64(o.Setting))
	at("breaker_amps", float64(o.Breaker))
	at("volts", float64(o.Volts))
	at("kw", float64(o.Rate.Wall))
	at("binding", o.Rate.Binding.Word())
	at("managed", o.Managed)
	at("setpoint_amps", float64(o.Setpoint))
	at("adapter", o.Adapter)
	at("hours_normal", float64(o.HoursNormal))
	at("hours_full", float64(o.HoursFull))
	at("safe_first", keysOf(o.SafeFirst))
	at("care", keysOf(o.Care))
	at("verify", keysOf(append(append([]quote.Sentence{}, o.Verify...), q.Verify...)))
	at("fail_safe_amps", float64(o.FailSafe))
	at("night_kwh", float64(o.Rate.Wall)*float64(q.Need.WindowHours))
	p.circuit(role, o.Circuit)
	p.outlet(role, o)
	p.panel(role, o.Panel)
	p.price(role, o)
}

func keysOf(all []quote.Sentence) []string {
	out := []string{}
	for _, s := range all {
		out = append(out, s.Key)
	}
	return out
}

func (p probe) circuit(role string, c *circuit.Result) {
	if c == nil || c.Outcome != circuit.Designed {
		return
	}
	p[role+".wire"] = quote.WireWord(&c.Chosen)
	p[role+".ground"] = c.Chosen.Parts[0].Ground.String()
	p[role+".neutral"] = c.Chosen.Parts[0].Neutral
	p[role+".poles"] = c.Poles
	p[role+".drop_volts"] = float64(c.Chosen.DropVolts)
	p[role+".drop_percent"] = c.Chosen.DropPercent
	p[role+".gfci"] = c.GFCI
	p[role+".ground_fault"] = map[edition.Requirement]string{edition.NotRequired: "no", edition.Required: "yes", edition.AskAHJ: "ask_the_ahj"}[c.GroundFault.Value]
	p[role+".disconnect"] = c.Disconnect
}

func (p probe) outlet(role string, o *quote.Option) {
	if o.Outlet == nil {
		return
	}
	p[role+".outlet_way"] = string(o.OutletWay.Kind)
	p[role+".receptacle"] = o.OutletWay.Receptacle
	var work []string
	for _, w := range o.OutletWay.Work {
		work = append(work, string(w.Kind))
	}
	p[role+".work"] = work
}

func (p probe) panel(role string, r *panel.Result) {
	if r == nil {
		return
	}
	p[role+".verdict"] = quote.VerdictWord(r.Verdict)
	at := role + ".panel"
	p[at] = true
	p[at+".capacity_amps"] = float64(r.Capacity.Amps)
	p[at+".decides"] = r.Deciding.String()
	if r.Bus.Verdict != panel.BusNoSource {
		p[at+".bus_sum_amps"], p[at+".bus_limit_amps"] = float64(r.Bus.Sum), float64(r.Bus.Limit)
	}
	p[at+".spare_amps"] = float64(r.Spare)
	for _, m := range r.Methods {
		if m.Refusal == panel.Permitted {
			p.readings(at+"."+m.Method.String(), &m)
		}
	}
}

func (p probe) readings(at string, m *panel.Outcome) {
	p[at+".continuous"] = float64(m.Amps[panel.Continuous])
	p[at+".full"] = float64(m.Amps[panel.Full])
	if !m.NoLiteral {
		p[at+".literal"] = float64(m.Amps[panel.Literal])
	}
}

func (p probe) price(role string, o *quote.Option) {
	p[role+".unpriced"] = keysOf(o.Unpriced)
	if o.Priced {
		p[role+".price_total"] = float64(o.Bill.Total[1])
		p[role+".price_before_tax"] = float64(o.Bill.Total[1] - o.Bill.Tax[1])
	}
}

// weighed reads one option of all that were weighed: the verdict at a setting,
// and what could be made of the outlet.
func (p probe) weighed(o *quote.Option) {
	if o.Outlet != nil && o.OutletWay.Kind != outlet.AsItIs {
		kind := string(o.OutletWay.Kind)
		p[kind+".setting_amps"] = float64(o.Setting)
		p[kind+".breaker_amps"] = float64(o.Breaker)
		p.outlet(kind, o)
		p.price(kind, o)
	}
	if o.Panel == nil || o.Managed || o.Way != quote.Hardwired {
		return
	}
	at := "verdict." + unit.Print(o.Setting, 0)
	p.price("new_circuit_"+unit.Print(o.Breaker, 0), o)
	p[at] = quote.VerdictWord(o.Panel.Verdict)
	for _, m := range o.Panel.Methods {
		if m.Refusal != panel.Permitted {
			continue
		}
		p.readings(at+"."+m.Method.String(), &m)
		p["house."+m.Method.String()] = float64(m.Base.At(o.Volts))
		// Without a method named, the least of those that decide is meant.
		if least, done := p[at+".full"].(float64); m.Decides && (!done || float64(m.Amps[panel.Full]) < least) {
			p.readings(at, &m)
		}
	}
	var measures []string
	for _, m := range o.Panel.Measures {
		measures = append(measures, fmt.Sprint(m.Kind))
	}
	if list, _ := p["measures"].([]string); len(list) < len(measures) {
		p["measures"] = measures
	}
}
