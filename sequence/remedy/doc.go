// Package remedy finds ways out of what a plan warns of: other sizes, fewer
// pieces, other colours, another beat, each as a change to the brief's text.
//
// Call [Find] with a [Source], the brief's text and how it is read; each [Remedy]
// of the [Answer] has the changes that package brief writes, and what they cost.
//
// # Promises
//
// A remedy is offered only if the changed text was read and planned, and the plan
// no longer has the trouble it is for, nor more of any other. The least invasive
// comes first. The same text gives the same remedies in the same order.
//
// [FindRefused] is for a brief that has no plan, since the shelf does not reach for
// what the table vary is to choose within it; its ways out are planned through as well.
//
// # Limits
//
// Work is bounded by a number of plans, fewer where the program chooses pieces,
// which takes longer. Trouble for which nothing was found is named, with what came
// nearest.
package remedy
