// Package caution finds what is dangerous or does not fit together in what a
// household told, and says what to do now.
//
// findings.yaml holds two lists. A finding (D-101 and on) has a gravity: it
// halts, adds lines, or is said; each is reached by a condition over leaves,
// by a code another room raised, or only on site. A contradiction (C-01 and
// on) names two facts that cannot both be right. What people read stands
// apart in words/<locale>.yaml under the same code.
//
// [Book.Findings] lays every condition beside the facts and returns what was
// found in one fixed order, gravest first. A condition that rests on a leaf
// nobody has told is never true and never false: where the finding asks for
// it, it comes out as to be checked, naming the missing leaves. A danger is
// never assumed away.
//
// Read [Finding] first. Standards used: NFPA 70 (NEC), section beside each
// finding; CPSC publication 516. The room decides no setting and no price,
// and it does not hold the words of the conversation.
package caution
