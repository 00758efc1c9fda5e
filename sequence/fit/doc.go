// Package fit turns the question of a plan round: not how much warp a set
// takes, but what set a warp gives.
//
// Call [Make] with a brief, its plan and a [Question]: how many pieces of the
// brief's size a warp holds, how long each could be if there were so many, what
// is left over, and whether that makes a short piece.
//
// # Promises
//
// How many pieces fit is decided on exact rationals, by the same arithmetic as
// the plan's wound length: take-up on all that is woven, fringes and waste
// besides. Lengths in the answer are millimetres, rounded to four decimals.
//
// The size of a piece is what the brief asks for (its woven length, or its
// finished length and hems); whole weft units may come out a little longer, so
// the most units that fit are told too. Where only runs set the length it is
// that of the longest piece.
//
// # Refusals
//
// A warp that its waste, sample and fringes use up, as an error. A warp too
// short for one piece is no error: the answer is 0 pieces.
package fit
