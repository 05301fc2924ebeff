package pricing

import "slices"

// wirings lists the material of a run, wiring by wiring.
func (t *tally) wirings(r *run) {
	for i := range r.wirings {
		s := t.stretch(r, i)
		switch s.Method {
		case NMB, UFB, MC, SER, MHF:
			t.cable(&s)
		case EMT:
			t.emt(&s)
		case RMC:
			t.rmc(&s)
		case PVC40, PVC80:
			t.pvc(&s)
		case FMC, LFMC:
			t.flexible(&s)
		default:
			t.fail(outOfBounds(s.at, s.Method, "NM-B, UF-B, MC, SER, MHF, EMT, RMC, PVC40, PVC80, FMC or LFMC"))
		}
	}
}

// cabling is how a cable is sold and held.
type cabling struct {
	buried   bool   // made to lie in the ground
	material string // of its conductors, where the design says none
	support  Method // whose supports it takes
	staples  bool   // supports come in two sizes of staple
	ends     Method // whose connectors it takes
}

// Source: NFPA 70 334.30 for NM and, by 340.10(4) and 338.10(B)(4), for UF and
// SER indoors; 330.30 for MC. Feeder cable in the ground is held by the soil.
var cablings = map[Method]cabling{
	NMB: {material: "CU", support: NMB, staples: true, ends: NMB},
	UFB: {buried: true, material: "CU", support: NMB, staples: true, ends: UFB},
	MC:  {material: "CU", support: MC, ends: MC},
	SER: {material: "AL", support: SER, ends: SER},
	MHF: {buried: true, material: "AL", support: SER, ends: SER},
}

// cable lists a cable with its supports, connectors and, where it comes out of
// the ground, its sleeve.
//
// Source: NFPA 70 334.30, 330.30, 300.14, 300.4, 300.5(D); allowances common
// practice.
func (t *tally) cable(s *stretch) {
	c := cablings[s.Method]
	if s.trench() > 0 && !c.buried {
		t.fail(outOfBounds(s.at, s.Method, "UF-B, MHF or a raceway in a trench"))
		return
	}
	feet := with(s.length+s.drops+s.tails, t.book.allowances.cable)
	k := key{kind: "cable", a: string(s.Method), b: s.Cable.Size, c: s.Cable.Material, n: int32(s.Cable.Conductors)}
	if k.c == "" {
		k.c = c.material
	}
	if _, sold := t.book.index[k]; !sold && k.n == 2 {
		k.n = 3 // large cables come with a neutral, which is left capped
	}
	t.length(k, feet, ruleCable, s.at)
	t.step(ruleCable, feetTerm("run", s.length), num("out", feet, "ft"), feetTerm("drops", s.drops), feetTerm("tails", s.tails),
		percent("allowance", t.book.allowances.cable))
	t.cableSupports(s, &c)
	t.counted(s.at, key{kind: "cable_connector", a: string(c.ends), b: cableRange(c.ends, s.Cable.Size)}, s.Connectors, ruleCableConnectors)
	t.counted(s.at, key{kind: "protection", a: "nail_plate"}, s.NailPlates, ruleNailPlates)
	if s.sleeved() {
		t.sticks(s.Exposed, s, s.drops, ruleRacewayExposed)
	}
	if k.c == "AL" {
		t.jointCompound()
	}
}

// sleeved reports whether a buried cable is guarded where it comes up.
func (s *stretch) sleeved() bool {
	return cablings[s.Method].buried && s.Exposed != "" && s.TradeSize != "" && s.drops > 0
}

func (t *tally) cableSupports(s *stretch, c *cabling) {
	held := s.exposed() - s.byKind[Fished]
	if s.sleeved() {
		held -= s.drops
	}
	if held <= 0 {
		return
	}
	spacing, rule := t.book.allowances.nmSupport, ruleStaples
	k := key{kind: "support", a: string(c.support), b: "strap"}
	switch {
	case c.staples && slices.Index(wireSizes, s.Cable.Size) >= slices.Index(wireSizes, "8"):
		k.b = "staple_large"
	case c.staples:
		k.b = "staple_small"
	case c.support == MC:
		spacing, rule, k.c = t.book.allowances.mcSupport, ruleStrapsMC, cableRange(MC, s.Cable.Size)
	}
	n := ceilDiv(held, spacing) + 1
	t.item(k, n, rule, s.at)
	t.step(rule, feetTerm("length", held), num("out", n, ""), feetTerm("spacing", spacing))
}

// cableRange is the range of sizes a connector or strap is sold for.
func cableRange(method Method, size string) string {
	switch size {
	case "14", "12", "10":
		if method != SER {
			return "12-10"
		}
	case "8", "6":
		if method != SER {
			return "8-6"
		}
	}
	switch method {
	case SER:
		return "all"
	case MC:
		return "4-1"
	}
	return "4-2"
}

// counted adds parts that the designer has counted.
func (t *tally) counted(field string, k key, n int, r rule) {
	if n > 0 {
		t.item(k, int64(n), r, field)
		t.step(r, num("pieces", int64(n), ""), num("out", int64(n), ""))
	}
}

// jointCompound is for aluminium terminations, a tube a job.
//
// Source: NFPA 70 110.14, instructions of connectors; common practice.
func (t *tally) jointCompound() {
	k := key{kind: "consumable", a: "antioxidant"}
	if id, ok := t.book.index[k]; ok && t.has(id) {
		return
	}
	t.item(k, 1, ruleJointCompound, "design.wiring")
	t.step(ruleJointCompound, num("tubes", 1, ""), num("out", 1, ""))
}

// has reports whether an item is on the bill already.
func (t *tally) has(id int32) bool {
	for i := range t.entries() {
		if t.room[i].kind == ItemLine && t.room[i].ref == id {
			return true
		}
	}
	return false
}
