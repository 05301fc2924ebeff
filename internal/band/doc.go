// Package band makes a quote honest about what is not known: the range of
// installed price over every open fact, which facts move it, and how firm the
// quote may stand.
//
// [Quote] fills the open leaves of a household with the middle of what the
// question tree expects and composes the quote that is shown. Then it tries
// each open leaf alone, to say what it moves and whether it decides; a quote
// with a deciding leaf open is a ballpark. Last it draws all of them together,
// by quasi-random points with a fixed seed, through the same composition on a
// price-only path. Each draw is a bill with its own spread; the band is the
// P10, P50 and P90 of their mixture, never a sum of lows. A household with
// nothing open that matters gets its bill's own figures.
//
// Read [Quote] first. Method: Halton points (J. H. Halton, 1960) and the
// three-point spread of room pricing. The room asks no question and never
// fills a leaf in silence: every assumption is listed with its basis.
package band
