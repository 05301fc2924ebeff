// Package circuit designs the branch circuit that feeds a vehicle charger, and
// the feeder to the panel it starts from where that is needed.
//
// It answers: for this setting, in this place, over this route, which breaker,
// which conductors, which raceway, which termination does the code book ask
// for, and what material does that take? [Design] works in the order an
// electrician does: load, overcurrent device, conductors by three separate
// tests, voltage drop, grounding conductor, wiring method and raceway,
// termination, materials. It sizes every candidate that might do, keeps those
// that meet all limits, and ranks them; a [Job] may bring its own cost.
// [DesignFeeder] does the same for a feeder, to a detached building in place of
// what supplies it today, or to a panel beside a full one.
//
// Read [Job], then [Result]. A circuit that cannot be built is a result that
// says what fails and what would do; an error is only a job that makes no
// sense. [Allowed] is the inverse: what may be set on a circuit that is there.
//
// Standards used: NFPA 70 through room edition, in whose answers the sections
// live. Served: 120, 208 and 240 V single-phase circuits in NM-B, MC and UF-B
// cable and THWN-2 or XHHW-2 copper in EMT, PVC or RMC, in the ground too, with
// at most two changes of method on the way; feeders also in aluminium and SER.
// Not here: parallel conductors, services, prices, and the judgement of an
// outlet already there (room circuit/outlet).
package circuit
