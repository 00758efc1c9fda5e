// Package weave holds weave structures as data and works out what they do:
// threading, sheds, tie-up, treadling, heddles, floats, and which thread lies
// on top at every crossing.
//
// # What to call first
//
// [Lookup] for a built-in [Structure], or fill one in and call
// [Structure.Validate]: built-in and hand-written structures go through that
// one check, and every other method expects a structure that passed it.
// Then [Structure.Threading] of the warp and [Structure.Picks] of a piece, and
// from those two the rest: [FaceRows], [Structure.FloatsIn],
// [Structure.Treadles], [SelvedgeMisses].
//
// # Promises
//
// Everything is counted in ends, picks and units, in integers; there are no
// lengths here, no colours and no floating point. Ends run left to right as
// the weaver faces the loom, picks from the first woven up. A [Shed] is always
// what the weft covers on the face; the back is its complement, and only the
// tie-up knows whether a loom raises or sinks its shafts.
//
// # What is refused
//
// Structures whose ground is not plain weave: the tabby sheds must alternate
// at every crossing, over every join of units, and two blocks never share an
// end.
package weave
