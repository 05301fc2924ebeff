// Package panel answers: can my house carry it?
//
// It works in the order an electrician does. What the house may draw is the
// least of its ratings ([Capacity]). What it would draw with the charger is
// calculated by every method the edition permits: the optional methods for an
// existing and for one dwelling (220.83, 220.82), a year of measured demand
// (220.87), the mobile home sheet (550.18) and the general method (Part III).
// The charger enters each in up to three [Reading]s, and the [Verdict] follows
// from the safest reading that passes. Then the spaces in the panel, the bus
// where a source feeds back, and, when it does not fit, the [Measure]s that
// would help, cheapest first.
//
// Read [Input] first, then [Calculate] and [Result]. [LargestSetting] searches
// a setting, [Flips] says what would change the verdict, [QuickScreen] spares
// an easy house its inventory. The values of the code, dated by edition with
// section and status, are methods.yaml, opened as a [Book]; rating plates are
// appliances.yaml ([OpenAppliances]); what to think of a house nobody has
// looked into is priors.yaml ([OpenPriors]).
//
// Standards used: NFPA 70 (NEC) articles 220 (120 in 2026), 230, 310, 408,
// 550, 625, 630, 705, 750 (130 in 2026), editions 2017 to 2026.
//
// The room designs no circuit, prices nothing and reads no facts. It never
// rounds amperes into a verdict, and it never fills an unknown in silence:
// the caller draws unknowns from the priors and says so.
package panel
