package service_test

import (
	"slices"
	"strconv"
	"strings"
)

// probe is a quote laid out flat, by the paths the expectations use.
type probe map[string]any

// section is one option of a canonical body: its lines by path.
type section struct {
	kind, id string
	lines    map[string][]string
}

func (s *section) first(path string) string {
	if all := s.lines[path]; len(all) > 0 {
		return all[0]
	}
	return ""
}

func (s *section) number(path string) (float64, bool) {
	x, err := strconv.ParseFloat(s.first(path), 64)
	return x, err == nil
}

// probeOf reads a canonical body.
func probeOf(body []byte) probe {
	head := section{lines: map[string][]string{}}
	at, options := &head, []*section{}
	for _, line := range strings.Split(string(body), "\n") {
		path, value, ok := strings.Cut(line, "\t")
		switch {
		case !ok:
		case path == "option" || path == "other":
			at = &section{path, value, map[string][]string{}}
			options = append(options, at)
		case strings.HasPrefix(path, " "):
			at.lines[path[1:]] = append(at.lines[path[1:]], value)
		default:
			head.lines[path] = append(head.lines[path], value)
		}
	}
	p := probe{}
	p.head(&head)
	var wires, levels []string
	for _, o := range options {
		for _, role := range o.lines["role"] {
			p.option(role, o, &head)
		}
		p.weighed(o)
		p.measure(o)
		levels = append(levels, o.first("level"))
		wires = append(wires, strings.Fields(o.first("circuit.wire"))...)
	}
	p["wire_words"], p["levels"] = wires, levels
	return p
}

func (p probe) head(h *section) {
	for _, path := range []string{"reference", "fingerprint", "standing", "headline"} {
		p[path] = keyOf(h.first(path))
	}
	p["need.day_kwh"], _ = h.number("need.day_kwh")
	p["need.worst_kwh"], _ = h.number("need.worst_kwh")
	p["standing_reasons"] = keysOf(h.lines["standing_reason"])
	codes, contradictions := keysOf(h.lines["finding"]), []string{}
	for _, c := range codes {
		if strings.HasPrefix(c, "C-") {
			contradictions = append(contradictions, c)
		}
	}
	p["cautions"], p["contradictions"] = codes, contradictions
	if len(codes) > 0 {
		p["first_caution_level"] = strings.Fields(h.first("finding"))[1]
	}
}

// option lays out one shown option under its role.
func (p probe) option(role string, o, head *section) {
	p[role+".id"] = o.id
	for name, path := range map[string]string{
		"setting_amps": "setting_a", "breaker_amps": "breaker_a", "volts": "volts", "kw": "kw", "setpoint_amps": "setpoint_a",
		"fail_safe_amps": "fail_safe_a", "hours_normal": "hours_normal", "hours_full": "hours_full",
		"poles": "circuit.poles", "drop_volts": "circuit.drop_v", "drop_percent": "circuit.drop_percent",
	} {
		if x, ok := o.number(path); ok {
			p[role+"."+name] = x
		}
	}
	for name, path := range map[string]string{
		"way": "way", "binding": "limited_by", "wire": "circuit.wire", "ground": "circuit.ground",
		"ground_fault": "circuit.ground_fault", "verdict": "panel.verdict",
	} {
		if s := o.first(path); s != "" {
			p[role+"."+name] = s
		}
	}
	for name, path := range map[string]string{
		"managed": "managed", "adapter": "adapter", "gfci": "circuit.gfci", "disconnect": "circuit.disconnect", "neutral": "circuit.neutral",
	} {
		if s := o.first(path); s != "" {
			p[role+"."+name] = s == "true"
		}
	}
	for name, path := range map[string]string{"care": "care", "safe_first": "first", "unpriced": "unpriced"} {
		p[role+"."+name] = keysOf(o.lines[path])
	}
	p[role+".verify"] = append(keysOf(o.lines["verify"]), keysOf(head.lines["verify"])...)
	p[role+".level"], _ = strconv.ParseFloat(strings.TrimPrefix(o.first("level"), "level_"), 64)
	kw, _ := o.number("kw")
	night, _ := head.number("need.window_h")
	p[role+".night_kwh"] = kw * night
	p.outlet(role, o)
	p.panel(role, o)
	p.price(role, o)
	switch role {
	case "room_to_grow":
		p[role] = o.id
	case "best_fit":
		p["need.hard_day_refilled"] = o.first("refills_worst") == "true"
		p["enough_for_now.id_same_as_best"] = slices.Contains(o.lines["role"], "enough_for_now")
		p["best_unmanaged"] = o.first("way") != "existing_outlet" && o.first("managed") != "true"
	}
}

