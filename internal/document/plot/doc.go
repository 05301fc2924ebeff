// Package plot draws: receptacle faces, vehicle inlets and bodies as SVG.
//
// Everything is a pure function from an id to a picture. [Face] draws a
// receptacle from the geometry of faces.yaml, in millimetres; [Inlet] and
// [Body] are plain drawings of our own. Every picture has a role, a title and
// a description, draws in currentColor, holds no script, link or web font,
// and prefixes its ids so that several may stand on one page.
//
// The slots of some faces were transcribed from ANSI/NEMA WD 6 and others are
// drawn from memory. Until a face is verified its description says "shape
// only, not to scale", and no part may be made from it.
//
// The room knows no household and no rule; it imports the ground floor only.
package plot
