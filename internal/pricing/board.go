package pricing

import (
	"strconv"

	"daybreak/internal/unit"
)

// feeder lists a feeder from its breaker to the board it supplies, the circuits
// that go over to it, and its electrodes.
//
// Source: NFPA 70 408.36 and 408.40 for the board, 225.39 and 250.32 for a
// detached building, 408.4 for its directory.
func (t *tally) feeder() {
	f := &t.work.Design.Feeder
	if f.none() {
		return
	}
	t.breaker("design.feeder.breaker", &f.Breaker)
	r := t.feederRun()
	t.wirings(&r)
	t.board(&f.Board)
	for i := range f.Moved {
		t.moved(&r, &f.Moved[i])
	}
	for i := range f.Refed {
		t.breaker("design.feeder.refed", &f.Refed[i])
	}
	t.electrodes("design.feeder.electrodes", &f.Electrodes)
}

// board finds the cheapest panelboard that reaches every figure named, and the
// bar its grounding conductors need, since its neutral is kept apart.
func (t *tally) board(b *Panelboard) {
	if b.Amps == 0 {
		return
	}
	id, ok := t.book.panelboard(b)
	if !ok {
		t.fail(missing("design.feeder.board", b.describe()))
		return
	}
	t.add(id, 1, ruleBoard)
	t.step(ruleBoard, amps("rating", b.Amps), num("out", 1, ""), num("spaces", int64(b.Spaces), ""))
	t.item(key{kind: "grounding", a: "ground_bar"}, 1, ruleGroundBar, "design.feeder.board")
	t.step(ruleGroundBar, num("boards", 1, ""), num("out", 1, ""))
}

func (b *Book) panelboard(want *Panelboard) (int32, bool) {
	location := "indoor"
	if want.Outdoor {
		location = "outdoor"
	}
	for _, id := range b.boards {
		for i := range b.items[id].selects {
			a := &b.items[id].selects[i]
			if a.kind == "subpanel" && a.values["location"] == location && unit.Amps(a.whole("bus_amps")) >= want.Amps &&
				a.whole("spaces") >= want.Spaces && (!want.Main || a.values["main_breaker"] == "true") {
				return id, true
			}
		}
	}
	return 0, false
}

func (b *Panelboard) describe() string {
	s := unit.Print(b.Amps, 0) + " A, " + strconv.Itoa(b.Spaces) + " spaces"
	if b.Outdoor {
		s += ", outdoor"
	}
	if b.Main {
		s += ", main breaker"
	}
	return s
}

// moved lists a circuit that is joined in the old panel and carried on into the
// board: its breaker there, and wire along the feeder, hot and neutral or both
// hots.
func (t *tally) moved(r *run, b *Breaker) {
	t.breaker("design.feeder.moved", b)
	size := cableFor(b.Amps)
	if size == "" || len(r.wirings) == 0 {
		return
	}
	milliFeet := r.startTail + r.endTail + milli(t.work.Design.Feeder.feet())
	feet := 2 * with(milliFeet, t.book.allowances.conductor)
	t.length(key{kind: "wire", a: "CU", b: "THWN-2", c: size}, feet, ruleMoved, "design.feeder.moved")
	t.step(ruleMoved, amps("rating", b.Amps), num("out", feet, "ft"), term("size", size))
}

