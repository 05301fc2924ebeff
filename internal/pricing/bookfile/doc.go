// Package bookfile reads the data files that a shop's staff edits, and says of
// every mistake where it is and what would do.
//
// It answers: what stands at this place of this file, and if it is wrong, in
// which file, on which line, under which field? A [Node] is one value of a YAML
// (or JSON) file. Asking it for a kind of value either gives the value or adds
// a fault to the shared [Faults] and gives zero, so one pass over a folder
// reports every mistake and not only the first.
//
// Read [Open], then [Node]. Anchors, aliases, tags and a key named twice are
// refused: what is not plain is not for people to edit. The package knows no
// prices; it serves its parent and room shop.
package bookfile
