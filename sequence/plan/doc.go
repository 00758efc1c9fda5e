// Package plan turns a brief into a plan: the warp's stripes, the pieces of the
// set, both faces, what can be seen of them, the yarn and the warp they take.
//
// Call [Make] with a brief from package brief. A [Plan] is a value: it is made
// once and only read afterwards, by drawings, pages and reports alike.
//
// The warp's length is reckoned in warp.go, notes are raised in notes.go and the files
// named after what they are about.
//
// Where the brief has a [vary] table, the pieces it leaves open are chosen by
// package choose from candidates that follow from its rules and seed. [Try]
// draws up rhythms to look at, [RunsOf] writes a plan's sequences out as runs.
//
// # Promises
//
// The same brief gives the same plan, byte for byte, on every processor. Whole
// numbers are decided on exact rationals. Lengths are in millimetres (yarn in
// metres), weights in grams, and the unit stands in each name. Four lengths are
// kept apart: wound, woven (on the loom, under tension), relaxed and finished.
//
// # Refusals
//
// A rhythm that does not fit its units and a float longer than 12 mm finished
// are refused, with the place in the brief; so is a set that the yarn on hand
// does not reach for, where the brief makes that a limit. Everything else that
// would spoil the cloth is a [Note] of level "warning".
package plan
