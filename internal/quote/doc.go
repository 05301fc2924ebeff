// Package quote answers the shopper: what do I need, can my house carry it,
// and what will it cost?
//
// [Compose] takes a household whose every leaf has a value (told, looked up,
// assumed or drawn), the shop's [Books] and a date, and works in this order:
// findings first, since a danger halts; what the driver needs in a night; what
// could be made of the outlets already there; a new circuit at each standard
// setting, each with its panel check and its bill; then the three options
// shown (*enough for now*, *best fit*, *room to grow*) by one stated rule, and
// the standing. It reads no clock and draws no unknown: see room band for what
// is not known, and [shop.Books.Complete] for what tables derive.
//
// Read [Quote] first, then [Option]. What people read is made of [Sentence]
// values, a key with its arguments; words/<locale>.yaml holds the words.
// [Canonical] prints a quote in our own canonical form, byte for byte the same
// on every platform; [Fingerprint] names what it was made from.
//
// The room designs no circuit, calculates no load and prices no line itself.
package quote
