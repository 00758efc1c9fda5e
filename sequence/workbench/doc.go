// Package workbench is a brief being worked on: its text, the plan it gives,
// and every step that led there.
//
// Call [Open] with a brief's text, [Bench.Do] with an [Op] for each change,
// [Bench.Undo] and [Bench.Redo] to go back and forth, and [Bench.View] for all
// that a page shows. [Bench.GiveUp] takes a gesture, such as a drag, back as if it had
// never been. [Operations] lists what can be done.
//
// # Promises
//
// The text is the only thing that is worked on. An operation changes it through
// [brief.Edit], leaving comments, order and line ends alone, and holds only if
// the new text is a brief that has a plan; otherwise nothing has changed. So
// saving the text and planning it by other means gives the same plan. History
// has no limit, and a step keeps only the bytes it changed. The same operations
// on the same text give the same text. An operation on one piece changes no
// other; those the program chose are written out first. Every piece keeps its place and its
// name unless it is the one that is moved, and one that is left to the program
// keeps its table. [Bench.Others], [Bench.Ways] and [Bench.Trail] change nothing: what
// they find is another version, planned through, which [Bench.Take] takes.
//
// # Refusals
//
// An operation that can't be done is refused with [brief.Problems] that say why
// and what to do. Nothing is read from disk and nothing depends on a clock. A
// Bench is not for use by several goroutines at a time.
package workbench
