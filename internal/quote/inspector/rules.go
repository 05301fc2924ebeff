package inspector

import (
	"daybreak/internal/quote"
)

// Rule is one thing an inspector looks at.
type Rule struct {
	Name    string
	Section string
}

// rule is a rule with the function that looks, at the whole quote or at each
// option, shown or not.
type rule struct {
	Rule
	quote func(*sight)
	each  func(*sight, *quote.Option)
}

// Rules lists every rule, in the order they are looked at.
func Rules() []Rule {
	out := make([]Rule, len(rules))
	for i := range rules {
		out[i] = rules[i].Rule
	}
	return out
}

var rules = append(append(append(circuitRules, panelRules...), billRules...), quoteRules...)

var circuitRules = []rule{
	{Rule: Rule{"setting-within-breaker", "625.41, 210.20(A)"}, each: (*sight).settingWithinBreaker},
	{Rule: Rule{"breaker-standard", "240.6(A), 625.41"}, each: (*sight).breakerStandard},
	{Rule: Rule{"load-counted", "625.42"}, each: (*sight).loadCounted},
	{Rule: Rule{"terminals", "210.19(A), 110.14(C)(1)"}, each: (*sight).terminals},
	{Rule: Rule{"conditions", "310.15, 334.80"}, each: (*sight).conditions},
	{Rule: Rule{"protection", "240.4, 240.4(B), 240.4(D)"}, each: (*sight).protection},
	{Rule: Rule{"cable-dry", "334.12(B)(4), 300.9"}, each: (*sight).cableDry},
	{Rule: Rule{"buried-cover", "300.5, 340.10"}, each: (*sight).buriedCover},
	{Rule: Rule{"cable-not-exposed", "334.15(B)"}, each: (*sight).cableNotExposed},
	{Rule: Rule{"cable-not-in-concrete", "334.10, 334.12(A)"}, each: (*sight).cableNotInConcrete},
	{Rule: Rule{"cable-size", "334.104, 340.104"}, each: (*sight).cableSize},
	{Rule: Rule{"cable-column", "334.80"}, each: (*sight).cableColumn},
	{Rule: Rule{"ground-by-device", "250.122"}, each: (*sight).groundByDevice},
	{Rule: Rule{"ground-in-proportion", "250.122(B)"}, each: (*sight).groundInProportion},
	{Rule: Rule{"drop-within-limit", "210.19(A) informational note, Chapter 9 Table 9"}, each: (*sight).dropWithinLimit},
	{Rule: Rule{"raceway-fill", "Chapter 9 Tables 1, 4 and 5"}, each: (*sight).racewayFill},
	{Rule: Rule{"whole-route", "common practice"}, each: (*sight).wholeRoute},
	{Rule: Rule{"receptacle-rating", "210.21(B)(1)"}, each: (*sight).receptacleRating},
	{Rule: Rule{"receptacle-face", "625.44, 250.114"}, each: (*sight).receptacleFace},
	{Rule: Rule{"hardwired-above-40", "625.44"}, each: (*sight).hardwiredAbove},
	{Rule: Rule{"ground-fault", "210.8, 625.54"}, each: (*sight).groundFault},
	{Rule: Rule{"disconnect", "625.43"}, each: (*sight).disconnect},
	{Rule: Rule{"one-supply", "225.30"}, each: (*sight).oneSupply},
	{Rule: Rule{"detached-disconnect", "225.31, 225.32"}, each: (*sight).detachedDisconnect},
	{Rule: Rule{"individual-circuit", "625.40"}, each: (*sight).individualCircuit},
	{Rule: Rule{"coupler-height", "625.50"}, each: (*sight).couplerHeight},
	{Rule: Rule{"weather", "406.9, 406.12"}, each: (*sight).weather},
	{Rule: Rule{"poles", "240.15(B)"}, each: (*sight).poles},
	{Rule: Rule{"neutral", "200.3, ANSI/NEMA WD 6"}, each: (*sight).neutral},
	{Rule: Rule{"takeoff-agrees", "common practice"}, each: (*sight).takeoffAgrees},
}

