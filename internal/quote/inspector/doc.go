// Package inspector checks a finished quote as an inspector checks a job: from
// the rules, not from the drawings.
//
// It answers: does anything on this quote break a rule? [Inspect] reads the
// quote as it would be printed and the household it was made for, works every
// figure out again by its own arithmetic over its own small tables, and lists
// each [Violation] with what it saw, what is allowed and the section. No
// violation means that nothing was found, not that the work may begin.
//
// The room is written apart from the designers it checks: it shares their
// result types and nothing else, calls none of their functions, asks no code
// book, and copies its values from the publications into tables.yaml (source
// and status beside each). A fault of a designer must not be able to hide here.
// A test walks the room's own source to hold this.
//
// Read [Rules] for the list, then Inspect. [Open] takes another set of tables.
//
// Standards used: NFPA 70 (NEC) 2017 to 2026, articles 110, 210, 220 (120), 240,
// 250, 300, 310, 334, 406, 550, 625, 750 (130) and Chapter 9; ANSI/NEMA WD 6.
//
// The room designs nothing, corrects nothing and judges no wording. It checks
// prices against their own print, not against a price book.
package inspector
