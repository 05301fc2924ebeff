// Package pricing turns a design and a route into a bill: what does this work
// cost here, line by line, and how far may it move?
//
// It works in the order a careful estimator does. [LoadBook] reads a shop's
// price book and refuses one that is wrong or has a gap the engine could fall
// into. [Book.At] gives the place: region, permit schedule, tax row, unit
// prices. [FromCircuit], [FromFeeder] and [FromOutlet] turn a design into
// [Work], and [FromMeasure] what the panel asks for: work that joins the
// circuit's bill, takes its place, or is a bill of its own, as a service upgrade
// is; [SumOf] adds such bills. What others price is an [Aside]. Then
// [Price] counts lengths with drops, tails, slack and waste, fittings and
// supports by their spacing, hours by task and condition, multiplies by unit
// prices rounded beforehand, and adds trip, minimum charge, permit and tax.
// [Estimate] gives the same figures without lines, for draws.
//
// Every amount is an integer of minor units; half goes to even, but tax goes
// by its own law. The likely total is the exact sum of the printed lines. Low
// and high of a line are P10 and P90; those of the bill come from [Spread],
// since the sum of lows is no quantile of the sum.
//
// Read [Work], then [Bill]. Standards used: NFPA 70 (NEC) for supports, bends,
// boxes and covers; the rest is common practice of estimating, marked so in
// the working. The room knows nothing of programmes, of the panel's verdict,
// of languages or of today's date. It bills NM-B, UF-B, MC, SER and buried feeder
// cable, EMT, RMC, PVC and flexible whips.
package pricing
