package pricing

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"daybreak/internal/unit"
)

// materials lists what is supplied, in the order a bill reads: equipment,
// feeder with its board, breaker, wiring, termination, disconnect, energy
// management, service, labels, penetrations, ground work, patching.
func (t *tally) materials() {
	d := &t.work.Design
	t.equipment(&d.Equipment)
	t.feeder()
	t.tandems(&d.Tandems)
	t.breaker("design.breaker", &d.Breaker)
	r := t.circuitRun()
	t.wirings(&r)
	t.junctions(d.Junctions)
	t.termination(d)
	if d.Splices > 0 {
		t.item(key{kind: "consumable", a: "antioxidant"}, 1, ruleSplices, "design.splices")
		t.item(key{kind: "consumable", a: "wire_connectors"}, 1, ruleSplices, "design.splices")
		t.step(ruleSplices, num("joints", int64(d.Splices), ""), num("out", 2, ""))
	}
	if d.Disconnect.Amps > 0 {
		k := key{kind: "disconnect", a: strconv.FormatBool(d.Disconnect.Fused), n: int32(d.Disconnect.Amps)}
		t.item(k, 1, ruleDisconnect, "design.disconnect")
		t.step(ruleDisconnect, amps("rating", d.Disconnect.Amps), num("out", 1, ""))
	}
	t.management(&d.Management)
	t.service(&d.Service)
	t.labels(d.Labels)
	t.penetrations(&t.work.Route)
	t.ground()
	t.patches(&t.work.Route)
	t.smallParts(d)
}

func (t *tally) patches(r *Route) {
	if r.Patches > 0 {
		t.item(key{kind: "patch", a: r.Surface}, int64(r.Patches), rulePatch, "route.surface")
		t.step(rulePatch, num("holes", int64(r.Patches), ""), num("out", int64(r.Patches), ""))
	}
}

// smallParts are billed once on a job with new wiring.
func (t *tally) smallParts(d *Design) {
	if len(d.Wiring) > 0 || len(d.Feeder.Wiring) > 0 {
		for _, k := range t.book.sundries {
			t.item(k, 1, ruleSundries, "sundries")
		}
		if n := int64(len(t.book.sundries)); n > 0 {
			t.step(ruleSundries, num("sets", n, ""), num("out", n, ""))
		}
	}
}

func (t *tally) equipment(e *Equipment) {
	if e.Supply != ShopSupplies {
		return
	}
	id, ok := t.book.charger(e)
	if !ok {
		t.fail(missing("design.equipment", e.describe()))
		return
	}
	t.add(id, 1, ruleEquipment)
	t.step(ruleEquipment, amps("setting", e.Setting), num("out", 1, ""))
	if e.Mount == MountPedestal {
		t.item(key{kind: "mount", a: "pedestal"}, 1, ruleMount, "design.equipment.mount")
		t.item(key{kind: "base", a: "pedestal"}, 1, ruleMount, "design.equipment.mount")
		t.step(ruleMount, num("pieces", 2, ""), num("out", 2, ""))
	}
}

// charger finds the cheapest charging equipment that meets every limit named.
func (b *Book) charger(e *Equipment) (int32, bool) {
	for _, id := range b.evses {
		for i := range b.items[id].selects {
			if b.items[id].selects[i].serves(e) {
				return id, true
			}
		}
	}
	return 0, false
}

func (a *attributes) serves(e *Equipment) bool {
	if a.kind != "evse" || a.values["plug"] != e.Plug {
		return false
	}
	output := a.settings[len(a.settings)-1]
	switch {
	case e.Output > 0 && output != int(e.Output):
	case e.Setting > 0 && !slices.Contains(a.settings, int(e.Setting)):
	case e.Level > 0 && a.values["level"] != strconv.Itoa(e.Level):
	case e.Connector != "" && a.values["connector"] != e.Connector:
	case e.Networked && a.values["networked"] != "true":
	case e.Managed && a.values["measured_management"] != "true":
	case e.Locked && e.Setting != unit.Amps(output) && a.values["setting_access_restricted"] != "true":
	default:
		return true
	}
	return false
}

func (e *Equipment) describe() string {
	ends := "hardwired"
	if e.Plug != "" {
		ends = "plug " + e.Plug
	}
	return strings.TrimSpace(fmt.Sprintf("equipment %s, setting %s A, output %s A %s", ends,
		unit.Print(e.Setting, 1), unit.Print(e.Output, 1), e.Connector))
}

func (t *tally) breaker(field string, b *Breaker) {
	if b.Amps == 0 {
		return
	}
	form := b.Form
	if form == "" {
		form = "full"
	}
	t.item(key{kind: "breaker", a: string(b.Protection), b: form, n: int32(b.Amps), m: int32(b.Poles)}, 1, ruleBreaker, field)
	t.step(ruleBreaker, amps("rating", b.Amps), num("out", 1, ""), term("protection", string(b.Protection)))
}

func (t *tally) junctions(boxes []Junction) {
	for _, j := range boxes {
		t.item(key{kind: "box", a: "junction", b: dryOrWet(j.Wet), c: j.Size}, 1, ruleJunction, "design.junctions")
	}
	if len(boxes) > 0 {
		t.step(ruleJunction, num("boxes", int64(len(boxes)), ""), num("out", int64(len(boxes)), ""))
	}
}