func (p probe) outlet(at string, o *section) {
	if f := strings.Fields(o.first("outlet")); len(f) == 3 {
		p[at+".outlet_way"], p[at+".receptacle"], p[at+".work"] = f[2], o.first("outlet.receptacle"), o.lines["outlet.work"]
	}
}

func (p probe) panel(role string, o *section) {
	if o.first("panel.verdict") == "" {
		return
	}
	at := role + ".panel"
	p[at] = true
	p[at+".capacity_amps"], _ = o.number("panel.capacity_a")
	p[at+".spare_amps"], _ = o.number("panel.spare_a")
	p[at+".decides"], _, _ = strings.Cut(o.first("panel.decided_by"), " ")
	if f := strings.Fields(o.first("panel.bus")); len(f) == 3 {
		p[at+".bus_sum_amps"], _ = strconv.ParseFloat(f[1], 64)
		p[at+".bus_limit_amps"], _ = strconv.ParseFloat(f[2], 64)
	}
	for _, m := range methods {
		p.readings(at+"."+m, o, m)
	}
}

var methods = []string{"existing_83", "optional_82", "measured_87", "mobile_550_18", "general"}

func (p probe) readings(at string, o *section, method string) {
	for i, f := range strings.Fields(o.first("panel." + method)) {
		p[at+"."+[]string{"continuous", "full", "literal"}[i]], _ = strconv.ParseFloat(f, 64)
	}
}

func (p probe) price(at string, o *section) {
	p[at+".unpriced"] = keysOf(o.lines["unpriced"])
	total, tax := strings.Fields(o.first("total")), strings.Fields(o.first("tax"))
	if len(total) < 3 || len(tax) < 3 {
		return
	}
	all, _ := strconv.ParseFloat(total[1], 64)
	taxed, _ := strconv.ParseFloat(tax[1], 64)
	p[at+".price_total"], p[at+".price_before_tax"] = all, all-taxed
}

// weighed reads one option of all that were weighed: the verdict at a setting,
// and what could be made of the outlet.
func (p probe) weighed(o *section) {
	if f := strings.Fields(o.first("outlet")); len(f) == 3 && f[2] != "as_it_is" {
		kind := f[2]
		p[kind+".setting_amps"], _ = o.number("setting_a")
		p[kind+".breaker_amps"], _ = o.number("breaker_a")
		p.outlet(kind, o)
		p.price(kind, o)
	}
	if o.first("way") != "hardwired" || o.first("managed") == "true" || o.first("panel.verdict") == "" {
		return
	}
	at := "verdict." + o.first("setting_a")
	p[at] = o.first("panel.verdict")
	p.price("new_circuit_"+o.first("breaker_a"), o)
	for _, m := range methods {
		if o.first("panel."+m) == "" {
			continue
		}
		p.readings(at+"."+m, o, m)
		p["house."+m], _ = o.number("house." + m)
		// Without a method named, the least of those that decide is meant.
		full, _ := p[at+"."+m+".full"].(float64)
		if least, done := p[at+".full"].(float64); o.first("decides."+m) == "true" && (!done || full < least) {
			p.readings(at, o, m)
		}
	}
	if list, _ := p["measures"].([]string); len(list) < len(o.lines["measure"]) {
		p["measures"] = o.lines["measure"]
	}
}

// keyOf is the key of a sentence, without its arguments.
func keyOf(sentence string) string {
	key, _, _ := strings.Cut(sentence, " ")
	return key
}

func keysOf(sentences []string) []string {
	out := []string{}
	for _, s := range sentences {
		out = append(out, keyOf(s))
	}
	return out
}

// measure reads what gives room: the feeder and the panel at its end, a small
// panel beside a full one, and a service of its own bill.
func (p probe) measure(o *section) {
	if strings.HasPrefix(o.first("taken"), "upgrade_service") {
		total, tax := strings.Fields(o.first("apart.total")), strings.Fields(o.first("apart.tax"))
		if len(total) == 4 && len(tax) == 3 {
			all, _ := strconv.ParseFloat(total[1], 64)
			taxed, _ := strconv.ParseFloat(tax[1], 64)
			p["service_upgrade.price"] = all - taxed
		}
	}
	if !slices.Contains(o.lines["role"], "best_fit") {
		return
	}
	if amps, ok := o.number("subpanel_a"); ok {
		p["subpanel.amps"] = amps
	}
	if amps, ok := o.number("feeder.device_a"); ok {
		p["feeder.amps"] = amps
		p["feeder.wire"], _, _ = strings.Cut(o.first("feeder.wire"), " in ")
		p["feeder.ground"] = o.first("feeder.ground")
		p["feeder.drop_volts"], _ = o.number("feeder.drop_v")
		p["branch.drop_volts"], _ = o.number("circuit.drop_v")
	}
}
