// Package unsaved keeps unsaved work in files, so that it outlives the program.
//
// Make a [Keeper] with [New] and call [Keeper.Keep] after every change and
// [Keeper.Drop] when nothing is unsaved any more; [Find] gives what an earlier
// run has left.
//
// # Promises
//
// Work on a brief lies in a file of its own, which says in its first line, a
// comment, what brief it belongs to; what follows is the text. It appears whole
// or not at all, in the first of the places where it can be written and locked.
// A file that is there already, or that somebody else has changed, is never
// written over and never taken away. Two runs at work on one brief keep two
// files: the lock beside each says whose run is still there. What is found
// stays where it is until it is removed on request.
//
// # Refusals
//
// Nothing is kept where no lock can be had. What is locked is not found, for it
// is not left but in use.
package unsaved
