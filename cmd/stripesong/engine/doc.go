// Package engine answers what the page asks, whoever carries the questions: the
// server on the weaver's machine, or the page itself where all of it is one file. It
// knows nothing of HTTP but the numbers of its answers.
//
// Call [New] with a bench and a [Storage], then [Engine.Answer]. One thing is worked on at
// a time; meanwhile all that only looks is answered, the page is told what takes so
// long, and it can be stopped, which leaves the bench as it was. Every change is given
// to the [Storage] to keep before it is answered.
package engine
