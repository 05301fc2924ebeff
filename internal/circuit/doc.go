// Package circuit designs the branch circuit that feeds a vehicle charger.
//
// It answers: for this setting, in this place, over this route, which breaker,
// which conductors, which raceway, which termination does the code book ask
// for, and what material does that take? [Design] works in the order an
// electrician does: load, overcurrent device, conductors by three separate
// tests, voltage drop, grounding conductor, wiring method and raceway,
// termination, materials. It sizes every candidate that might do, keeps those
// that meet all limits, and ranks them; a [Job] may bring its own cost.
//
// Read [Job], then [Result]. A circuit that cannot be built is a result that
// says what fails and what would do; an error is only a job that makes no
// sense. [Allowed] is the inverse: what may be set on a circuit that is there.
//
// Standards used: NFPA 70 through room edition, in whose answers the sections
// live. Served: 120, 208 and 240 V single-phase branch circuits in NM-B cable
// and THWN-2 copper in EMT or PVC above ground, with at most one change from
// cable to raceway. Not here: feeders, buried runs, parallel conductors,
// prices, and the judgement of an outlet already there (room circuit/outlet).
package circuit
