package pricing

import "slices"

// stretch is one wiring with its lengths, in thousandths of a foot.
type stretch struct {
	*Wiring
	byKind [segmentKinds]int64 // segments, without drops
	first  int                 // kind of the first segment; −1 without one
	run    int64               // all segments
	drops  int64
	tails  int64
}

// stretch adds up a wiring's part of the route. The drop at the panel and the
// tail there go with the first wiring, those at the device with the last; in
// between every end lies in a box.
func (t *tally) stretch(i int) stretch {
	a := &t.book.allowances
	last := i == len(t.work.Design.Wiring)-1
	s := stretch{Wiring: &t.work.Design.Wiring[i], first: -1, tails: 2 * a.boxTail}
	for j := range t.work.Route.Segments {
		g := &t.work.Route.Segments[j]
		if g.Wiring != i {
			continue
		}
		if s.first < 0 {
			s.first = int(g.Kind)
		}
		s.byKind[g.Kind] += milli(g.Feet)
		s.run += milli(g.Feet)
	}
	if i == 0 {
		s.drops += milli(t.work.Route.PanelDrop)
		s.tails += a.panelTail - a.boxTail
	}
	if last {
		s.drops += milli(t.work.Route.DeviceDrop)
		s.tails += a.deviceTail - a.boxTail
	}
	return s
}

// trench is the buried length.
func (s *stretch) trench() (feet int64) {
	for k := TrenchLawn; k < segmentKinds; k++ {
		feet += s.byKind[k]
	}
	return feet
}

// with lengthens by a share in ten-thousandths and gives whole feet.
//
// Source: allowances of the price book; common practice of estimating.
func with(milliFeet, share int64) int64 { return ceilDiv(milliFeet*(10_000+share), 10_000_000) }

func (t *tally) wiring(i int) {
	s := t.stretch(i)
	switch s.Method {
	case NMB:
		t.cable(&s)
	case EMT:
		t.emt(&s)
	case PVC40, PVC80:
		t.pvc(&s)
	default:
		t.fail(outOfBounds("design.wiring", s.Method, "NM-B, EMT, PVC40 or PVC80"))
	}
}

// cable lists NM-B with its supports.
//
// Source: NFPA 70 334.30, 300.14, 300.4; allowances common practice.
func (t *tally) cable(s *stretch) {
	feet := with(s.run+s.drops+s.tails, t.book.allowances.cable)
	k := key{kind: "cable", a: string(NMB), b: s.Cable.Size, c: "CU", n: int32(s.Cable.Conductors)}
	if _, sold := t.book.index[k]; !sold && k.n == 2 {
		k.n = 3 // large cables come with a neutral, which is left capped
	}
	t.length(k, feet, ruleCable, "design.wiring")
	t.step(ruleCable, feetTerm("run", s.run), num("out", feet, "ft"), feetTerm("drops", s.drops), feetTerm("tails", s.tails),
		percent("allowance", t.book.allowances.cable))
	supported := s.run - s.byKind[Fished] + s.drops
	if supported > 0 {
		n := ceilDiv(supported, t.book.allowances.nmSupport) + 1
		staple := "staple_small"
		if slices.Index(wireSizes, s.Cable.Size) >= slices.Index(wireSizes, "8") {
			staple = "staple_large"
		}
		t.item(key{kind: "support", a: string(NMB), b: staple}, n, ruleStaples, "design.wiring")
		t.step(ruleStaples, feetTerm("length", supported), num("out", n, ""), feetTerm("spacing", t.book.allowances.nmSupport))
	}
	t.counted(key{kind: "cable_connector", a: string(NMB), b: cableRange(s.Cable.Size)}, s.Connectors, ruleCableConnectors)
	t.counted(key{kind: "protection", a: "nail_plate"}, s.NailPlates, ruleNailPlates)
}

// cableRange is the range of sizes a cable connector is sold for.
func cableRange(size string) string {
	switch size {
	case "14", "12", "10":
		return "12-10"
	case "8", "6":
		return "8-6"
	}
	return "4-2"
}

// counted adds parts that the designer has counted.
func (t *tally) counted(k key, n int, r rule) {
	if n > 0 {
		t.item(k, int64(n), r, "design.wiring")
		t.step(r, num("pieces", int64(n), ""), num("out", int64(n), ""))
	}
}

// sticks adds a raceway by whole sticks and gives how many.
func (t *tally) sticks(method Method, s *stretch, length int64, r rule) int64 {
	feet := with(length, t.book.allowances.raceway)
	k := key{kind: "raceway", a: string(method), b: s.TradeSize}
	id, ok := t.book.index[k]
	if !ok || t.book.items[id].stickFeet == 0 {
		t.fail(missing("design.wiring", keyText(k)))
		return 0
	}
	n := ceilDiv(feet, t.book.items[id].stickFeet)
	t.add(id, n, r).used += feet
	t.step(r, feetTerm("length", length), num("out", n, ""), num("feet", feet, "ft"), num("stick", t.book.items[id].stickFeet, "ft"))
	return n
}

// bodies is how many conduit bodies a run of bends asks for: no more than four
// quarter bends between two points where wire can be pulled.
//
// Source: NFPA 70 358.26 and 352.26.
func (t *tally) bodies(s *stretch) int64 {
	most := t.book.allowances.maxQuarterBends
	return max(0, ceilDiv(int64(s.QuarterBends), most)-1) + int64(s.Bodies)
}

