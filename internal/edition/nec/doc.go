// Package nec is the code book of the National Electrical Code (NFPA 70), its
// editions of 2017, 2020, 2023 and 2026, as far as a dwelling's charging
// circuit asks.
//
// [Open] reads the tables and dated rules once and resolves every `since` into
// an immutable [Book] of one year, which answers as an edition.Edition. A
// table states its sections by year, its status and unit once, and each cell
// inherits them. Loading refuses a table without source, unit or status, a row
// named twice, and anything it does not know, by file and line.
//
// Read [Open], then [Unverified], which lists what was not seen in print. A new
// edition adds entries under its year and copies nothing. [Amended] opens a
// year as a jurisdiction has changed it: switches from a closed list set cells,
// and what they set is cited as the jurisdiction's own.
//
// Standards used: NFPA 70. The figures are the standard's; the words are ours.
// Where it may be read in two ways the safer is entered and the note says so.
// The load tables of Article 220 are not here: see room panel.
package nec