// electrodes lists rods, their conductor and clamps, and clamps for pipes.
//
// Source: NFPA 70 250.52, 250.53(A)(2), 250.70, 250.104.
func (t *tally) electrodes(field string, e *Electrodes) {
	if e.Rods > 0 {
		t.item(key{kind: "grounding", a: "rod"}, int64(e.Rods), ruleRods, field)
		t.item(key{kind: "grounding", a: "rod_clamp"}, int64(e.Rods), ruleRods, field)
		t.step(ruleRods, num("rods", int64(e.Rods), ""), num("out", int64(e.Rods), ""))
	}
	if e.Feet > 0 {
		feet := with(milli(e.Feet), t.book.allowances.conductor)
		t.length(key{kind: "wire", a: "CU", b: "bare", c: e.Size}, feet, ruleElectrodeWire, field)
		t.step(ruleElectrodeWire, feetTerm("length", milli(e.Feet)), num("out", feet, "ft"), term("size", e.Size))
	}
	for _, p := range [...]struct {
		clamp string
		n     int
	}{{"water_clamp", e.WaterPipes}, {"gas_clamp", e.GasPipes}} {
		if p.n > 0 {
			t.item(key{kind: "grounding", a: p.clamp}, int64(p.n), ruleBonding, field)
			t.step(ruleBonding, num("pipes", int64(p.n), ""), num("out", int64(p.n), ""))
		}
	}
}

// tandems lists breakers that hold two circuits in one space.
//
// Source: NFPA 70 408.54, 110.3(B): only where the panel's label allows them.
func (t *tally) tandems(d *Tandems) {
	if d.Count > 0 {
		k := key{kind: "breaker", a: string(Standard), b: "tandem", n: int32(d.Amps), m: 1}
		t.item(k, int64(d.Count), ruleTandem, "design.tandems")
		t.step(ruleTandem, amps("rating", d.Amps), num("out", int64(d.Count), ""))
	}
}

// service lists a service upgrade, or a new panelboard where the rating stays.
//
// Source: NFPA 70 230.67 and 230.85 for surge protector and disconnect, from
// the 2020 edition on; the rest common practice.
func (t *tally) service(s *Service) {
	if s.To == 0 {
		return
	}
	if s.From == s.To {
		t.swap(s)
	} else {
		k := key{kind: "service_kit", a: s.Feed, n: int32(s.From), m: int32(s.To)}
		if _, ok := t.book.index[k]; !ok {
			k.a = "any"
		}
		t.item(k, 1, ruleService, "design.service")
		t.step(ruleService, amps("from", s.From), num("out", 1, ""), amps("to", s.To))
	}
	if s.EmergencyDisconnect {
		t.emergencyDisconnect(s)
	}
	if s.Surge && !t.book.kitHasSurge(t) {
		t.item(key{kind: "surge_device"}, 1, ruleSurge, "design.service")
		t.step(ruleSurge, num("devices", 1, ""), num("out", 1, ""))
	}
	t.electrodes("design.service.electrodes", &s.Electrodes)
}

// kitHasSurge reports whether the kit on the bill holds a surge protector.
func (b *Book) kitHasSurge(t *tally) bool {
	for i := range t.entries() {
		if e := &t.room[i]; e.kind == ItemLine && e.rule == ruleService {
			for _, a := range b.items[e.ref].selects {
				if a.values["surge"] == "true" {
					return true
				}
			}
		}
	}
	return false
}

// swap lists a new panelboard at the same rating: the smallest kit that holds
// it.
func (t *tally) swap(s *Service) {
	for _, id := range t.book.swaps {
		for _, a := range t.book.items[id].selects {
			if a.kind == "panel_swap_kit" && unit.Amps(a.whole("to_amps")) >= s.To {
				t.add(id, 1, ruleSwap)
				t.step(ruleSwap, amps("rating", s.To), num("out", 1, ""))
				return
			}
		}
	}
	t.fail(missing("design.service", "panel at "+unit.Print(s.To, 0)+" A"))
}

func (t *tally) emergencyDisconnect(s *Service) {
	for _, id := range t.book.disconnects {
		for _, a := range t.book.items[id].selects {
			if a.values["part"] == "emergency_disconnect" && unit.Amps(a.whole("amps")) >= s.To {
				t.add(id, 1, ruleEmergencyDisconnect)
				t.step(ruleEmergencyDisconnect, amps("rating", s.To), num("out", 1, ""))
				return
			}
		}
	}
	t.fail(missing("design.service", "emergency disconnect for "+unit.Print(s.To, 0)+" A"))
}