// emt lists electrical metallic tubing with its fittings and conductors.
//
// Source: NFPA 70 358.30 supports, 358.26 bends, 358.42 couplings and
// connectors, 300.4(G) bushings.
func (t *tally) emt(s *stretch) {
	length := s.run + s.drops
	sticks := t.sticks(EMT, s, length, ruleRaceway)
	coupling, connector := "coupling_set_screw", "connector_set_screw"
	if s.Wet {
		coupling, connector = "coupling_raintight", "connector_raintight"
	}
	t.fitting(s, EMT, coupling, sticks-1, ruleCouplings)
	t.step(ruleCouplings, num("sticks", sticks, ""), num("out", max(0, sticks-1), ""))
	bodies := t.bodies(s)
	t.fitting(s, EMT, "body_lb", bodies, ruleBodies)
	if bodies > 0 {
		t.step(ruleBodies, num("bends", int64(s.QuarterBends), ""), num("out", bodies, ""))
	}
	t.fitting(s, EMT, connector, 2+2*bodies, ruleConnectors)
	t.step(ruleConnectors, num("bodies", bodies, ""), num("out", 2+2*bodies, ""))
	straps := ceilDiv(length, t.book.allowances.emtSupport) + 1
	t.fitting(s, EMT, "strap", straps, ruleStrapsEMT)
	t.step(ruleStrapsEMT, feetTerm("length", length), num("out", straps, ""), feetTerm("spacing", t.book.allowances.emtSupport))
	t.counted(key{kind: "fitting", a: string(EMT), b: s.TradeSize, c: "bushing_insulated"}, s.Bushings, ruleBushings)
	t.conductors(s)
}

func (t *tally) fitting(s *stretch, method Method, what string, n int64, r rule) {
	t.item(key{kind: "fitting", a: string(method), b: s.TradeSize, c: what}, n, r, "design.wiring")
}

// pvc lists rigid PVC conduit: the buried part and what rises from it, or a
// run on a wall.
//
// Source: NFPA 70 Table 352.30 supports, 352.44 and 300.5(J) expansion, 352.26
// bends, 300.4(G) bushings.
func (t *tally) pvc(s *stretch) {
	buried := s.trench()
	exposed := s.run - buried + s.drops
	sticks := int64(0)
	if s.Exposed != "" && s.Exposed != s.Method && exposed > 0 {
		if buried > 0 {
			sticks = t.sticks(s.Method, s, buried, ruleRaceway)
		}
		sticks += t.sticks(s.Exposed, s, exposed, ruleRacewayExposed)
	} else {
		sticks = t.sticks(s.Method, s, buried+exposed, ruleRaceway)
	}
	bodies := t.bodies(s)
	elbows, expansions := int64(s.QuarterBends), int64(s.Expansions)
	t.fitting(s, PVC40, "elbow90", elbows, ruleElbows)
	if elbows > 0 {
		t.step(ruleElbows, num("bends", elbows, ""), num("out", elbows, ""))
	}
	t.fitting(s, PVC40, "body_lb", bodies, ruleBodies)
	if bodies > 0 {
		t.step(ruleBodies, num("bends", elbows, ""), num("out", bodies, ""))
	}
	t.fitting(s, PVC40, "adapter_male", 2, ruleAdapters)
	t.step(ruleAdapters, num("ends", 2, ""), num("out", 2, ""))
	t.fitting(s, PVC40, "expansion", expansions, ruleExpansion)
	if expansions > 0 {
		t.step(ruleExpansion, num("risers", expansions, ""), num("out", expansions, ""))
	}
	t.pvcStraps(s, exposed)
	joints := sticks - 1 + 2*(elbows+bodies) + 2 + 2*expansions
	cans := ceilDiv(joints, t.book.allowances.cementJoints)
	t.item(key{kind: "consumable", a: "pvc_cement"}, cans, ruleCement, "design.wiring")
	t.step(ruleCement, num("joints", joints, ""), num("out", cans, ""), num("can", t.book.allowances.cementJoints, ""))
	t.counted(key{kind: "fitting", a: string(PVC40), b: s.TradeSize, c: "locknut_bushing"}, s.Bushings, ruleBushings)
	t.conductors(s)
}

func (t *tally) pvcStraps(s *stretch, exposed int64) {
	if exposed <= 0 {
		return
	}
	spacing := t.book.allowances.pvcSupport
	if slices.Index(tradeSizes, s.TradeSize) > slices.Index(tradeSizes, "1") {
		spacing = t.book.allowances.pvcSupportWide
	}
	n := ceilDiv(exposed, spacing) + 1
	t.fitting(s, PVC40, "strap", n, ruleStrapsPVC)
	t.step(ruleStrapsPVC, feetTerm("length", exposed), num("out", n, ""), feetTerm("spacing", spacing))
}

// conductors lists the wires of a raceway, each with its tails.
func (t *tally) conductors(s *stretch) {
	each := with(s.run+s.drops+s.tails, t.book.allowances.conductor)
	for _, c := range s.Conductors {
		k := key{kind: "wire", a: c.Material, b: c.Insulation, c: c.Size}
		if k.a == "" {
			k.a = "CU"
		}
		if k.b == "" {
			k.b = "THWN-2"
		}
		if c.Count <= 0 {
			continue
		}
		t.length(k, each*int64(c.Count), ruleConductors, "design.wiring")
		t.step(ruleConductors, num("each", each, "ft"), num("out", each*int64(c.Count), "ft"), num("count", int64(c.Count), ""),
			term("size", c.Size))
	}
}
