// Package sequence turns rhythm rules into stripes of whole units and puts
// colours and blocks on them.
//
// [Kinds] are the rules there are. Call [Rhythm.Base] for the proportions a rule
// means, [Share] or [ShareMirrored] to make whole units of them, [Order.Assign]
// to lay colours on the stripes, and [Stripes] or [Overlay] for the finished
// bands. It knows nothing of weave, yarn and files.
//
// # Promises
//
// Every decision is made on whole numbers, so the same rule gives the same
// stripes on every processor. Chance comes only from the generator passed in.
//
// # Refusals
//
// A rhythm with more stripes than there are units is an error that says how
// many would fit, as [TooManyError].
package sequence
