package pricing

// rule says why a line is there: the key of its words, and the step of the
// design it follows from.
type rule uint8

const (
	ruleEquipment rule = iota
	ruleBreaker
	ruleCable
	ruleStaples
	ruleCableConnectors
	ruleNailPlates
	ruleRaceway
	ruleRacewayExposed
	ruleCouplings
	ruleBodies
	ruleConnectors
	ruleStrapsEMT
	ruleElbows
	ruleAdapters
	ruleExpansion
	ruleStrapsPVC
	ruleCement
	ruleConductors
	ruleBushings
	ruleJunction
	ruleBox
	ruleReceptacle
	ruleReceptacleReplaced
	ruleCover
	ruleSplices
	ruleDisconnect
	ruleManagement
	ruleService
	ruleLabels
	ruleFirestop
	ruleSeal
	ruleWarningTape
	ruleHire
	ruleRestore
	rulePatch
	ruleMount
	ruleSundries
	ruleHours
	ruleTrip
	ruleMinimum
	ruleDiscount
	rulePermitFlat
	rulePermitPerItem
	rulePermitPerAmp
	rulePermitValuation
	rulePermitNone
	ruleTaxDue
	ruleTaxInside
	ruleTaxNone
	ruleTotal
	ruleSpread
	ruleTenFeet
	ruleBoard
	ruleGroundBar
	ruleMoved
	ruleRods
	ruleElectrodeWire
	ruleBonding
	ruleTandem
	ruleSwap
	ruleSurge
	ruleEmergencyDisconnect
	ruleStrapsMC
	ruleStrapsFlex
	ruleWhip
	ruleJointCompound
	ruleAside
	rulesEnd
)

// ruleKeys is what each rule is called in the working and its words.
var ruleKeys = [rulesEnd]struct{ key, from string }{
	ruleEquipment:           {"pricing.equipment", "circuit.load"},
	ruleBreaker:             {"pricing.breaker", "circuit.device"},
	ruleCable:               {"pricing.cable", "circuit.terminals"},
	ruleStaples:             {"pricing.staples", "circuit.method"},
	ruleCableConnectors:     {"pricing.cable_connectors", "circuit.method"},
	ruleNailPlates:          {"pricing.nail_plates", "circuit.method"},
	ruleRaceway:             {"pricing.raceway", "circuit.fill"},
	ruleRacewayExposed:      {"pricing.raceway_exposed", "circuit.fill"},
	ruleCouplings:           {"pricing.couplings", "circuit.fill"},
	ruleBodies:              {"pricing.bodies", "circuit.fill"},
	ruleConnectors:          {"pricing.connectors", "circuit.fill"},
	ruleStrapsEMT:           {"pricing.straps_emt", "circuit.fill"},
	ruleElbows:              {"pricing.elbows", "circuit.fill"},
	ruleAdapters:            {"pricing.adapters", "circuit.fill"},
	ruleExpansion:           {"pricing.expansion", "circuit.fill"},
	ruleStrapsPVC:           {"pricing.straps_pvc", "circuit.fill"},
	ruleCement:              {"pricing.cement", "circuit.fill"},
	ruleConductors:          {"pricing.conductors", "circuit.terminals"},
	ruleBushings:            {"pricing.bushings", "circuit.fill"},
	ruleJunction:            {"pricing.junction", "circuit.method"},
	ruleBox:                 {"pricing.box", "circuit.receptacle"},
	ruleReceptacle:          {"pricing.receptacle", "circuit.receptacle"},
	ruleReceptacleReplaced:  {"pricing.receptacle_replaced", ""},
	ruleCover:               {"pricing.cover", "circuit.receptacle"},
	ruleSplices:             {"pricing.splices", ""},
	ruleDisconnect:          {"pricing.disconnect", "circuit.disconnect"},
	ruleManagement:          {"pricing.management", ""},
	ruleService:             {"pricing.service", ""},
	ruleLabels:              {"pricing.labels", "circuit.load"},
	ruleFirestop:            {"pricing.firestop", ""},
	ruleSeal:                {"pricing.seal", ""},
	ruleWarningTape:         {"pricing.warning_tape", ""},
	ruleHire:                {"pricing.hire", ""},
	ruleRestore:             {"pricing.restore", ""},
	rulePatch:               {"pricing.patch", ""},
	ruleMount:               {"pricing.mount", ""},
	ruleSundries:            {"pricing.sundries", ""},
	ruleHours:               {"pricing.hours", ""},
	ruleTrip:                {"pricing.trip", ""},
	ruleMinimum:             {"pricing.minimum", ""},
	ruleDiscount:            {"pricing.discount", ""},
	rulePermitFlat:          {"pricing.permit_flat", ""},
	rulePermitPerItem:       {"pricing.permit_per_item", ""},
	rulePermitPerAmp:        {"pricing.permit_per_amp", ""},
	rulePermitValuation:     {"pricing.permit_valuation", ""},
	rulePermitNone:          {"pricing.permit_none", ""},
	ruleTaxDue:              {"pricing.tax_due", ""},
	ruleTaxInside:           {"pricing.tax_inside", ""},
	ruleTaxNone:             {"pricing.tax_none", ""},
	ruleTotal:               {"pricing.total", ""},
	ruleSpread:              {"pricing.spread", ""},
	ruleTenFeet:             {"pricing.ten_feet", ""},
	ruleBoard:               {"pricing.board", ""},
	ruleGroundBar:           {"pricing.ground_bar", ""},
	ruleMoved:               {"pricing.moved", ""},
	ruleRods:                {"pricing.rods", ""},
	ruleElectrodeWire:       {"pricing.electrode_wire", ""},
	ruleBonding:             {"pricing.bonding", ""},
	ruleTandem:              {"pricing.tandem", ""},
	ruleSwap:                {"pricing.swap", ""},
	ruleSurge:               {"pricing.surge", ""},
	ruleEmergencyDisconnect: {"pricing.emergency_disconnect", ""},
	ruleStrapsMC:            {"pricing.straps_mc", ""},
	ruleStrapsFlex:          {"pricing.straps_flex", ""},
	ruleWhip:                {"pricing.whip", ""},
	ruleJointCompound:       {"pricing.joint_compound", ""},
	ruleAside:               {"pricing.aside", ""},
}

// Rules lists the key of every rule this room can put into a working.
func Rules() []string {
	keys := make([]string, 0, rulesEnd)
	for _, r := range ruleKeys {
		keys = append(keys, r.key)
	}
	return keys
}
