// Package midway answers a weaver who sits at the loom with a part of a set woven: what
// the rest of the warp and of the yarn gives, and how to weave it so that it is still a
// set.
//
// Call [Make] with a brief's text and how it is read, the brief, its plan, and what was
// measured, from [brief.ParseProgress]. Each [Way] of the [Answer] has the whole text of
// the brief for the rest, in which the pieces that are woven are written out and [midway]
// says how far she is.
//
// # Promises
//
// A way is offered only if its text was read and planned, and the plan takes no more of
// the warp and of any yarn than there is. All pieces are of whole weft units. Pieces that
// are woven keep their number, name and runs. No piece that is yet to come passes for
// another unless it did in the brief. Shares that the measurements contradict are those
// measured from then on. The same texts give the same answer.
//
// # Refusals
//
// Measurements that contradict one another or can't be of this brief, as
// [brief.Problems] with their place. That the rest gives no piece is no error: there are
// no ways then, and what comes nearest is told.
package midway
