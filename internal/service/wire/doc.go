// Package wire maps between the contract and the core, both ways; nothing else
// does.
//
// It answers: what does this message say in the core's own values, and how does
// this result read on the wire? Facts are walked: [Facts] and [FactsMessage]
// lay the leaf table beside the descriptor of the contract, so a leaf added to
// both needs no line here, and a test fails when it is added to one. The other
// results are mapped by hand, each in the file of its room.
//
// Messages of faults name the field of the request. Words for people are made
// here, in the locale asked for, from keys and terms of the core; see [Words].
// The room decides nothing: no defaults of engineering, no rounding.
package wire