var panelRules = []rule{
	{Rule: Rule{"capacity", "230.79, 230.90, 310.12, 408.36"}, each: (*sight).capacity},
	{Rule: Rule{"existing-dwelling-load", "220.83"}, each: (*sight).existingLoad},
	{Rule: Rule{"optional-load", "220.82"}, each: (*sight).optionalLoad},
	{Rule: Rule{"optional-least-service", "220.82(A)"}, each: (*sight).optionalLeastService},
	{Rule: Rule{"measured-load", "220.87"}, each: (*sight).measuredLoad},
	{Rule: Rule{"mobile-load", "550.18"}, each: (*sight).mobileLoad},
	{Rule: Rule{"verdict", "220.80 to 220.87, 230.42"}, each: (*sight).verdict},
	{Rule: Rule{"offered-only-if-carried", "220.80, 230.79"}, each: (*sight).offeredOnlyIfCarried},
	{Rule: Rule{"managed-setpoint", "220.70, 625.42, 750.30"}, each: (*sight).managedSetpoint},
	{Rule: Rule{"spaces", "408.54, 110.3(B)"}, each: (*sight).spaces},
}

var billRules = []rule{
	{Rule: Rule{"bill-lines", "common practice of estimating"}, each: (*sight).billLines},
	{Rule: Rule{"bill-sum", "common practice of estimating"}, each: (*sight).billSum},
	{Rule: Rule{"bill-tax", "the tax row printed on the bill"}, each: (*sight).billTax},
	{Rule: Rule{"bill-permit", "the permit schedule printed on the bill"}, each: (*sight).billPermit},
	{Rule: Rule{"bill-order", "common practice of estimating"}, each: (*sight).billOrder},
	{Rule: Rule{"bill-spread", "common practice of estimating"}, each: (*sight).billSpread},
	{Rule: Rule{"bill-holds-the-circuit", "110.3(B)"}, each: (*sight).billHoldsTheCircuit},
}

var quoteRules = []rule{
	{Rule: Rule{"edition", "the permit's date"}, quote: (*sight).edition},
	{Rule: Rule{"danger-halts", "110.12(B), 110.14; common practice"}, quote: (*sight).dangerHalts},
	{Rule: Rule{"halted-not-bookable", "common practice"}, quote: (*sight).haltedNotBookable},
	{Rule: Rule{"only-fits-is-ready", "230.42, 220.82"}, quote: (*sight).onlyFitsIsReady},
	{Rule: Rule{"permission", "common practice"}, quote: (*sight).permission},
	{Rule: Rule{"assumed-is-not-ready", "common practice"}, quote: (*sight).assumedIsNotReady},
	{Rule: Rule{"cheapest-first", "common practice"}, quote: (*sight).cheapestFirst},
	{Rule: Rule{"at-most-three", "common practice"}, quote: (*sight).atMostThree},
	{Rule: Rule{"enough-is-cheapest", "the order of the options, as decided"}, quote: (*sight).enoughIsCheapest},
	{Rule: Rule{"best-fit-within-reach", "the order of the options, as decided"}, quote: (*sight).bestFitWithinReach},
	{Rule: Rule{"room-to-grow", "the order of the options, as decided"}, quote: (*sight).roomToGrow},
	{Rule: Rule{"unique-names", "common practice"}, quote: (*sight).uniqueNames},
	{Rule: Rule{"band-order", "common practice of estimating"}, quote: (*sight).bandOrder},
	{Rule: Rule{"dwelling-level", "job: no direct-current charging at a dwelling"}, each: (*sight).dwellingLevel},
	{Rule: Rule{"power-least-of-limits", "625.41, SAE J1772"}, each: (*sight).powerLeastOfLimits},
	{Rule: Rule{"outlet-within-limits", "210.21(B), 240.4, 625.41"}, each: (*sight).outletWithinLimits},
	{Rule: Rule{"outlet-alone", "625.40, 220.60"}, each: (*sight).outletAlone},
	{Rule: Rule{"outlet-no-cord", "400.12, 110.3(B)"}, each: (*sight).outletNoCord},
	{Rule: Rule{"outlet-stopped", "110.12(B), 250.114, 625.44"}, each: (*sight).outletStopped},
	{Rule: Rule{"no-wire-where-none-may-go", "common practice"}, each: (*sight).noWireWhereNoneMayGo},
}
