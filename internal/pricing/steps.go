package pricing

import (
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// step keeps one line of working: two terms at least, the result among them
// under the name out.
func (t *tally) step(r rule, first, out working.Term, more ...working.Term) {
	if !t.sheet.Keeping() {
		return
	}
	in := working.In(first)
	copy(in[1:], more)
	t.sheet.Add(working.Step{Rule: ruleKeys[r].key, In: in, Out: out, Source: &ruleSources[r]})
}

func num(name string, n int64, unit string) working.Term {
	return working.Term{Name: name, Value: float64(n), Unit: unit}
}

func amps(name string, a unit.Amps) working.Term { return working.Num(name, a, "A") }

func term(name, text string) working.Term { return working.Term{Name: name, Word: text} }

// feetTerm shows a length that is counted in thousandths of a foot.
func feetTerm(name string, milliFeet int64) working.Term {
	return working.Term{Name: name, Value: float64(milliFeet) / 1000, Unit: "ft"}
}

// percent shows a share that is counted in ten-thousandths.
func percent(name string, share int64) working.Term {
	return working.Term{Name: name, Value: float64(share) / 100, Unit: "%"}
}

// money shows an amount in the book's currency.
func (t *tally) money(name string, minor int64) working.Term {
	v := float64(minor)
	for range t.book.Currency.Digits() {
		v /= 10
	}
	return working.Term{Name: name, Value: v, Unit: t.book.code}
}

func (t *tally) stepHours(k *task, e *entry, product, scale [3]int64) {
	if !t.sheet.Keeping() {
		return
	}
	per := k.unit
	if per[0] >= '0' && per[0] <= '9' {
		per = "× " + per // 3.4 × 10 ft
	}
	t.step(ruleHours, working.Term{Name: "quantity", Value: float64(e.quantity) / thousand, Unit: per},
		working.Term{Name: "out", Value: float64(e.hours[Likely]) / 100, Unit: "h"},
		working.Term{Name: "task", Value: float64(k.hours[Likely]) / 10_000, Unit: "h"},
		working.Term{Name: "factor", Value: float64(product[Likely]) / float64(scale[Likely])}, term("code", k.code))
}

func (t *tally) stepTotal(f *Figures) {
	t.step(ruleTotal, t.money("subtotal", f.Subtotal[Likely]), t.money("out", f.Total[Likely]),
		t.money("permit", f.Permit[Likely]), t.money("tax", f.Tax[Likely]))
	t.step(ruleSpread, t.money("mean", round(f.AllIn.Mean)), t.money("out", round(f.AllIn.SD)),
		t.money("low", round(f.AllIn.P10)), t.money("high", round(f.AllIn.P90)))
}

func (t *tally) stepTenFeet(b *Bill) {
	if b.TenMoreFeet != (Triple{}) {
		t.step(ruleTenFeet, working.Num("assumed", b.FeetAssumed, "ft"), t.money("out", b.TenMoreFeet[Likely]))
	}
}

func nfpa(section string, status working.Status) working.Source {
	return working.Source{Publication: "NFPA 70 (NEC)", Section: section, Status: status}
}

func practice(what string) working.Source {
	return working.Source{Publication: "common practice of estimating", Section: what, Status: working.Judgement}
}

// ruleSources is where each rule is written.
var ruleSources = [rulesEnd]working.Source{
	ruleEquipment:           practice("cheapest equipment that meets every limit"),
	ruleBreaker:             nfpa("625.41, 210.20(A)", working.FromMemory),
	ruleCable:               practice("used length with slack and waste"),
	ruleStaples:             nfpa("334.30", working.FromMemory),
	ruleCableConnectors:     nfpa("314.17", working.FromMemory),
	ruleNailPlates:          nfpa("300.4", working.FromMemory),
	ruleRaceway:             practice("whole sticks"),
	ruleRacewayExposed:      nfpa("352.10(K), 300.5(D)", working.FromMemory),
	ruleCouplings:           nfpa("358.42", working.FromMemory),
	ruleBodies:              nfpa("358.26, 352.26", working.FromMemory),
	ruleConnectors:          nfpa("358.42", working.FromMemory),
	ruleStrapsEMT:           nfpa("358.30", working.FromMemory),
	ruleElbows:              practice("factory elbows"),
	ruleAdapters:            practice("one adapter at each end"),
	ruleExpansion:           nfpa("300.5(J), 352.44", working.FromMemory),
	ruleStrapsPVC:           nfpa("Table 352.30", working.FromMemory),
	ruleCement:              practice("joints of one can"),
	ruleConductors:          nfpa("300.14; waste by common practice", working.FromMemory),
	ruleBushings:            nfpa("300.4(G)", working.FromMemory),
	ruleJunction:            nfpa("300.15, 314.16", working.FromMemory),
	ruleBox:                 nfpa("314.16", working.FromMemory),
	ruleReceptacle:          nfpa("210.21(B)", working.FromMemory),
	ruleReceptacleReplaced:  nfpa("406.4(D)", working.FromMemory),
	ruleCover:               nfpa("406.9", working.FromMemory),
	ruleSplices:             nfpa("110.14(B)", working.FromMemory),
	ruleDisconnect:          nfpa("625.43, 225.31", working.FromMemory),
	ruleManagement:          nfpa("625.42, 750.30", working.FromMemory),
	ruleService:             practice("service upgrade, its own bill"),
	ruleLabels:              nfpa("408.4, 110.22, 625.42", working.FromMemory),
	ruleFirestop:            nfpa("300.21", working.FromMemory),
	ruleSeal:                nfpa("300.7(A)", working.FromMemory),
	ruleWarningTape:         practice("tape above the run"),
	ruleHire:                practice("whole days of hire"),
	ruleRestore:             practice("each foot that is dug"),
	rulePatch:               practice("each hole"),
	ruleMount:               practice("pedestal on a base"),
	ruleSundries:            practice("once a job with new wiring"),
	ruleHours:               practice("hours × factors, at most one of a group, held at the cap"),
	ruleTrip:                practice("one trip a visit"),
	ruleMinimum:             practice("shown as its own line"),
	ruleDiscount:            practice("largest remainder"),
	rulePermitFlat:          practice("the authority's fee, passed on"),
	rulePermitPerItem:       practice("the authority's fee, passed on"),
	rulePermitPerAmp:        practice("the authority's fee, passed on"),
	rulePermitValuation:     practice("the authority's fee, passed on"),
	rulePermitNone:          practice("no fee"),
	ruleTaxDue:              practice("rate of the place, rounded once by its own rule"),
	ruleTaxInside:           practice("rate of the place, rounded once by its own rule"),
	ruleTaxNone:             practice("no tax"),
	ruleTotal:               practice("printed lines added"),
	ruleSpread:              practice("P10 and P90; lines of a trade move together by 0.6"),
	ruleTenFeet:             practice("the longest segment ten feet longer"),
	ruleBoard:               nfpa("408.36, 225.39", working.FromMemory),
	ruleGroundBar:           nfpa("408.40", working.FromMemory),
	ruleMoved:               practice("joined in the old panel, carried on along the feeder"),
	ruleRods:                nfpa("250.53(A)(2)", working.FromMemory),
	ruleElectrodeWire:       nfpa("250.66", working.FromMemory),
	ruleBonding:             nfpa("250.104", working.FromMemory),
	ruleTandem:              nfpa("408.54, 110.3(B)", working.FromMemory),
	ruleSwap:                practice("panelboard at the same rating, its own bill"),
	ruleSurge:               nfpa("230.67", working.FromMemory),
	ruleEmergencyDisconnect: nfpa("230.85", working.FromMemory),
	ruleStrapsMC:            nfpa("330.30", working.FromMemory),
	ruleStrapsFlex:          nfpa("348.30, 350.30", working.FromMemory),
	ruleWhip:                practice("used length with waste"),
	ruleJointCompound:       nfpa("110.14", working.FromMemory),
	ruleAside:               practice("named beside the bill, not in it"),
}
