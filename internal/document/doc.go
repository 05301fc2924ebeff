// Package document prints a quote for a person to hold: now as plain text for
// a terminal. Sub-room plot draws receptacle faces, inlets and vehicles.
//
// Text lays a quote out in the order a buyer asks: the result in one sentence,
// how firm it is, what is dangerous, the options, the circuit beside the line
// that says who builds it, the load worksheet, the bill line by line so that
// anybody can add it again, what was assumed, and the working behind every
// number with formula, section and status.
//
// Read [Printer] first. The room computes nothing: it prints what room quote
// found, in the words of one locale.
package document
