package pricing

import "slices"

// sticks adds a raceway by whole sticks and gives how many.
func (t *tally) sticks(method Method, s *stretch, length int64, r rule) int64 {
	feet := with(length, t.book.allowances.raceway)
	k := key{kind: "raceway", a: string(method), b: s.TradeSize}
	id, ok := t.book.index[k]
	if !ok || t.book.items[id].stickFeet == 0 {
		t.fail(missing(s.at, keyText(k)))
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
// Source: NFPA 70 358.26, 352.26 and 344.26.
func (t *tally) bodies(s *stretch) int64 {
	most := t.book.allowances.maxQuarterBends
	return max(0, ceilDiv(int64(s.QuarterBends), most)-1) + int64(s.Bodies)
}

// metal lists what tubing and rigid conduit have in common: sticks, couplings
// and bodies; it gives the bodies.
func (t *tally) metal(s *stretch, coupling string) int64 {
	sticks := t.sticks(s.Method, s, s.length+s.drops, ruleRaceway)
	t.fitting(s, s.Method, coupling, sticks-1, ruleCouplings)
	t.step(ruleCouplings, num("sticks", sticks, ""), num("out", max(0, sticks-1), ""))
	bodies := t.bodies(s)
	t.fitting(s, s.Method, "body_lb", bodies, ruleBodies)
	if bodies > 0 {
		t.step(ruleBodies, num("bends", int64(s.QuarterBends), ""), num("out", bodies, ""))
	}
	return bodies
}

func (t *tally) metalEnds(s *stretch, connector string, bodies int64) {
	t.fitting(s, s.Method, connector, 2+2*bodies, ruleConnectors)
	t.step(ruleConnectors, num("bodies", bodies, ""), num("out", 2+2*bodies, ""))
}

func (t *tally) metalStraps(s *stretch) {
	length := s.length + s.drops
	straps := ceilDiv(length, t.book.allowances.emtSupport) + 1
	t.fitting(s, s.Method, "strap", straps, ruleStrapsEMT)
	t.step(ruleStrapsEMT, feetTerm("length", length), num("out", straps, ""), feetTerm("spacing", t.book.allowances.emtSupport))
}

// emt lists electrical metallic tubing with its fittings and conductors.
//
// Source: NFPA 70 358.30 supports, 358.26 bends, 358.42 couplings and
// connectors, 300.4(G) bushings.
func (t *tally) emt(s *stretch) {
	coupling, connector := "coupling_set_screw", "connector_set_screw"
	if s.Wet {
		coupling, connector = "coupling_raintight", "connector_raintight"
	}
	t.metalEnds(s, connector, t.metal(s, coupling))
	t.metalStraps(s)
	t.counted(s.at, key{kind: "fitting", a: string(EMT), b: s.TradeSize, c: "bushing_insulated"}, s.Bushings, ruleBushings)
	t.conductors(s)
}

// rmc lists rigid metal conduit: threaded, with factory elbows, and a hub at
// each end, which is insulated where the wires are large.
//
// Source: NFPA 70 344.30 supports, 344.26 bends, 344.42 couplings, 344.46
// bushings.
func (t *tally) rmc(s *stretch) {
	t.metal(s, "coupling") // a body is threaded: it takes no connectors
	elbows := int64(s.QuarterBends)
	t.fitting(s, RMC, "elbow90", elbows, ruleElbows)
	if elbows > 0 {
		t.step(ruleElbows, num("bends", elbows, ""), num("out", elbows, ""))
	}
	t.fitting(s, RMC, "hub", 2, ruleAdapters)
	t.step(ruleAdapters, num("ends", 2, ""), num("out", 2, ""))
	if s.exposed() > 0 {
		t.metalStraps(s)
	}
	t.conductors(s)
}

// flexible lists a whip of flexible conduit with a connector at each end.
//
// Source: NFPA 70 348.30 and 350.30, within 12 in of each end and every 4 1/2
// ft; 348.42 and 350.42 connectors.
func (t *tally) flexible(s *stretch) {
	length := s.length + s.drops
	feet := with(length, t.book.allowances.raceway)
	t.length(key{kind: "raceway", a: string(s.Method), b: s.TradeSize}, feet, ruleWhip, s.at)
	t.step(ruleWhip, feetTerm("length", length), num("out", feet, "ft"))
	t.fitting(s, s.Method, "connector_straight", 2, ruleConnectors)
	t.step(ruleConnectors, num("bodies", 0, ""), num("out", 2, ""))
	straps := ceilDiv(length, t.book.allowances.flexSupport) + 1
	t.fitting(s, s.Method, "strap", straps, ruleStrapsFlex)
	t.step(ruleStrapsFlex, feetTerm("length", length), num("out", straps, ""), feetTerm("spacing", t.book.allowances.flexSupport))
	t.conductors(s)
}

func (t *tally) fitting(s *stretch, method Method, what string, n int64, r rule) {
	t.item(key{kind: "fitting", a: string(method), b: s.TradeSize, c: what}, n, r, s.at)
}

// pvc lists rigid PVC conduit: the buried part and what rises from it, or a
// run on a wall.
//
// Source: NFPA 70 Table 352.30 supports, 352.44 and 300.5(J) expansion, 352.26
// bends, 300.4(G) bushings.
func (t *tally) pvc(s *stretch) {
	buried, exposed := s.trench(), s.exposed()
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
	t.item(key{kind: "consumable", a: "pvc_cement"}, cans, ruleCement, s.at)
	t.step(ruleCement, num("joints", joints, ""), num("out", cans, ""), num("can", t.book.allowances.cementJoints, ""))
	t.counted(s.at, key{kind: "fitting", a: string(PVC40), b: s.TradeSize, c: "locknut_bushing"}, s.Bushings, ruleBushings)
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
	each := with(s.length+s.drops+s.tails, t.book.allowances.conductor)
	aluminium := false
	for _, c := range s.Conductors {
		k := key{kind: "wire", a: c.Material, b: c.Insulation, c: c.Size}
		if k.a == "" {
			k.a = "CU"
		}
		if k.b == "" {
			k.b = "THWN-2"
			if k.a == "AL" {
				k.b = "XHHW-2"
			}
		}
		if c.Count <= 0 {
			continue
		}
		aluminium = aluminium || k.a == "AL"
		t.length(k, each*int64(c.Count), ruleConductors, s.at)
		t.step(ruleConductors, num("each", each, "ft"), num("out", each*int64(c.Count), "ft"), num("count", int64(c.Count), ""),
			term("size", c.Size))
	}
	if aluminium {
		t.jointCompound()
	}
}
