// Package quote answers the shopper: what do I need, can my house carry it,
// and what will it cost?
//
// [Compose] takes a household whose every leaf has a value (told, looked up,
// assumed or drawn), the shop's books and a date, and works in this order:
// what the driver needs in a night; what could be made of the outlets already
// there; a new circuit at each standard setting, each with its panel check and
// its price, and again under energy management where the panel cannot carry
// it. From these the three options shown (*enough for now*, *best fit*, *room
// to grow*) are chosen by one stated rule and laid out in full: working, load
// worksheets, bill. Findings, as told and never as assumed, and the standing
// close it; a danger halts. [Price] runs the same rule on figures alone, for
// draws, and weighs no more than it must.
//
// The room reads no clock and draws no unknown: see room band for what is not
// known. Where a rule has a word for not knowing, such as the wire inside a
// wall, what is usual is not taken for what is there.
//
// What a new circuit needs of the panel is part of its option: a feeder to a
// building that is fed today, a small panel for spaces, a new panel in place of
// fuses on a bill of its own ([Apart]). What would make a larger charger fit, a
// load gone, a shared circuit or a larger service, stands whole among the other
// ways and is never taken for enough or best.
//
// Read [Quote] first, then [Option]. What people read is made of [Sentence]
// values, a key with its arguments; words/<locale>.yaml holds the words.
// [Canonical] prints a quote in our own canonical form, byte for byte the same
// on every platform; [Fingerprint] names what it was made from.
//
// The room designs no circuit, calculates no load and prices no line itself.
package quote
