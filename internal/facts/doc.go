// Package facts is the household as far as it is known.
//
// It answers: what do we know of this home, this car and this driver, and how
// did we come by each of it? Every leaf is a [Known]: unknown, unsure, narrowed
// to some values, told, or derived from a table or another answer. The zero
// value is unknown, so no zero amps can pass for an answer.
//
// Read [Facts] first: a plain struct of slots that copies with = and compares
// with ==. Then [Leaf]: the one table that the wire, the question tree, the
// conditions, the chips and the fingerprint all walk. Rooms that know a leaf
// by name use the struct; rooms that walk leaves use [Leaf.At] and [Slot].
// [DeriveWithin] fills what follows from other leaves, [Complete] also what follows
// from tables; neither touches a leaf that was told or narrowed.
//
// Names, phones, e-mails and addresses are never facts. Engines do not import
// this room: each takes a small plain input that its caller fills from here.
// The room converts no typed units (km, m²); that is done at the edge.
package facts
