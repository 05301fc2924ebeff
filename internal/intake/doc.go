// Package intake is the conversation: an append-only log of what was said, and
// what it comes to.
//
// It answers: what do we know after these entries, which question is open, and
// may this answer be added? Every function is pure: the log is read from
// records, the household is always the fold of the whole log, and instants are
// passed in. Nothing is ever patched in place.
//
// Read [Log], then [Fold]. [Answer], [Tell] and [Undo] check one thing to be
// said and return the entry to append; an entry that would overwrite what
// changed since its writer looked is a conflict that shows both values. An
// answer on a branch that no longer applies is set aside, not lost: it counts
// again when the branch does. Changing an answer is answering again; taking an
// undo back is undoing the undo.
//
// A danger is told by answering the danger-signs question, which applies at
// every turn; what it halts is judged from the facts by the rooms above.
// The room keeps no names and no free text, waits for nothing and stores
// nothing: revisions and their digests are the store's.
package intake