func (t *tally) termination(d *Design) {
	e := &d.Termination
	if e.Receptacle == "" {
		return
	}
	receptacle := key{kind: "receptacle", a: e.Receptacle, b: e.Grade}
	cover := key{kind: "cover", a: e.Receptacle, b: dryOrWet(e.Wet)}
	switch e.Extent {
	case NewOutlet:
		t.item(boxKey(e), 1, ruleBox, "design.termination.box")
		t.step(ruleBox, term("face", e.Receptacle), num("out", 1, ""))
		t.item(receptacle, 1, ruleReceptacle, "design.termination.receptacle")
		t.step(ruleReceptacle, term("face", e.Receptacle), num("out", 1, ""))
	case NewReceptacle:
		t.item(receptacle, 1, ruleReceptacleReplaced, "design.termination.receptacle")
		t.step(ruleReceptacleReplaced, term("face", e.Receptacle), num("out", 1, ""))
	}
	if e.Extent == NewOutlet || e.Cover {
		t.item(cover, 1, ruleCover, "design.termination.cover")
		t.step(ruleCover, term("face", e.Receptacle), num("out", 1, ""))
	}
}

func boxKey(e *Termination) key {
	k := key{kind: "box", a: string(e.Box), b: dryOrWet(e.Wet), n: 2}
	if small(e.Receptacle) {
		k.n = 1
	}
	if e.Wet {
		k.a = string(SurfaceWork)
	}
	return k
}

// small reports whether a configuration fits a single-gang box.
func small(config string) bool {
	return plugAmps[config] == "15" || plugAmps[config] == "20"
}

func dryOrWet(wet bool) string {
	if wet {
		return "wet"
	}
	return "dry"
}

func (t *tally) management(m *Management) {
	if m.Method == "" {
		return
	}
	for _, id := range t.book.managers {
		for _, a := range t.book.items[id].selects {
			if a.kind == "energy_management" && a.values["method"] == m.Method && a.whole("amps") >= int(m.Amps) {
				t.add(id, 1, ruleManagement)
				t.step(ruleManagement, amps("rating", m.Amps), num("out", 1, ""))
				return
			}
		}
	}
	t.fail(missing("design.management", m.Method+" for "+unit.Print(m.Amps, 0)+" A"))
}

var labelNames = [...]string{"evse_circuit", "max_current_setting", "disconnect", "underground", "energy_management", "panel_directory"}

func (t *tally) labels(set LabelSet) {
	n := int64(0)
	for i, name := range labelNames {
		if set&(1<<i) != 0 {
			t.item(key{kind: "label", a: name}, 1, ruleLabels, "design.labels")
			n++
		}
	}
	if n > 0 {
		t.step(ruleLabels, num("labels", n, ""), num("out", n, ""))
	}
}

func (t *tally) penetrations(r *Route) {
	t.item(key{kind: "firestop"}, int64(r.Firestops), ruleFirestop, "route.firestops")
	if r.Firestops > 0 {
		t.step(ruleFirestop, num("separations", int64(r.Firestops), ""), num("out", int64(r.Firestops), ""))
	}
	t.item(key{kind: "sealant"}, int64(r.Entries), ruleSeal, "route.entries")
	if r.Entries > 0 {
		t.step(ruleSeal, num("entries", int64(r.Entries), ""), num("out", int64(r.Entries), ""))
	}
}

// digging is how each kind of trench is dug and made good.
type digging struct {
	surface string // restored by the foot
	hire    string // hired by the day
	task    taskID
}

// Source: common practice; NFPA 70 300.5 asks for the cover, not for the way
// to dig.
var diggings = [segmentKinds]digging{
	TrenchLawn:     {"lawn", "trencher", taskTrenchMachine},
	TrenchHand:     {"lawn", "", taskTrenchHand},
	TrenchBed:      {"bed", "", taskTrenchHand},
	TrenchGravel:   {"gravel", "", taskTrenchGravel},
	TrenchConcrete: {"concrete", "", taskSawConcrete},
	TrenchAsphalt:  {"asphalt", "", taskSawAsphalt},
	TrenchPavers:   {"pavers", "", taskTrenchHand},
}

func (k SegmentKind) trench() bool { return k >= TrenchLawn }

// dug gives the routes that may lie in the ground.
func (t *tally) dug() [2][]Segment {
	return [2][]Segment{t.work.Design.Feeder.Segments, t.work.Route.Segments}
}

// ground lists tape, hire and restoration of everything that is dug.
func (t *tally) ground() {
	var feet [segmentKinds]int64
	var all int64
	for _, list := range t.dug() {
		for _, s := range list {
			if s.Kind.trench() {
				feet[s.Kind] += ceilDiv(milli(s.Feet), 1000)
				all += milli(s.Feet)
			}
		}
	}
	if all == 0 {
		return
	}
	all = ceilDiv(all, 1000)
	t.item(key{kind: "trench_part", a: "warning_tape"}, all, ruleWarningTape, "route.segments")
	t.step(ruleWarningTape, num("trench", all, "ft"), num("out", all, "ft"))
	for k := TrenchLawn; k < segmentKinds; k++ {
		if feet[k] > 0 && diggings[k].hire != "" {
			t.item(key{kind: "hire", a: diggings[k].hire}, 1, ruleHire, "route.segments")
			t.step(ruleHire, term("machine", diggings[k].hire), num("out", 1, ""))
		}
	}
	for k := TrenchLawn; k < segmentKinds; k++ {
		if feet[k] > 0 {
			t.item(key{kind: "restoration", a: diggings[k].surface}, feet[k], ruleRestore, "route.segments")
			t.step(ruleRestore, num("trench", feet[k], "ft"), num("out", feet[k], "ft"), term("surface", diggings[k].surface))
		}
	}
}

// keyText prints a key for a fault.
func keyText(k key) string {
	parts := []string{k.kind}
	for _, s := range []string{k.a, k.b, k.c} {
		if s != "" {
			parts = append(parts, s)
		}
	}
	if k.n != 0 {
		parts = append(parts, strconv.Itoa(int(k.n)))
	}
	if k.m != 0 {
		parts = append(parts, strconv.Itoa(int(k.m)))
	}
	return strings.Join(parts, " ")
}
