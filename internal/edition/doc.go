// Package edition is the code book as questions with cited answers.
//
// It answers what a designer asks while sizing a circuit: which device is the
// next standard one, what this conductor may carry here, which grounding
// conductor follows the device, what fits the raceway, whether this outlet
// needs ground-fault protection. Each answer is a [Cited] value: the figure
// and the place it is written, with how firmly that place is known. A question
// the book cannot answer is an error, never a default.
//
// Read [Edition] first. A designer holds an Edition and never learns which
// book or which year it is; section numbers live in the answers. The book of
// the National Electrical Code is room edition/nec. The tests hold a second,
// deliberately different book, in square millimetres, so that the seam admits
// CSA C22.1 and BS 7671 without touching a caller. A jurisdiction's own rules
// are [Amendment] switches over a book; the answers then name its publication.
//
// Standards used: the words of NFPA 70 and IEC 60364. This room holds no
// figures and no rule of its own; and it does not design: see room circuit.
package edition
