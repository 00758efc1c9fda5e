// Package choose picks a few out of many so that the two most alike of them
// differ as much as can be found, within what there is to make them of.
//
// Describe what can be chosen as a [Candidates] and call [Candidates.Best]. [Candidates.Spread]
// gives an order in which every beginning covers the candidates. What is chosen, and
// what it means to differ, is none of its business.
//
// # The search
//
// Farthest first (T. F. Gonzalez, "Clustering to minimize the maximum
// intercluster distance", Theoretical Computer Science 38, 1985): each choice
// is the candidate whose least difference to all before is greatest. Then one
// member at a time is exchanged, as long as that raises the least difference.
// Of all candidates looked at closely, the best set is found outright. It is
// work of the order of candidates times the number chosen.
//
// A set of n is grown from the set of n-1, and a set that keeps those members
// is taken where it comes within a twentieth of the best found. So asking for
// one more mostly adds one, see [Worth].
//
// # Promises
//
// Everything is decided on whole numbers; ties go to the lowest number. The
// bound is a bound: no choice from these candidates can do better.
package choose
